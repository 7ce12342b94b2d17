#pragma once
#include "ui/board/field_strip.h"

class QComboBox;

namespace slab::ui {

/// The chosen dimension line: its distance, to be typed, and the dimension that it drives.
class DimensionStrip : public QWidget {
    Q_OBJECT
public:
    explicit DimensionStrip(BoardDesk* desk, QWidget* parent = nullptr);
    void begin(const QString& typed);
    [[nodiscard]] bool serves() const { return m_desk->choice().dimension >= 0; }
    [[nodiscard]] StripEntry* distance() const { return m_distance; }
    [[nodiscard]] QComboBox* drives() const { return m_drives; }

Q_SIGNALS:
    void done();

private:
    void refresh();
    void take();
    void takeDriven(const QString& name);
    [[nodiscard]] const BoardDimension* line() const;

    BoardDesk* m_desk;
    class ElidedLabel* m_heading;
    StripEntry* m_distance;
    QComboBox* m_drives;
};

/// Types a distance into a line. A line that drives nothing yet gets a new dimension first, in the same step.
[[nodiscard]] Expected<Edit> typedDistance(const Project& project, const Scope& scope, int line,
                                           const Text& typed);
/// A name for a new dimension of a line: "stem_head_to_deck".
[[nodiscard]] std::string nameForLine(const Project& project, int line);

} // namespace slab::ui
