#pragma once
#include "ui/board/field_strip.h"

class QLabel;
class QToolButton;

namespace slab::ui {

/// What the chosen edge is: straight, arc, ellipse or spline; its bulge, and how many flats replace it with
/// how much deviation.
class EdgeStrip : public QWidget {
    Q_OBJECT
public:
    explicit EdgeStrip(BoardDesk* desk, QWidget* parent = nullptr);
    void begin(const QString& typed);
    [[nodiscard]] bool serves() const;                                   ///< exactly one edge is chosen
    [[nodiscard]] bool takesFigures() const { return !curve().empty(); } ///< a straight one has none

Q_SIGNALS:
    void done();

private:
    void refresh();
    void bend(std::optional<CurveKind> kind);
    void take(StripEntry* entry, const char* key);
    [[nodiscard]] const BoardEdge* edge() const;
    [[nodiscard]] std::string curve() const;
    StripEntry* entry(const QString& label, const char* key);

    BoardDesk* m_desk;
    class ElidedLabel* m_heading;
    std::vector<QToolButton*> m_kinds; ///< straight, arc, ellipse, spline
    StripEntry *m_bulge, *m_facets, *m_tolerance;
    QLabel* m_deviation;
};

} // namespace slab::ui
