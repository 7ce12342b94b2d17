#include "ui/board/likeness_plot.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QToolButton>
#include <QVBoxLayout>
#include <algorithm>

namespace slab::ui {

LikenessCard::LikenessCard(Session* session, QWidget* parent)
    : QWidget(parent), m_watch(new LikenessWatch(session, this)), m_plot(new LikenessPlot(session, m_watch)),
      m_words(new QLabel), m_head(new QHBoxLayout) {
    setAccessibleName(tr("likeness card"));
    setAttribute(Qt::WA_NoMousePropagation); // the sheet lies under it
    setCursor(Qt::ArrowCursor);
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(space::inside, 9, space::inside, 10);
    all->setSpacing(4);
    auto* title = new QLabel("Likeness");
    title->setFont(Theme::words(14, true));
    m_head->addWidget(title);
    auto* what = new ElidedLabel("flat body from curved subject");
    what->setQuiet(true);
    what->setFont(Theme::words(12));
    m_head->addWidget(what, 1);
    auto* close = new QToolButton;
    close->setObjectName("flat");
    close->setText("Close");
    close->setFont(Theme::words(12));
    explain(close, "Close the likeness card", "Takes the plot off the sheet (K).");
    m_head->addWidget(close);
    all->addLayout(m_head);
    all->addWidget(m_plot, 1);
    m_words->setWordWrap(true);
    m_words->setFont(Theme::words(12));
    m_words->setProperty("role", "quiet");
    m_words->setMinimumHeight(32); // two lines: the plot keeps still when the words grow
    m_words->setAlignment(Qt::AlignTop);
    m_words->setAccessibleName(tr("what the plot says"));
    all->addWidget(m_words);
    if (parent) parent->installEventFilter(this);
    connect(close, &QToolButton::clicked, this, &LikenessCard::closed);
    connect(m_plot, &LikenessPlot::told, m_words, &QLabel::setText);
}

void LikenessCard::place() {
    const QWidget* on = parentWidget();
    if (!on) return;
    constexpr int beside = 10, low = 280; // px
    m_words->setVisible(on->height() >= low);
    layout()->activate();
    const QSize all(on->width() - 2 * beside, on->height() - 2 * beside);
    const QSize wanted = QSize(on->width() * 2 / 5, on->height() * 2 / 5)
                             .expandedTo({m_head->sizeHint().width() + 2 * space::inside, 205})
                             .boundedTo({520, 360})
                             .boundedTo(all)
                             .expandedTo(layout()->minimumSize());
    setGeometry(QRect(QPoint(on->width() - wanted.width() - beside, on->height() - wanted.height() - beside),
                      wanted));
}

/// The strip under the sheet grows and shrinks with what is chosen, and the sheet with it.
bool LikenessCard::eventFilter(QObject* watched, QEvent* event) {
    if (watched == parentWidget() && event->type() == QEvent::Resize && isVisible()) place();
    return QWidget::eventFilter(watched, event);
}

void LikenessCard::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    place();
    m_watch->setLooking(true);
}

void LikenessCard::hideEvent(QHideEvent* event) {
    QWidget::hideEvent(event);
    m_watch->setLooking(false);
}

void LikenessCard::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    paintSheet(painter, *this);
}

} // namespace slab::ui
