#pragma once
#include <QWidget>

namespace slab::ui {

/// The room under the sheet for the strip of what is chosen. Its height hangs on the size of the board alone,
/// so the sheet stands still whatever is chosen; a strip that needs more rows stands over the sheet's lower
/// edge.
class StripRoom : public QWidget {
    Q_OBJECT
public:
    explicit StripRoom(QWidget* board);
    /// Takes a strip in, hidden.
    void add(QWidget* strip);
    /// Shows this strip, and no other.
    void show(QWidget* strip);
    [[nodiscard]] QWidget* shown() const { return m_strip; }
    /// Rows for a board of this size.
    void giveRows(const QSize& board);

Q_SIGNALS:
    void covers(int px); ///< so much of the sheet, from below

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void moveEvent(QMoveEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;

private:
    void place();

    QWidget* m_sheet; ///< what the strips stand on: over the sheet where they are higher than the room
    QWidget* m_strip = nullptr;
};

} // namespace slab::ui
