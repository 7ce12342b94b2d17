#pragma once
#include "ui/tables/cell_delegate.h"
#include "ui/tables/table_tree.h"

namespace slab::ui {

class PlatesModel;
class Session;

/// Tick, plate and sheet in one row; the chosen plate is chosen in every view.
class PlatesTable : public TableTree {
    Q_OBJECT
public:
    explicit PlatesTable(Session* session, QWidget* parent = nullptr);
    [[nodiscard]] PlatesModel* plates() const { return m_plates; }

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void contextMenuEvent(QContextMenuEvent* event) override;

private:
    void showSelected();
    void chooseRows();
    Session* m_session;
    PlatesModel* m_plates;
    bool m_showing = false;
};

class PlateDelegate : public CellDelegate {
    Q_OBJECT
public:
    using CellDelegate::CellDelegate;
    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const override;
    /// Only the box ticks: a click on the name chooses the plate.
    bool editorEvent(QEvent* event, QAbstractItemModel* model, const QStyleOptionViewItem& option,
                     const QModelIndex& index) override;
};

} // namespace slab::ui
