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
      m_words(new QLabel) {
    setAccessibleName(tr("likeness card"));
    setAttribute(Qt::WA_NoMousePropagation); // the sheet lies under it
    setCursor(Qt::ArrowCursor);
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(space::inside, 9, space::inside, 10);
    all->setSpacing(4);
    auto* head = new QHBoxLayout;
    auto* title = new QLabel("Likeness");
    title->setFont(Theme::words(14, true));
    head->addWidget(title);
    auto* what = new ElidedLabel("flat body from curved subject, as built");
    what->setQuiet(true);
    what->setFont(Theme::words(12));
    head->addWidget(what, 1);
    auto* close = new QToolButton;
    close->setObjectName("flat");
    close->setText("Close");
    close->setFont(Theme::words(12));
    explain(close, "Close the likeness card", "Takes the plot off the sheet (K).");
    head->addWidget(close);
    all->addLayout(head);
    all->addWidget(m_plot, 1);
    m_words->setWordWrap(true);
    m_words->setFont(Theme::words(12));
    m_words->setProperty("role", "quiet");
    m_words->setMinimumHeight(32); // two lines: the plot keeps still when the words grow
    m_words->setAlignment(Qt::AlignTop);
    m_words->setAccessibleName(tr("what the plot says"));
    all->addWidget(m_words);
    connect(close, &QToolButton::clicked, this, &LikenessCard::closed);
    connect(m_plot, &LikenessPlot::told, m_words, &QLabel::setText);
}

void LikenessCard::place() {
    const QWidget* on = parentWidget();
    if (!on) return;
    const QSize wanted = QSize(on->width() * 2 / 5, on->height() * 2 / 5)
                             .expandedTo({320, 205})
                             .boundedTo({520, 360})
                             .boundedTo(on->size() - QSize(40, 40));
    setGeometry(
        QRect(QPoint(on->width() - wanted.width() - 10, on->height() - wanted.height() - 10), wanted));
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
