#include "ui/tables/plates_table.h"
#include "ui/chosen/chosen_menu.h"
#include "ui/session/session.h"
#include "ui/tables/plates_model.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QComboBox>
#include <QContextMenuEvent>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLineEdit>
#include <QMenu>
#include <QMouseEvent>
#include <QPainter>
#include <set>

namespace slab::ui {

namespace {

std::set<int> rowsOf(const QItemSelection& selection) {
    std::set<int> rows;
    for (const QModelIndex& cell : selection.indexes()) rows.insert(cell.row());
    return rows;
}

} // namespace

PlatesTable::PlatesTable(Session* session, QWidget* parent)
    : TableTree(parent), m_session(session), m_plates(new PlatesModel(session, this)) {
    setModel(m_plates);
    setItemDelegate(new PlateDelegate(this));
    setRootIsDecorated(false);
    setHeaderHidden(false);
    header()->setFont(Theme::words(11));
    header()->setSectionsClickable(false);
    explain(header(), "Columns of plates",
            "Each plate, the sheet that it is cut from, and its place in the order.");
    setSelectionMode(QAbstractItemView::ExtendedSelection); // modules are made of several
    setEmptyWords("No plates yet: add a form.");
    explain(
        this, "Plates",
        "Every plate with its sheet and its place in the order of covering. Untick to leave one out; with "
        "Shift or Ctrl several are chosen.");
    viewport()->setAccessibleName("Plate rows");
    connect(selectionModel(), &QItemSelectionModel::selectionChanged, this, &PlatesTable::chooseRows);
    connect(session, &Session::selectionChanged, this, &PlatesTable::showSelected);
    connect(m_plates, &QAbstractItemModel::modelReset, this, &PlatesTable::showSelected);
}

/// What is chosen here is chosen everywhere.
void PlatesTable::chooseRows() {
    if (m_showing) return;
    Selection next;
    for (const QModelIndex& row : selectionModel()->selectedRows())
        next.plates << m_plates->nameAt(row.row());
    if (next.plates.isEmpty()) return;
    next.plate = next.plates.contains(m_plates->nameAt(currentIndex().row()))
                     ? m_plates->nameAt(currentIndex().row())
                     : next.plates.last();
    next.plates.removeOne(next.plate); // the last of them
    if (!next.plates.isEmpty()) next.plates << next.plate;
    m_session->select(next);
}

void PlatesTable::showSelected() {
    m_showing = true;
    const Selection& now = m_session->selection();
    const int row = m_plates->rowOf(now.plate);
    QItemSelection wanted;
    for (const QString& plate : now.plates.isEmpty() ? QStringList{now.plate} : now.plates)
        if (const int at = m_plates->rowOf(plate); at >= 0)
            wanted.select(m_plates->index(at, PlatesModel::plate), m_plates->index(at, PlatesModel::rank));
    if (row >= 0 && row != currentIndex().row())
        selectionModel()->setCurrentIndex(m_plates->index(row, PlatesModel::sheet),
                                          QItemSelectionModel::NoUpdate);
    if (row < 0)
        clearSelection();
    else if (rowsOf(wanted) != rowsOf(selectionModel()->selection()))
        selectionModel()->select(wanted, QItemSelectionModel::ClearAndSelect);
    m_showing = false;
}

void PlatesTable::contextMenuEvent(QContextMenuEvent* event) {
    const QPoint at = event->reason() == QContextMenuEvent::Mouse
                          ? event->globalPos()
                          : viewport()->mapToGlobal(visualRect(currentIndex()).center());
    chosenMenu(m_session, this)->popup(at);
}

void PlatesTable::keyPressEvent(QKeyEvent* event) {
    const QModelIndex tick = currentIndex().siblingAtColumn(PlatesModel::plate);
    if ((event->key() == Qt::Key_Space || event->key() == Qt::Key_Delete) && tick.isValid()) {
        const bool built = tick.data(Qt::CheckStateRole).toInt() == Qt::Checked;
        if (built || event->key() == Qt::Key_Space)
            m_plates->setData(tick, built ? Qt::Unchecked : Qt::Checked, Qt::CheckStateRole);
        return;
    }
    TableTree::keyPressEvent(event);
}

void PlatesTable::resizeEvent(QResizeEvent* event) {
    TableTree::resizeEvent(event);
    const int width = viewport()->width(), order = 52, sheet = std::clamp(width * 34 / 100, 70, 140);
    header()->resizeSection(PlatesModel::plate, std::max(60, width - sheet - order));
    header()->resizeSection(PlatesModel::sheet, sheet);
    header()->resizeSection(PlatesModel::rank, order);
}

void PlateDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const {
    if (index.column() != PlatesModel::plate) return CellDelegate::paint(painter, option, index);
    const bool built = index.data(Qt::CheckStateRole).toInt() == Qt::Checked;
    const Palette& c = Theme::colours();
    painter->save();
    if (option.state & QStyle::State_Selected) painter->fillRect(option.rect, c.chosenFill);
    paintTickBox(*painter, option.rect, built);
    const QFont font = Theme::words(12);
    painter->setFont(font);
    painter->setPen(built ? c.ink : c.quiet);
    const QRect cell = option.rect.adjusted(23, 0, -3, 0);
    painter->drawText(cell, Qt::AlignLeft | Qt::AlignVCenter,
                      QFontMetrics(font).elidedText(index.data().toString(), Qt::ElideMiddle, cell.width()));
    painter->restore();
}

bool PlateDelegate::editorEvent(QEvent* event, QAbstractItemModel* model, const QStyleOptionViewItem& option,
                                const QModelIndex& index) {
    constexpr int slack = 3; // px: the box is small
    if (event->type() == QEvent::MouseButtonRelease) {
        const QPointF at = static_cast<QMouseEvent*>(event)->position();
        if (!tickBox(option.rect).adjusted(-slack, -slack, slack, slack).contains(at)) return false;
    }
    return CellDelegate::editorEvent(event, model, option, index);
}

QWidget* PlateDelegate::createEditor(QWidget* parent, const QStyleOptionViewItem&,
                                     const QModelIndex& index) const {
    const auto* model = qobject_cast<const PlatesModel*>(index.model());
    if (!model) return nullptr;
    if (index.column() == PlatesModel::rank) {
        auto* line = new QLineEdit(parent);
        line->setFont(Theme::figures(12));
        explain(line, "Place in the order",
                "1 covers everything that it meets; empty = no place of its own.");
        return line;
    }
    auto* box = new QComboBox(parent);
    for (const SheetStock& sheet : model->session()->project().stock.sheets)
        box->addItem(QString::fromStdString(sheet.name), QString::fromStdString(sheet.name));
    box->addItem("left out", QString());
    explain(box, "Sheet", "The sheet that this plate is cut from.");
    auto* self = const_cast<PlateDelegate*>(this);
    connect(box, &QComboBox::activated, self, [self, box] {
        Q_EMIT self->commitData(box);
        Q_EMIT self->closeEditor(box);
    });
    return box;
}

} // namespace slab::ui
