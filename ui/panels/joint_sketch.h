#pragma once
// Small end-on picture of one joint, drawn from the offsets that the panels have.
#include "core/geometry/polygon.h"
#include "core/plates/plate.h"
#include <QColor>
#include <QWidget>
#include <array>

namespace slab::ui {

/// One plate's cut through the edge: which thickness, and where its faces end from the skin's edge.
struct JointSide {
    QString name;
    double thickness = 0, outer = 0, inner = 0; ///< mm; outer = a, inner = b
    QColor tint;
};

/// Quads (outer far, outer end, inner end, inner far) of the two plates, mm, the skin's edge at (0, 0), the
/// inside of the body below. `arm` is how far the plates are drawn from the edge.
[[nodiscard]] std::array<Ring, 2> jointQuads(double dihedral, const JointSide& first, const JointSide& second,
                                             double arm);

class JointSketch : public QWidget {
    Q_OBJECT
public:
    explicit JointSketch(QWidget* parent = nullptr);
    /// @param dihedral  through the inside, radians; 0 = only the first side is drawn (a free edge)
    void show(double dihedral, const JointSide& mine, const JointSide& other);
    void clear();

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    double m_dihedral = 0;
    JointSide m_mine, m_other;
    bool m_any = false;
};

} // namespace slab::ui
