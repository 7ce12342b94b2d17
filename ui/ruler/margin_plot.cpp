#include "ui/ruler/margin_plot.h"
#include "ui/ruler/plot_paint.h"
#include "ui/ruler/rule_strip.h"
#include "ui/session/session.h"
#include "ui/theme/card.h"
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <algorithm>

namespace slab::ui {

MarginPlot::MarginPlot(Session* session, RuleStrip* rule, QWidget* parent)
    : QWidget(parent), m_session(session), m_rule(rule) {
    setObjectName("marginPlot");
    setFocusPolicy(Qt::StrongFocus);
    setMouseTracking(true);
    setCursor(Qt::CrossCursor);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    explain(this, "To spare at every scale",
            "One line for each condition: above the heavy line it holds. The pointer reads, a click sets the "
            "scale; arrow keys read, Return sets.");
    setToolTip({}); // what is read stands in the picture
    const auto repaint = [this] { update(); };
    connect(session, &Session::projectChanged, this, repaint);
    connect(session, &Session::surveyChanged, this, repaint);
}

QSize MarginPlot::sizeHint() const {
    const int room = window() ? window()->height() : 1000;
    constexpr int low = 860; // px: views above it need the room
    return {900, room < low ? 120 : std::clamp(room * 24 / 100, 150, 480)};
}
QSize MarginPlot::minimumSizeHint() const {
    return {320, sizeHint().height()};
}

void MarginPlot::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    PlotPicture picture;
    std::tie(picture.from, picture.to) = m_rule->range();
    const double left = m_rule->xOf(picture.from), right = m_rule->xOf(picture.to);
    picture.area = QRectF(left, 2, right - left, height() - 8).adjusted(0.5, 0.5, -0.5, -0.5);
    picture.scale = m_rule->scale();
    picture.reading = m_reading;
    picture.survey = m_session->survey() ? &*m_session->survey() : nullptr;
    picture.current = m_session->surveyIsCurrent();
    picture.focus = hasFocus();
    picture.units = m_session->unitStyle();
    picture.xOf = [this](double scale) { return m_rule->xOf(scale); };
    paintPlot(painter, picture);
}

QString MarginPlot::wordsAt(double scale) const {
    const auto& survey = m_session->survey();
    QString words = "scale " + scaleText(scale);
    if (survey) words += ": " + plotWordsAt(*survey, scale, m_session->unitStyle(), 4).join("; ");
    return words;
}

void MarginPlot::read(std::optional<double> scale) {
    const auto [from, to] = m_rule->range();
    if (scale) scale = std::clamp(*scale, from, to);
    if (scale == m_reading) return;
    m_reading = scale;
    setAccessibleDescription(scale ? wordsAt(*scale) : QString());
    update();
}

void MarginPlot::mouseMoveEvent(QMouseEvent* event) {
    read(m_rule->scaleAt(event->position().x()));
}

void MarginPlot::leaveEvent(QEvent* event) {
    read({}); // an arrow key brings it back
    QWidget::leaveEvent(event);
}

void MarginPlot::mousePressEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton) return QWidget::mousePressEvent(event);
    setFocus(Qt::MouseFocusReason);
    read(m_rule->scaleAt(event->position().x()));
    m_rule->setTo(*m_reading);
}

void MarginPlot::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    if (!m_reading) read(m_rule->scale());
    update();
}
void MarginPlot::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    if (!underMouse()) read({});
    update();
}

void MarginPlot::keyPressEvent(QKeyEvent* event) {
    const auto [from, to] = m_rule->range();
    const double now = m_reading.value_or(m_rule->scale()), step = m_rule->smallStep();
    switch (event->key()) {
    case Qt::Key_Left:
        read(now - step);
        break;
    case Qt::Key_Right:
        read(now + step);
        break;
    case Qt::Key_PageDown:
        read(now - 10 * step);
        break;
    case Qt::Key_PageUp:
        read(now + 10 * step);
        break;
    case Qt::Key_Home:
        read(from);
        break;
    case Qt::Key_End:
        read(to);
        break;
    case Qt::Key_Escape:
        if (!m_reading) return QWidget::keyPressEvent(event);
        read({});
        break;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        m_rule->setTo(now);
        break;
    default:
        QWidget::keyPressEvent(event);
        return;
    }
    event->accept();
}

} // namespace slab::ui
