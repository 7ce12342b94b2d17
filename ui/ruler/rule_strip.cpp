#include "ui/ruler/rule_strip.h"
#include "core/survey/survey.h"
#include "ui/ruler/rule_access.h"
#include "ui/ruler/rule_flags.h"
#include "ui/session/session.h"
#include "ui/theme/card.h"
#include <QAccessible>
#include <QHelpEvent>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QTimer>
#include <QToolTip>
#include <QWheelEvent>
#include <cmath>

namespace slab::ui {

namespace {

constexpr double side = 28; // room for the first and last number
constexpr double bodyTop = 34, slimTop = 9, bodyHeight = 27;

/// 1, 2 or 5 times a power of ten, at least `least`.
double niceStep(double least) {
    const double power = std::pow(10.0, std::floor(std::log10(least)));
    for (const double times : {1.0, 2.0, 5.0})
        if (times * power >= least * (1 - 1e-9)) return times * power;
    return 10 * power;
}

} // namespace

TickSteps tickSteps(double range, double pixels) {
    TickSteps steps;
    if (!(range > 0) || !(pixels > 0)) return steps;
    steps.labelled = niceStep(range / pixels * 75);
    steps.plain = steps.labelled / 5;
    if (steps.plain / range * pixels < 5) steps.plain = steps.labelled;
    steps.decimals = std::max(0, static_cast<int>(std::ceil(-std::log10(steps.labelled) - 1e-9)));
    return steps;
}

QString scaleText(double scale) {
    QString text = QString::number(scale, 'f', 4);
    while (text.endsWith('0')) text.chop(1);
    if (text.endsWith('.')) text.chop(1);
    return text;
}

RuleStrip::RuleStrip(Session* session, QWidget* parent)
    : QWidget(parent), m_session(session), m_wheelRest(new QTimer(this)) {
    speakForRules();
    setFocusPolicy(Qt::StrongFocus);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    setCursor(Qt::SizeHorCursor);
    setMouseTracking(true);
    explain(this, "Scale rule",
            "Drag the handle to make everything bigger or smaller. Arrow keys, Page Up and Down, Home, End "
            "and the "
            "wheel move it; Ctrl and the wheel show more or less of the rule.");
    m_wheelRest->setSingleShot(true);
    m_wheelRest->setInterval(400);
    connect(m_wheelRest, &QTimer::timeout, this, &RuleStrip::endGesture);
    const auto repaint = [this] { update(); };
    connect(session, &Session::projectChanged, this, repaint);
    connect(session, &Session::surveyChanged, this, repaint);
    connect(session, &Session::evaluationChanged, this, repaint);
    connect(session, &Session::projectChanged, this, &RuleStrip::speak);
    connect(session, &Session::surveyChanged, this, &RuleStrip::speak);
    speak();
}

void RuleStrip::speak() {
    setAccessibleDescription(wordsAt(scale()));
    if (!QAccessible::isActive()) return;
    QAccessibleValueChangeEvent event(this, scale());
    QAccessible::updateAccessibility(&event);
}

std::pair<double, double> RuleStrip::range() const {
    return m_session->scaleRange();
}

void RuleStrip::setTo(double scale) {
    endGesture();
    moveTo(scale);
    endGesture();
}

double RuleStrip::scale() const {
    return parseRatio(m_session->project().scale).value_or(1.0);
}

double RuleStrip::xOf(double scale) const {
    const auto [from, to] = m_session->scaleRange();
    return side + (scale - from) / (to - from) * (width() - 2 * side);
}

double RuleStrip::scaleAt(double x) const {
    const auto [from, to] = m_session->scaleRange();
    return from + (x - side) / (width() - 2 * side) * (to - from);
}

double RuleStrip::smallStep() const {
    const auto [from, to] = m_session->scaleRange();
    return niceStep((to - from) / 500);
}

QSize RuleStrip::sizeHint() const {
    return {900, m_slim ? 64 : 118};
}
QSize RuleStrip::minimumSizeHint() const {
    return {320, sizeHint().height()};
}

void RuleStrip::setSlim(bool slim) {
    if (slim == m_slim) return;
    m_slim = slim;
    updateGeometry();
    update();
}

void RuleStrip::startGesture() {
    if (m_moving) return;
    m_moving = true;
    ++m_gesture;
}

void RuleStrip::endGesture() {
    m_wheelRest->stop();
    if (!m_moving) return;
    m_moving = false;
    m_session->settle();
    update();
}

void RuleStrip::moveTo(double scale) {
    const auto [from, to] = m_session->scaleRange();
    const double step = smallStep();
    const double rounded = std::round(std::clamp(scale, from, to) / step) * step;
    if (!(rounded > 0)) return;
    const QString text = scaleText(rounded);
    if (text.toStdString() == m_session->project().scale) return;
    startGesture();
    m_session->apply(setScale(text.toStdString(), "rule " + std::to_string(m_gesture)));
}

void RuleStrip::zoom(double factor, double around) {
    const auto [from, to] = m_session->scaleRange();
    const double at = std::clamp(around, from, to);
    double low = at - (at - from) * factor, high = at + (to - at) * factor;
    low = std::max(low, 0.01);
    high = std::min(high, 4.0);
    if (high - low < 0.01) return;
    m_session->setScaleRange(low, high);
    update();
}

void RuleStrip::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    RulePicture picture;
    picture.body = QRectF(side, m_slim ? slimTop : bodyTop, width() - 2 * side, bodyHeight)
                       .adjusted(0.5, 0.5, -0.5, -0.5);
    picture.stepsY = bodyTop + bodyHeight + 41;
    picture.slim = m_slim;
    std::tie(picture.from, picture.to) = m_session->scaleRange();
    picture.scale = scale();
    picture.survey = m_session->survey() ? &*m_session->survey() : nullptr;
    picture.current = m_session->surveyIsCurrent();
    const auto& [plates, body] = std::tie(m_session->evaluation().plates, m_session->evaluation().body);
    const bool bare = body && !body->skin.faces.empty(); // forms, but no sheet for them
    picture.idle = picture.survey                       ? tr("no donor and no rider to fit")
                   : !plates || !plates->plates.empty() ? tr("trying every scale…")
                   : bare                               ? tr("no sheet is chosen yet: nothing to try")
                                                        : tr("no plates yet: nothing to try");
    picture.focus = hasFocus();
    picture.held = m_held;
    picture.xOf = [this](double s) { return xOf(s); };
    paintRule(painter, picture);
}

