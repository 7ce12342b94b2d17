#include "ui/panels/panel_list.h"
#include "ui/paint/page_painter.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QLineEdit>
#include <QListView>
#include <QMouseEvent>
#include <QPainter>
#include <QPainterPath>
#include <QVBoxLayout>
#include <algorithm>

namespace slab::ui {

namespace {
constexpr int roomForWords = 600; // px: a narrower view shows thumbnails only
constexpr int stripWidth = 78, thumbWidth = 54;
} // namespace

void PanelListModel::show(std::vector<PanelRow> rows) {
    bool same = rows.size() == m_rows.size();
    for (std::size_t i = 0; same && i < rows.size(); ++i) same = rows[i].name == m_rows[i].name;
    if (!same) {
        beginResetModel();
        m_rows = std::move(rows);
        endResetModel();
        return;
    }
    int first = -1, last = -1;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (rows[i] == m_rows[i]) continue;
        if (first < 0) first = static_cast<int>(i);
        last = static_cast<int>(i);
    }
    m_rows = std::move(rows);
    if (first >= 0) Q_EMIT dataChanged(index(first), index(last));
}

int PanelListModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

QVariant PanelListModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) return {};
    const PanelRow& r = row(index.row());
    const QString copies = r.copies > 1 ? tr(" ×%1").arg(r.copies) : QString();
    switch (role) {
    case Qt::DisplayRole:
        return r.name;
    case Qt::UserRole:
        return QString(r.plates.join(' ') + ' ' + r.stock); // what the search looks in
    case Qt::ToolTipRole:
    case Qt::AccessibleTextRole:
        if (!r.missing.isEmpty()) return tr("%1: %2, no panel is cut").arg(r.name, r.missing);
        return tr("%1%2\n%3 · %4%5")
            .arg(r.plates.join(QStringLiteral(", ")), copies, r.size, r.stock,
                 r.changed ? tr("\nhas changed since it was cut")
                 : r.cut   ? tr("\ncut")
                           : QString());
    default:
        return {};
    }
}

int PanelListModel::find(const QString& plate) const {
    for (std::size_t i = 0; i < m_rows.size(); ++i) {
        if (m_rows[i].plates.contains(plate)) return static_cast<int>(i);
    }
    for (std::size_t i = 0; i < m_rows.size(); ++i)
        if (m_rows[i].wholes.contains(plate)) return static_cast<int>(i);
    return -1;
}

class PanelDelegate : public QStyledItemDelegate {
public:
    using QStyledItemDelegate::QStyledItemDelegate;
    bool strip = false;
    QStringList also; ///< plates that are chosen beside the current one

    QSize sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const override {
        return strip ? QSize(64, 56) : QSize(120, 64);
    }

    /// px in which every name and size has its room, beside its picture.
    static int wantedWidth(const PanelListModel& model) {
        const QFontMetrics bold(Theme::words(12, true)), small(Theme::words(11));
        int words = 0;
        for (int i = 0; i < model.rowCount(); ++i) {
            const PanelRow& row = model.row(i);
            const QString name = QStringLiteral("%1  %2 ×%3").arg(i + 1).arg(row.name).arg(row.copies);
            words = std::max({words, bold.horizontalAdvance(name), small.horizontalAdvance(row.size)});
        }
        return words + thumbWidth + 42;
    }

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override {
        const auto* proxy = static_cast<const QSortFilterProxyModel*>(index.model());
        const auto* model = static_cast<const PanelListModel*>(proxy->sourceModel());
        const int at = proxy->mapToSource(index).row();
        const PanelRow& row = model->row(at);
        const Palette& c = Theme::colours();
        const bool chosen = option.state.testFlag(QStyle::State_Selected) ||
                            std::any_of(also.begin(), also.end(), [&](const QString& plate) {
                                return row.plates.contains(plate) || row.wholes.contains(plate);
                            });
        const QRectF r = QRectF(option.rect).adjusted(2, 1.5, -2, -1.5);
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        if (chosen || option.state.testFlag(QStyle::State_MouseOver)) {
            painter->setPen(Qt::NoPen);
            painter->setBrush(chosen ? c.chosenFill : Theme::mix(c.line, c.card, 0.3));
            painter->drawRoundedRect(r, 6, 6);
        }
        const QRectF thumb = strip ? QRectF(r.left() + 7, r.top() + 4, r.width() - 14, r.height() - 21)
                                   : QRectF(r.left() + 6, r.top() + 5, thumbWidth, r.height() - 10);
        paintThumb(*painter, row, thumb, chosen);
        if (strip)
            paintUnder(*painter, row, r, chosen);
        else
            paintBeside(*painter, row, at,
                        QRectF(thumb.right() + 9, r.top(), r.right() - thumb.right() - 14, r.height()));
        painter->restore();
    }

private:
    static void paintThumb(QPainter& painter, const PanelRow& row, const QRectF& into, bool chosen) {
        const Palette& c = Theme::colours();
        if (!row.missing.isEmpty() || row.shape.outer.size() < 3) {
            painter.setPen(QPen(c.quiet, 1, Qt::DashLine));
            painter.setBrush(Qt::NoBrush);
            painter.drawRect(into.adjusted(8, 6, -8, -6));
            return;
        }
        PaperView view;
        view.fit(bounds(row.shape.outer), into);
        const QColor tint = Theme::tint(row.kind);
        painter.setBrush(chosen ? Theme::mix(c.chosen, c.card, 0.36) : tint);
        painter.setPen(QPen(chosen ? c.chosen : Theme::mix(c.ink, tint, 0.7), 1));
        painter.drawPath(view.path(row.shape));
    }

