#pragma once
#include <QTimer>
#include <QTreeView>
#include <array>

namespace slab::ui {

/// A tree as high as its rows need (the column around it scrolls), worked by keys: Return or F2 edits, Space
/// ticks, Insert adds, Ctrl+D doubles, Delete deletes, Alt with up and down moves, Ctrl+C, X and V copy, cut
/// and paste.
class TableTree : public QTreeView {
    Q_OBJECT
public:
    using QTreeView::edit;
    explicit TableTree(QWidget* parent = nullptr);
    /// Fit the height to the rows, or scroll inside.
    void setFitting(bool fitting);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;
    void setModel(QAbstractItemModel* model) override;
    /// What to do next, shown while there are no rows.
    void setEmptyWords(const QString& words) { m_emptyWords = words; }

Q_SIGNALS:
    void addWanted();
    void duplicateWanted();
    void deleteWanted();
    void moveWanted(int by);
    void copyWanted();
    void cutWanted();
    void pasteWanted();

protected:
    bool edit(const QModelIndex& index, EditTrigger trigger, QEvent* event) override;
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void drawBranches(QPainter* painter, const QRect& rect, const QModelIndex& index) const override;
    void drawRow(QPainter* painter, const QStyleOptionViewItem& options,
                 const QModelIndex& index) const override;
    void paintEvent(QPaintEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;

private:
    [[nodiscard]] int rows(const QModelIndex& parent) const;
    /// Room between the three columns: labels are whole where figures leave them the room.
    void spread();
    /// Greatest width of each column's words in the rows that are open, px.
    void measure(const QModelIndex& parent, int depth, std::array<int, 3>& need) const;
    QTimer m_spread;
    bool m_fitting = true;
    QString m_emptyWords = "Nothing yet: + adds the first one.";
};

} // namespace slab::ui
