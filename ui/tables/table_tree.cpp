#include "ui/tables/table_tree.h"
#include "ui/tables/cell_delegate.h"
#include "ui/theme/theme.h"
#include <QHeaderView>
#include <QKeyEvent>
#include <QPainter>
#include <QWheelEvent>

namespace slab::ui {

TableTree::TableTree(QWidget* parent) : QTreeView(parent) {
    setHeaderHidden(true);
    setUniformRowHeights(true);
    setIndentation(14);
    setItemDelegate(new CellDelegate(this));
    setSelectionBehavior(QAbstractItemView::SelectRows);
    setSelectionMode(QAbstractItemView::SingleSelection);
    setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed |
                    QAbstractItemView::SelectedClicked | QAbstractItemView::AnyKeyPressed);
    setExpandsOnDoubleClick(false);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    setTabKeyNavigation(false);
    setAllColumnsShowFocus(false);
    header()->setStretchLastSection(false);
    header()->setMinimumSectionSize(30);
    const auto fit = [this] {
        updateGeometry();
        m_spread.start();
    };
    connect(this, &QTreeView::expanded, this, fit);
    connect(this, &QTreeView::collapsed, this, fit);
    m_spread.setSingleShot(true); // many rows that change at once are measured once
    connect(&m_spread, &QTimer::timeout, this, &TableTree::spread);
    setFitting(true);
}

void TableTree::setModel(QAbstractItemModel* model) {
    QTreeView::setModel(model);
    const auto fit = [this] {
        updateGeometry();
        m_spread.start();
    };
    connect(model, &QAbstractItemModel::dataChanged, &m_spread, qOverload<>(&QTimer::start));
    connect(model, &QAbstractItemModel::rowsInserted, this, fit);
    connect(model, &QAbstractItemModel::rowsRemoved, this, fit);
    connect(model, &QAbstractItemModel::modelReset, this, fit);
}

bool TableTree::edit(const QModelIndex& index, EditTrigger trigger, QEvent* event) {
    // A click on a name chooses its row; the name is changed by a double click or from the menu. A box beside
    // the name is ticked in a chosen row too.
    const bool onName = trigger == SelectedClicked && index.column() == 0;
    return QTreeView::edit(index, onName ? NoEditTriggers : trigger, event);
}

void TableTree::setFitting(bool fitting) {
    m_fitting = fitting;
    setVerticalScrollBarPolicy(fitting ? Qt::ScrollBarAlwaysOff : Qt::ScrollBarAsNeeded);
    setSizePolicy(QSizePolicy::Preferred, fitting ? QSizePolicy::Fixed : QSizePolicy::Expanding);
    updateGeometry();
}

void TableTree::paintEvent(QPaintEvent* event) {
    QTreeView::paintEvent(event);
    if (!model() || model()->rowCount() > 0) return;
    QPainter painter(viewport());
    painter.setFont(Theme::words(12));
    painter.setPen(Theme::colours().quiet);
    painter.drawText(viewport()->rect().adjusted(4, 0, 0, 0), Qt::AlignLeft | Qt::AlignVCenter, m_emptyWords);
}

int TableTree::rows(const QModelIndex& parent) const {
    if (!model()) return 0;
    int count = model()->rowCount(parent);
    for (int i = 0; i < model()->rowCount(parent); ++i) {
        const QModelIndex child = model()->index(i, 0, parent);
        if (isExpanded(child)) count += rows(child);
    }
    return count;
}

QSize TableTree::sizeHint() const {
    const int head = isHeaderHidden() ? 0 : header()->sizeHint().height();
    return {240, m_fitting ? head + std::max(1, rows({})) * cellHeight + 4 : 200};
}

QSize TableTree::minimumSizeHint() const {
    return {120, m_fitting ? sizeHint().height() : 60};
}

void TableTree::resizeEvent(QResizeEvent* event) {
    QTreeView::resizeEvent(event);
    spread();
}

void TableTree::measure(const QModelIndex& parent, int depth, std::array<int, 3>& need) const {
    const QFontMetrics words(Theme::words(12)), figures(Theme::figures(12));
    constexpr int margin = 10;
    const auto text = [](const QModelIndex& at, int column) {
        return at.siblingAtColumn(column).data().toString();
    };
    for (int i = 0; i < model()->rowCount(parent); ++i) {
        const QModelIndex row = model()->index(i, 0, parent);
        const QString typed = text(row, 1), builds = text(row, 2);
        // A label without figures beside it has their room.
        if (!typed.isEmpty() || row.siblingAtColumn(1).data(Qt::CheckStateRole).isValid())
            need[0] =
                std::max(need[0], words.horizontalAdvance(text(row, 0)) + margin + depth * indentation());
        if (!builds.isEmpty()) { // a formula that builds nothing has that room too
            need[1] = std::max(need[1], figures.horizontalAdvance(typed) + margin);
            need[2] = std::max(need[2], figures.horizontalAdvance(builds) + margin);
        }
        if (isExpanded(row)) measure(row, depth + 1, need);
    }
}