    static QString marks(const PanelRow& row) {
        return row.changed ? QStringLiteral("⚠") : row.cut ? QStringLiteral("✓") : QString();
    }

    static void paintUnder(QPainter& painter, const PanelRow& row, const QRectF& r, bool chosen) {
        const Palette& c = Theme::colours();
        const QFont font = Theme::words(10, chosen);
        // Of a piece the plate's name gives way, not its letter.
        const QString piece = row.wholes.isEmpty() ? QString() : '/' + row.name.section('/', -1);
        const QString words =
            marks(row) + row.name.section('/', piece.isEmpty() ? -1 : -2, piece.isEmpty() ? -1 : -2);
        const QString copies = row.copies > 1 ? QStringLiteral(" ×%1").arg(row.copies) : QString();
        painter.setFont(font);
        painter.setPen(row.changed ? c.hits : row.missing.isEmpty() ? c.ink : c.quiet);
        const double room = r.width() - 6 - QFontMetricsF(font).horizontalAdvance(piece + copies);
        painter.drawText(r.adjusted(2, 0, -2, -3), Qt::AlignHCenter | Qt::AlignBottom,
                         elided(words, font, room) + piece + copies);
    }

    /// Name, size, and what it is cut from, each on a line of its own.
    static void paintBeside(QPainter& painter, const PanelRow& row, int at, const QRectF& r) {
        const Palette& c = Theme::colours();
        const QFont bold = Theme::words(12, true), small = Theme::words(11);
        const QString copies = row.copies > 1 ? QStringLiteral(" ×%1").arg(row.copies) : QString();
        const QString number = row.missing.isEmpty() ? QStringLiteral("%1  ").arg(at + 1) : QString();
        painter.setFont(bold);
        painter.setPen(row.missing.isEmpty() ? c.ink : c.quiet);
        const double taken = QFontMetricsF(bold).horizontalAdvance(number + copies);
        painter.drawText(QRectF(r.left(), r.top() + 5, r.width(), 18), Qt::AlignLeft | Qt::AlignVCenter,
                         number + elided(row.name, bold, r.width() - taken) + copies);
        painter.setFont(small);
        painter.setPen(row.changed ? c.hits : c.quiet);
        const QString hand = row.hand.isEmpty() ? QString() : QStringLiteral(" · ") + row.hand;
        const QString third = row.changed ? tr("⚠ changed since cut")
                              : row.cut   ? tr("✓ cut · ") + row.stock + hand
                                          : row.stock + hand;
        double y = r.top() + 24;
        for (const QString& words :
             row.missing.isEmpty() ? QStringList{row.size, third} : QStringList{row.missing}) {
            painter.drawText(QRectF(r.left(), y, r.width(), 16), Qt::AlignLeft | Qt::AlignVCenter,
                             elided(words, small, r.width()));
            y += 16;
        }
    }
};

