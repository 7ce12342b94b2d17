#include "ui/ride/ride_list.h"
#include "ui/findings/finding_delegate.h"
#include "ui/paint/page_painter.h"
#include "ui/ride/ride_ink.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QAbstractListModel>
#include <QKeyEvent>
#include <QPainter>
#include <QScrollBar>
#include <QStyledItemDelegate>
#include <algorithm>

namespace slab::ui {

class RideRowsModel : public QAbstractListModel {
public:
    using QAbstractListModel::QAbstractListModel;
    int rowCount(const QModelIndex& parent = {}) const override {
        return parent.isValid() ? 0 : static_cast<int>(rows.size());
    }
    QVariant data(const QModelIndex& index, int role) const override {
        if (!index.isValid() || index.row() >= rowCount()) return {};
        const RideRow& row = rows[static_cast<std::size_t>(index.row())];
        if (role == Qt::DisplayRole) return row.title;
        if (role == Qt::AccessibleTextRole || (role == Qt::ToolTipRole && !row.heading)) return row.spoken();
        return {};
    }
    Qt::ItemFlags flags(const QModelIndex& index) const override {
        const auto at = static_cast<std::size_t>(index.row());
        if (!index.isValid() || at >= rows.size() || rows[at].heading) return Qt::NoItemFlags;
        return Qt::ItemIsEnabled | Qt::ItemIsSelectable;
    }
    void set(RideRows fresh) {
        beginResetModel();
        rows = std::move(fresh);
        endResetModel();
    }
    RideRows rows;
};

namespace {

constexpr int rideMark = 13, rideLeft = 26, rideRight = 10, rideLine = 18;

QString secondLine(const RideRow& row) {
    if (row.word.isEmpty()) return row.details;
    if (row.details.startsWith(row.word, Qt::CaseInsensitive)) return row.details; // said already
    return row.details.isEmpty() ? row.word : row.word + QStringLiteral(" · ") + row.details;
}

/// With room for a scroll bar, so that one that comes changes no height.
int rideWidth(const QStyleOptionViewItem& option) {
    return (option.widget ? option.widget->width() : option.rect.width()) - 14;
}

class RideRowDelegate : public QStyledItemDelegate {
public:
    using QStyledItemDelegate::QStyledItemDelegate;

    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override {
        const RideRow& row = rowAt(index);
        const int width = rideWidth(option);
        if (row.heading) return {width, 30};
        int height = 6 + titleLines(row, width) * rideLine;
        if (const QString second = secondLine(row); !second.isEmpty())
            height += secondHeight(second, width) + 1;
        return {width, height + 3};
    }

