#include "ui/ride/ride_view.h"
#include "ui/ride/ride_list.h"
#include "ui/ride/ride_pages.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QButtonGroup>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QPainter>
#include <QToolButton>
#include <QVBoxLayout>

namespace slab::ui {

namespace {

constexpr int allFromWidth = 1300, allFromHeight = 900;

/// The worst that is told of the rows; a tick where nothing is told and something passes.
QIcon pageIcon(const RideRows& rows, double pixelRatio) {
    RideRow all;
    for (const RideRow& row : rows) {
        all.told.insert(all.told.end(), row.told.begin(), row.told.end());
        if (row.outcome == trial::Outcome::passes) all.outcome = row.outcome;
    }
    if (all.told.empty() && !all.outcome) return {};
    QPixmap picture(QSize(14, 14) * pixelRatio);
    picture.setDevicePixelRatio(pixelRatio);
    picture.fill(Qt::transparent);
    QPainter painter(&picture);
    paintRowMark(painter, QRectF(1, 1, 12, 12), all);
    painter.end();
    return picture;
}

} // namespace

RideView::RideView(Session* session, QWidget* parent)
    : QWidget(parent), m_session(session), m_strip(new QWidget), m_grid(new QGridLayout) {
    setAccessibleName(tr("Ride view"));
    setAccessibleDescription(tr("How it stands, what it passes, what is seen from it and how one gets out"));
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(8);
    auto* row = new QHBoxLayout(m_strip);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(6);
    all->addWidget(m_strip);
    all->addLayout(m_grid, 1);
    m_grid->setSpacing(space::between);
    auto* out = new LeavingPage(session);
    m_pages = {new StandsPage(session), new RoutePage(session), new SightPage(session), out};
    connect(out, &LeavingPage::openingWanted, this, &RideView::openingWanted);
    auto* group = new QButtonGroup(this);
    for (std::size_t i = 0; i < 4; ++i) {
        auto* tab = new QToolButton;
        tab->setCheckable(true);
        tab->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
        explain(tab, m_pages[i]->name(), m_pages[i]->accessibleDescription() + tr(" (key %1)").arg(i + 1));
        group->addButton(tab, static_cast<int>(i));
        row->addWidget(tab);
        m_tabs[i] = tab;
    }
    row->addStretch(1);
    connect(group, &QButtonGroup::idClicked, this, [this](int id) { open(static_cast<Page>(id)); });
    connect(session, &Session::evaluationChanged, this, &RideView::refresh);
    connect(session, &Session::projectChanged, this, &RideView::refresh);
    connect(session, &Session::selectionChanged, this, [this] { follow(true); });
    arrange();
    refresh();
}

RideView::~RideView() = default;

RoutePage* RideView::routePage() const {
    return static_cast<RoutePage*>(m_pages[route]);
}

void RideView::open(Page page) {
    m_page = page;
    for (std::size_t i = 0; i < 4; ++i) m_pages[i]->setVisible(m_all || i == page);
    m_tabs[page]->setChecked(true);
    if (isVisible()) m_pages[page]->setFocus(Qt::OtherFocusReason);
}

/// Out of sight nothing is drawn or measured.
void RideView::refresh() {
    if (!isVisible()) {
        m_stale = true;
        return;
    }
    m_stale = false;
    const auto shapes = std::make_shared<const BodyShapes>(bodyShapes(m_session->evaluation()));
    for (RidePage* page : m_pages) page->show(shapes);
    refreshTabs();
    follow(false);
}

void RideView::refreshTabs() {
    for (std::size_t i = 0; i < 4; ++i) {
        const bool empty = m_pages[i]->emptyShown() != nullptr;
        const RideRows& rows = m_pages[i]->list()->rows();
        const QString words = empty ? m_pages[i]->name() : summaryOf(m_pages[i]->name(), rows);
        m_tabs[i]->setText(words);
        m_tabs[i]->setAccessibleName(words);
        m_tabs[i]->setIcon(empty ? QIcon() : pageIcon(rows, devicePixelRatioF()));
    }
}

void RideView::arrange() {
    m_all = width() >= allFromWidth && height() >= allFromHeight;
    for (int i = 0; i < 4; ++i) {
        RidePage* page = m_pages[static_cast<std::size_t>(i)];
        m_grid->addWidget(page, m_all ? i / 2 : 0, m_all ? i % 2 : 0);
        page->setTitled(m_all);
    }
    for (int i = 0; i < 2; ++i) {
        m_grid->setColumnStretch(i, m_all || i == 0 ? 1 : 0);
        m_grid->setRowStretch(i, m_all || i == 0 ? 1 : 0);
    }
    open(m_page);
}

void RideView::follow(bool turns) {
    const QString part = m_session->selection().part;
    if (!isVisible() || part.isEmpty()) return;
    if (m_pages[m_page]->reveal(part) || !turns) return;
    for (std::size_t i = 0; i < 4; ++i)
        if (m_pages[i]->reveal(part)) {
            m_page = static_cast<Page>(i);
            for (std::size_t k = 0; k < 4; ++k) m_pages[k]->setVisible(m_all || k == i);
            m_tabs[i]->setChecked(true);
            return;
        }
}

void RideView::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    if (!m_stale) return;
    refresh();
    follow(true);
}

void RideView::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    const bool all = width() >= allFromWidth && height() >= allFromHeight;
    if (all != m_all) arrange();
}

void RideView::changeEvent(QEvent* event) {
    if (event->type() == QEvent::PaletteChange) refreshTabs();
    QWidget::changeEvent(event);
}

void RideView::keyPressEvent(QKeyEvent* event) {
    RidePage* page = m_pages[m_page];
    switch (event->key()) {
    case Qt::Key_1:
    case Qt::Key_2:
    case Qt::Key_3:
    case Qt::Key_4:
        return open(static_cast<Page>(event->key() - Qt::Key_1));
    case Qt::Key_Left:
        return page->step(-1);
    case Qt::Key_Right:
        return page->step(1);
    case Qt::Key_C:
        return page->step(0);
    case Qt::Key_A:
        return page->offer();
    case Qt::Key_Delete:
        return page->discard();
    default:
        QWidget::keyPressEvent(event);
    }
}

} // namespace slab::ui