PanelList::PanelList(QWidget* parent) : QWidget(parent) {
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(6);
    m_search = new QLineEdit;
    m_search->setPlaceholderText(tr("Find a panel"));
    m_search->setClearButtonEnabled(true);
    explain(m_search, tr("Find a panel"), tr("Show only panels whose name or stock holds these letters"));
    all->addWidget(m_search);
    m_model = new PanelListModel(this);
    m_found = new QSortFilterProxyModel(this);
    m_found->setSourceModel(m_model);
    m_found->setFilterCaseSensitivity(Qt::CaseInsensitive);
    m_found->setFilterRole(Qt::UserRole);
    m_list = new QListView;
    m_list->setModel(m_found);
    m_delegate = new PanelDelegate(m_list);
    m_list->setItemDelegate(m_delegate);
    m_list->setUniformItemSizes(true);
    m_list->setMouseTracking(true);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_list->setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    explain(m_list, tr("Panels"),
            tr("Every cutting part: choose one to see its outline, bevels and neighbours"));
    all->addWidget(m_list, 1);
    connect(m_search, &QLineEdit::textChanged, m_found, &QSortFilterProxyModel::setFilterFixedString);
    connect(m_list->selectionModel(), &QItemSelectionModel::currentChanged, this,
            [this](const QModelIndex& now) {
                if (!m_quiet && now.isValid())
                    Q_EMIT chosen(m_model->row(m_found->mapToSource(now).row()).plates.first());
            });
    m_list->viewport()->installEventFilter(this);
    m_list->setContextMenuPolicy(Qt::CustomContextMenu);
    connect(m_list, &QWidget::customContextMenuRequested, this, [this](const QPoint& at) {
        const QString plate = plateAt(at);
        if (!plate.isEmpty()) Q_EMIT menuWanted(plate, m_list->viewport()->mapToGlobal(at));
    });
    // The row that is current already (drawn, but chosen nowhere else) can be chosen too.
    connect(m_list, &QListView::clicked, this, [this](const QModelIndex& at) {
        Q_EMIT chosen(m_model->row(m_found->mapToSource(at).row()).plates.first());
    });
    setRoom(m_viewWidth);
}

QString PanelList::plateAt(const QPoint& px) const {
    const QModelIndex at = m_list->indexAt(px);
    return at.isValid() ? m_model->row(m_found->mapToSource(at).row()).plates.first() : QString();
}

/// A click with Shift, or with the right button, leaves the current row where it is.
bool PanelList::eventFilter(QObject* watched, QEvent* event) {
    const auto type = event->type();
    if (watched != m_list->viewport() ||
        (type != QEvent::MouseButtonPress && type != QEvent::MouseButtonRelease))
        return QWidget::eventFilter(watched, event);
    const auto* mouse = static_cast<QMouseEvent*>(event);
    const bool more = mouse->button() == Qt::LeftButton && mouse->modifiers().testFlag(Qt::ShiftModifier);
    if (!more && mouse->button() != Qt::RightButton) return QWidget::eventFilter(watched, event);
    const QString plate = plateAt(mouse->position().toPoint());
    if (more && type == QEvent::MouseButtonPress && !plate.isEmpty()) Q_EMIT moreChosen(plate);
    return true;
}

void PanelList::chooseAlso(const QStringList& plates) {
    if (m_delegate->also == plates) return;
    m_delegate->also = plates;
    m_list->viewport()->update();
}

void PanelList::setRoom(int viewWidth) {
    m_viewWidth = viewWidth;
    const bool strip = viewWidth < roomForWords;
    // As wide as the longest size, as far as the drawing can spare it.
    const int width =
        strip ? stripWidth
              : std::clamp(m_delegate->wantedWidth(*m_model), 190, std::max(190, viewWidth * 2 / 5));
    if (m_delegate->strip == strip && minimumWidth() == width) return;
    m_delegate->strip = strip;
    m_search->setVisible(!strip);
    setFixedWidth(width);
    m_list->doItemsLayout();
}

void PanelList::show(std::vector<PanelRow> rows) {
    m_quiet = true;
    m_model->show(std::move(rows));
    m_quiet = false;
    setRoom(m_viewWidth);
}

void PanelList::choose(const QString& plate) {
    const int row = m_model->find(plate);
    m_quiet = true;
    if (row < 0) {
        m_list->selectionModel()->clear();
    } else {
        const QModelIndex index = m_found->mapFromSource(m_model->index(row));
        if (index.isValid() && index != m_list->currentIndex()) {
            m_list->setCurrentIndex(index);
            m_list->scrollTo(index);
        }
    }
    m_quiet = false;
}

} // namespace slab::ui