void TableTree::spread() {
    const int width = viewport()->width(), columns = model() ? model()->columnCount() : 0;
    if (columns != 3) return;
    int builds = std::clamp(width * 33 / 100, 66, 130), what = std::clamp(width * 38 / 100, 80, 220);
    std::array<int, 3> need{};
    measure({}, rootIsDecorated() ? 1 : 0, need);
    // Labels that are cut short take what figures do not need; what is typed keeps a quarter.
    if (need[0] > what) {
        const int least = width / 4;
        builds = std::min(builds, std::max(need[2], 66));
        what = std::max(what, std::min(need[0], width - builds - std::max(need[1], least)));
    }
    header()->resizeSection(0, what);
    header()->resizeSection(2, builds);
    header()->resizeSection(1, std::max(40, width - what - builds));
}

void TableTree::wheelEvent(QWheelEvent* event) {
    // As high as its rows: the column around it scrolls.
    if (m_fitting)
        event->ignore();
    else
        QTreeView::wheelEvent(event);
}

void TableTree::drawBranches(QPainter* painter, const QRect& rect, const QModelIndex& index) const {
    if (selectionModel() && selectionModel()->isRowSelected(index.row(), index.parent()))
        painter->fillRect(rect, Theme::colours().chosenFill);
    if (!model()->hasChildren(index)) return;
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->setPen(QPen(Theme::colours().quiet, 1.5, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    const QPointF c(rect.right() - indentation() / 2.0 + 1, rect.center().y() + 0.5);
    if (isExpanded(index))
        painter->drawPolyline(QPolygonF{c + QPointF(-3.5, -1.5), c + QPointF(0, 2), c + QPointF(3.5, -1.5)});
    else
        painter->drawPolyline(QPolygonF{c + QPointF(-1.5, -3.5), c + QPointF(2, 0), c + QPointF(-1.5, 3.5)});
    painter->restore();
}

void TableTree::drawRow(QPainter* painter, const QStyleOptionViewItem& options,
                        const QModelIndex& index) const {
    QStyleOptionViewItem plain = options;
    plain.state &= ~QStyle::State_HasFocus;
    QTreeView::drawRow(painter, plain, index);
}

bool TableTree::event(QEvent* event) {
    // These keys mean the row here, whatever the menus do with them.
    if (event->type() == QEvent::ShortcutOverride && state() != EditingState) {
        const auto* key = static_cast<QKeyEvent*>(event);
        if (key->matches(QKeySequence::Copy) || key->matches(QKeySequence::Cut) ||
            key->matches(QKeySequence::Paste)) {
            event->accept();
            return true;
        }
    }
    return QTreeView::event(event);
}

void TableTree::keyPressEvent(QKeyEvent* event) {
    if (state() != EditingState) {
        if (event->matches(QKeySequence::Copy)) return Q_EMIT copyWanted();
        if (event->matches(QKeySequence::Cut)) return Q_EMIT cutWanted();
        if (event->matches(QKeySequence::Paste)) return Q_EMIT pasteWanted();
    }
    const bool ctrl = event->modifiers() & Qt::ControlModifier, alt = event->modifiers() & Qt::AltModifier;
    switch (event->key()) {
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (state() == EditingState) break;
        if (const QModelIndex now = currentIndex(); now.flags() & Qt::ItemIsEditable)
            edit(now);
        else if (now.siblingAtColumn(1).flags() & Qt::ItemIsEditable)
            edit(now.siblingAtColumn(1));
        else
            setExpanded(now.siblingAtColumn(0), !isExpanded(now.siblingAtColumn(0)));
        return;
    case Qt::Key_Insert:
        Q_EMIT addWanted();
        return;
    case Qt::Key_Delete:
        Q_EMIT deleteWanted();
        return;
    case Qt::Key_D:
        if (!ctrl) break;
        Q_EMIT duplicateWanted();
        return;
    case Qt::Key_Up:
    case Qt::Key_Down:
        if (!alt) break;
        Q_EMIT moveWanted(event->key() == Qt::Key_Up ? -1 : 1);
        return;
    case Qt::Key_Space:
        if (const QModelIndex now = currentIndex().siblingAtColumn(1);
            now.flags() & Qt::ItemIsUserCheckable) {
            const bool on = now.data(Qt::CheckStateRole).toInt() == Qt::Checked;
            model()->setData(now, on ? Qt::Unchecked : Qt::Checked, Qt::CheckStateRole);
            return;
        }
        break;
    default:
        break;
    }
    QTreeView::keyPressEvent(event);
}

} // namespace slab::ui