void RuleStrip::mousePressEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton) return;
    setFocus(Qt::MouseFocusReason);
    const double offset = event->position().x() - xOf(scale());
    endGesture();
    startGesture();
    m_held = true;
    m_grab = std::fabs(offset) <= 14 ? offset : 0;
    if (m_grab == 0) moveTo(scaleAt(event->position().x()));
    update();
}

void RuleStrip::mouseMoveEvent(QMouseEvent* event) {
    if (m_held) moveTo(scaleAt(event->position().x() - m_grab));
}

void RuleStrip::mouseReleaseEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton || !m_held) return;
    m_held = false;
    endGesture();
    update();
}

void RuleStrip::wheelEvent(QWheelEvent* event) {
    const double turns = event->angleDelta().y() / 120.0;
    if (turns == 0) return;
    event->accept();
    if (event->modifiers() & Qt::ControlModifier) {
        zoom(std::pow(0.8, turns), scaleAt(event->position().x()));
        return;
    }
    if (!hasFocus()) {
        // Scrolling past must not change the design.
        event->ignore();
        return;
    }
    moveTo(scale() + turns * smallStep());
    m_wheelRest->start();
}

void RuleStrip::keyPressEvent(QKeyEvent* event) {
    const auto [from, to] = m_session->scaleRange();
    const double step = smallStep();
    switch (event->key()) {
    case Qt::Key_Left:
    case Qt::Key_Down:
        moveTo(scale() - step);
        break;
    case Qt::Key_Right:
    case Qt::Key_Up:
        moveTo(scale() + step);
        break;
    case Qt::Key_PageDown:
        moveTo(scale() - 10 * step);
        break;
    case Qt::Key_PageUp:
        moveTo(scale() + 10 * step);
        break;
    case Qt::Key_Home:
        moveTo(from);
        break;
    case Qt::Key_End:
        moveTo(to);
        break;
    case Qt::Key_Plus:
    case Qt::Key_Equal:
        zoom(0.8, scale());
        break;
    case Qt::Key_Minus:
        zoom(1.25, scale());
        break;
    default:
        QWidget::keyPressEvent(event);
        return;
    }
    event->accept();
}

void RuleStrip::keyReleaseEvent(QKeyEvent* event) {
    if (!event->isAutoRepeat() && !m_held) endGesture();
    QWidget::keyReleaseEvent(event);
}

void RuleStrip::focusOutEvent(QFocusEvent* event) {
    m_held = false;
    endGesture();
    QWidget::focusOutEvent(event);
    update();
}

QString RuleStrip::wordsAt(double scale) const {
    const auto& survey = m_session->survey();
    QString words = "scale " + scaleText(scale);
    if (!survey) return words;
    for (const FitBand& band : survey->bands)
        if (scale >= band.from && scale <= band.to) {
            words += ": " + bandWords(band, scale);
            break;
        }
    const ScaleSurvey::Step* here = nullptr;
    for (const auto& step : survey->sheetSteps)
        if (step.scale <= scale) here = &step;
    if (here) {
        words += ", " + stepWords(*here);
        const QString cost = costWords(*here, QString::fromStdString(survey->currency));
        if (!cost.isEmpty()) words += ", " + cost;
    }
    for (const StockMatch& m : survey->stock.matches)
        if (scale >= m.from && scale <= m.to)
            words += QString::fromStdString(", " + m.part + " = " + m.words);
    if (survey->pick.scale && std::fabs(*survey->pick.scale - scale) < smallStep() / 2) words += ", the pick";
    return words;
}

bool RuleStrip::event(QEvent* event) {
    if (event->type() == QEvent::ToolTip) {
        const auto* help = static_cast<QHelpEvent*>(event);
        const double at = scaleAt(help->pos().x());
        const auto [from, to] = m_session->scaleRange();
        if (at >= from && at <= to) {
            const bool above = !m_slim && help->pos().y() < bodyTop && m_session->survey();
            const QString flags =
                above ? flagWords(*m_session->survey(), at, scaleAt(7) - scaleAt(0)) : QString();
            QToolTip::showText(help->globalPos(), flags.isEmpty() ? wordsAt(at) : flags, this);
            return true;
        }
    }
    return QWidget::event(event);
}

} // namespace slab::ui