    void paint(QPainter* p, const QStyleOptionViewItem& option, const QModelIndex& index) const override {
        const Palette& c = Theme::colours();
        const RideRow& row = rowAt(index);
        p->save();
        if (static_cast<const RideList*>(option.widget)->isFaint()) p->setOpacity(0.5);
        QRect r = option.rect;
        r.setWidth(std::min(r.width(), rideWidth(option)));
        if (row.heading) {
            paintHeading(*p, row, r);
            p->restore();
            return;
        }
        if (option.state & QStyle::State_Selected) {
            p->setRenderHint(QPainter::Antialiasing);
            p->setPen(Qt::NoPen);
            p->setBrush(c.chosenFill);
            p->drawRoundedRect(QRectF(r).adjusted(0, 1, -2, -1), 5, 5);
        }
        paintRowMark(*p, QRectF(r.left() + 7, r.top() + 7, rideMark, rideMark), row);
        int y = r.top() + 4;
        if (!row.title.isEmpty()) {
            const QFont figures = Theme::figures(13);
            const int value = QFontMetrics(figures).horizontalAdvance(row.value);
            p->setFont(figures);
            p->setPen(c.ink);
            const bool below = titleLines(row, r.width()) > 1; // a figure in a line of its own
            p->drawText(
                QRect(r.right() - rideRight - value - 2, y + (below ? rideLine : 0), value + 4, rideLine),
                Qt::AlignVCenter, row.value);
            p->setFont(Theme::words(13));
            const int room = r.width() - rideLeft - rideRight - (below ? 0 : value + 10);
            p->drawText(QRect(r.left() + rideLeft, y, room, rideLine), Qt::AlignVCenter,
                        elided(row.title, p->font(), room));
            y += (below ? 2 : 1) * rideLine + 1;
        }
        const QString second = secondLine(row);
        p->setFont(Theme::words(12));
        p->setPen(row.title.isEmpty() ? c.ink : c.quiet);
        p->drawText(QRect(r.left() + rideLeft, y, r.width() - rideLeft - rideRight, r.bottom() - y),
                    Qt::TextWordWrap, second);
        p->restore();
    }

private:
    static const RideRow& rowAt(const QModelIndex& index) {
        return static_cast<const RideRowsModel*>(index.model())->rows[static_cast<std::size_t>(index.row())];
    }
    /// A title that has no room beside its figure stands above it.
    static int titleLines(const RideRow& row, int width) {
        if (row.title.isEmpty()) return 0;
        const int title = QFontMetrics(Theme::words(13)).horizontalAdvance(row.title);
        const int value = QFontMetrics(Theme::figures(13)).horizontalAdvance(row.value);
        return row.value.isEmpty() || title + value + 10 <= width - rideLeft - rideRight ? 1 : 2;
    }
    static int secondHeight(const QString& text, int width) {
        return QFontMetrics(Theme::words(12))
            .boundingRect(QRect(0, 0, std::max(40, width - rideLeft - rideRight), 4000), Qt::TextWordWrap,
                          text)
            .height();
    }
    static void paintHeading(QPainter& p, const RideRow& row, const QRect& r) {
        const Palette& c = Theme::colours();
        p.setFont(Theme::words(13, true));
        p.setPen(c.ink);
        p.drawText(r.adjusted(4, 8, -4, 0), Qt::AlignLeft | Qt::AlignVCenter, row.title);
        p.setFont(Theme::words(11));
        p.setPen(c.quiet);
        p.drawText(r.adjusted(4, 8, -rideRight, 0), Qt::AlignRight | Qt::AlignVCenter, row.value);
        p.setPen(QPen(c.line, 1));
        p.drawLine(r.left() + 2, r.bottom(), r.right() - 4, r.bottom());
    }
};

} // namespace

void paintRowMark(QPainter& painter, const QRectF& area, const RideRow& row) {
    painter.save();
    if (const auto told = row.severity())
        paintSeverity(painter, area, *told);
    else if (row.outcome == trial::Outcome::passes || row.outcome == trial::Outcome::unknown)
        paintOutcome(painter, area, *row.outcome);
    else if (row.outcome)
        paintSeverity(painter, area, Severity::look);
    painter.restore();
}

RideList::RideList(const QString& name, const QString& tip, QWidget* parent)
    : QListView(parent), m_model(new RideRowsModel(this)) {
    setModel(m_model);
    setItemDelegate(new RideRowDelegate(this));
    setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setSelectionMode(QAbstractItemView::SingleSelection);
    setResizeMode(QListView::Adjust);
    explain(this, name, tip);
    connect(selectionModel(), &QItemSelectionModel::currentChanged, this, [this](const QModelIndex& now) {
        if (!m_showing && now.isValid()) Q_EMIT chosen(now.row());
    });
    connect(this, &QListView::clicked, this, [this](const QModelIndex& now) { Q_EMIT chosen(now.row()); });
}

const RideRows& RideList::rows() const {
    return m_model->rows;
}

int RideList::chosenRow() const {
    return currentIndex().isValid() ? currentIndex().row() : -1;
}

void RideList::show(RideRows rows) {
    RideRow was;
    if (const int row = chosenRow(); row >= 0) was = m_model->rows[static_cast<std::size_t>(row)];
    const int scrolled = verticalScrollBar()->value();
    m_showing = true;
    m_model->set(std::move(rows));
    int again = -1;
    for (std::size_t i = 0; i < m_model->rows.size() && !was.title.isEmpty(); ++i) {
        const RideRow& row = m_model->rows[i];
        if (!row.heading && row.thing == was.thing && row.title == was.title) again = static_cast<int>(i);
    }
    m_showing = false;
    choose(again);
    verticalScrollBar()->setValue(scrolled);
}

void RideList::setFaint(bool faint) {
    if (faint == m_faint) return;
    m_faint = faint;
    viewport()->update();
}

void RideList::choose(int row) {
    m_showing = true;
    if (row < 0 || row >= m_model->rowCount()) {
        clearSelection();
        setCurrentIndex({});
    } else if (row != chosenRow()) {
        setCurrentIndex(m_model->index(row));
    }
    m_showing = false;
}

/// Letters, digits and sideways arrows belong to the page.
void RideList::keyPressEvent(QKeyEvent* event) {
    const bool moves = event->key() == Qt::Key_Up || event->key() == Qt::Key_Down ||
                       event->key() == Qt::Key_Home || event->key() == Qt::Key_End ||
                       event->key() == Qt::Key_PageUp || event->key() == Qt::Key_PageDown;
    if (moves) return QListView::keyPressEvent(event);
    event->ignore();
}

void RideList::resizeEvent(QResizeEvent* event) {
    QListView::resizeEvent(event);
    if (width() == m_laidOutFor) return;
    m_laidOutFor = width();
    doItemsLayout();
}

} // namespace slab::ui
