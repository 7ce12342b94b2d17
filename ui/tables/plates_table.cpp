#include "ui/tables/plates_table.h"
#include "ui/session/session.h"
#include "ui/tables/plates_model.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QComboBox>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLineEdit>
#include <QMouseEvent>
#include <QPainter>

namespace slab::ui {

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
    setEmptyWords("No plates yet: add a form.");
    explain(this, "Plates",
            "Every plate with its sheet and its place in the order of covering. Untick to leave one out.");
    viewport()->setAccessibleName("Plate rows");
    connect(selectionModel(), &QItemSelectionModel::currentChanged, this, [this](const QModelIndex& now) {
        if (!m_showing && now.isValid()) m_session->selectPlate(m_plates->nameAt(now.row()));
    });
    connect(session, &Session::selectionChanged, this, &PlatesTable::showSelected);
    connect(m_plates, &QAbstractItemModel::modelReset, this, &PlatesTable::showSelected);
}

void PlatesTable::showSelected() {
    m_showing = true;
    const int row = m_plates->rowOf(m_session->selection().plate);
    if (row < 0)
        clearSelection();
    else if (row != currentIndex().row() || !selectionModel()->isRowSelected(row, {}))
        setCurrentIndex(m_plates->index(row, PlatesModel::sheet));
    m_showing = false;
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
