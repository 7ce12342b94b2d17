#include "ui/board/likeness_plot.h"
#include "ui/board/label_boxes.h"
#include "ui/paint/page_painter.h"
#include "ui/theme/theme.h"
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <algorithm>
#include <cmath>

namespace slab::ui {

std::vector<double> likenessTicks(double least, double most, const UnitStyle& units, int count) {
    if (!(least > 0) || !(most >= least)) return {};
    const auto within = [&](double mm) { return mm >= least * 0.9999 && mm <= most * 1.0001; };
    std::vector<double> ticks;
    if (isInch(units)) {
        for (const double by : {2.0, 4.0, 16.0}) {
            ticks.clear();
            for (double mm = 25.4 / 64; mm <= most * 1.0001; mm *= by)
                if (within(mm)) ticks.push_back(mm);
            if (static_cast<int>(ticks.size()) <= count) break;
        }
        return ticks;
    }
    // All of one pattern, so that the lines stand in a regular rhythm.
    const double low = std::pow(10, std::floor(std::log10(least)));
    for (const std::vector<double>& pattern :
         {std::vector<double>{1, 2, 5}, std::vector<double>{1, 3}, std::vector<double>{1}}) {
        ticks.clear();
        for (double power = low; power <= most; power *= 10)
            for (const double by : pattern)
                if (within(power * by)) ticks.push_back(power * by);
        if (static_cast<int>(ticks.size()) <= count) break;
    }
    return ticks;
}

LikenessPlot::LikenessPlot(Session* session, LikenessWatch* watch, QWidget* parent)
    : QWidget(parent), m_session(session), m_watch(watch) {
    setMouseTracking(true);
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("likeness"));
    setAccessibleDescription(tr(
        "How far the flat body leaves the curved one, against the number of plates. Left and right go from "
        "point to point, Return gives the curves its facets."));
    connect(watch, &LikenessWatch::changed, this, &LikenessPlot::refresh);
}

const LikenessSurvey* LikenessPlot::survey() const {
    return m_watch->survey() && !m_watch->survey()->points.empty() ? &*m_watch->survey() : nullptr;
}

void LikenessPlot::refresh() {
    const LikenessSurvey* s = survey();
    if (!s || m_marked >= static_cast<int>(s->points.size())) m_marked = -1;
    mark(m_marked);
}

void LikenessPlot::mark(int point) {
    m_marked = point;
    const LikenessSurvey* s = survey();
    QString words;
    if (!s)
        words =
            m_watch->working() || !m_watch->survey()
                ? "working it out…"
                : "No curve here makes plates (that of a plate form is sawn): bend an edge of a profile or "
                  "taper form.";
    else if (point >= 0)
        words = wordsOf(s->points[static_cast<std::size_t>(point)]) + " · click to take it";
    else
        words = wordsOf(s->now);
    Q_EMIT told(words);
    update();
}

QString LikenessPlot::wordsOf(const LikenessPoint& point) const {
    const UnitStyle units = m_session->unitStyle();
    const auto figure = [&](double mm) { return QString::fromStdString(printFine(mm, units)); };
    return QString("%1 plates: at most %2 off, %3 on the mean · %4")
        .arg(point.plates)
        .arg(figure(point.greatest), figure(point.mean), QString::fromStdString(point.how));
}

int LikenessPlot::pointOfNow() const {
    const LikenessSurvey* s = survey();
    for (std::size_t i = 0; s && i < s->points.size(); ++i)
        if (s->points[i].facets == s->now.facets) return static_cast<int>(i);
    return -1;
}

QRectF LikenessPlot::body() const {
    return QRectF(rect()).adjusted(62, 8, -12, -34);
}

LikenessPlot::Range LikenessPlot::range() const {
    Range r;
    const LikenessSurvey* s = survey();
    if (!s) return r;
    r.from = r.to = s->now.plates;
    double least = 1e300, most = 0;
    const auto see = [&](const LikenessPoint& p) {
        r.from = std::min(r.from, p.plates);
        r.to = std::max(r.to, p.plates);
        for (const double mm : {p.greatest, p.mean}) {
            if (mm > 0) least = std::min(least, mm);
            most = std::max(most, mm);
        }
    };
    for (const LikenessPoint& p : s->points) see(p);
    see(s->now);
    if (!(most > 0)) return r;
    r.least = least / 1.8; // room for the word below the curve
    r.most = most * 1.25;
    if (r.to == r.from) ++r.to;
    return r;
}

QPointF LikenessPlot::placeOf(double plates, double mm) const {
    const Range r = range();
    const QRectF b = body().adjusted(10, 0, -10, 0);
    const double up = std::log(std::max(mm, r.least) / r.least) / std::log(r.most / r.least);
    return {b.left() + (plates - r.from) / (r.to - r.from) * b.width(), b.bottom() - up * b.height()};
}

int LikenessPlot::pointAt(const QPointF& px) const {
    const LikenessSurvey* s = survey();
    int best = -1;
    double least = 24; // px: points are easy to hit
    for (std::size_t i = 0; s && i < s->points.size() && body().adjusted(-8, -8, 8, 8).contains(px); ++i) {
        const double away = std::abs(placeOf(s->points[i].plates, s->points[i].greatest).x() - px.x());
        if (away < least) least = away, best = static_cast<int>(i);
    }
    return best;
}

bool LikenessPlot::take(int point) {
    const LikenessSurvey* s = survey();
    if (!s || point < 0 || point >= static_cast<int>(s->points.size())) return false;
    const LikenessPoint chosen =
        s->points[static_cast<std::size_t>(point)]; // the survey goes with the change
    Edit edit = setFacets(chosen);
    edit.label = "Set facets: " + std::to_string(chosen.plates) + " plates";
    return m_session->apply(edit);
}

void LikenessPlot::mousePressEvent(QMouseEvent* event) {
    // A stale plot may name curves that are gone.
    if (event->button() == Qt::LeftButton && m_watch->isCurrent()) take(pointAt(event->position()));
}

void LikenessPlot::mouseMoveEvent(QMouseEvent* event) {
    const int point = pointAt(event->position());
    setCursor(point >= 0 ? Qt::PointingHandCursor : Qt::ArrowCursor);
    if (point != m_marked) mark(point);
}

void LikenessPlot::leaveEvent(QEvent*) {
    mark(-1);
}

void LikenessPlot::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    mark(-1);
}

void LikenessPlot::keyPressEvent(QKeyEvent* event) {
    const LikenessSurvey* s = survey();
    const int by = event->key() == Qt::Key_Right ? 1 : event->key() == Qt::Key_Left ? -1 : 0;
    if (s && by != 0) {
        const int from = m_marked >= 0 ? m_marked : pointOfNow();
        mark(std::clamp(from + by, 0, static_cast<int>(s->points.size()) - 1));
        return;
    }
    if (m_marked >= 0 && (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter)) {
        if (m_watch->isCurrent()) take(m_marked);
        return;
    }
    QWidget::keyPressEvent(event);
}

void LikenessPlot::paintAxes(QPainter& painter, const Range& r) const {
    const Palette& c = Theme::colours();
    const QRectF b = body();
    const UnitStyle units = m_session->unitStyle();
    const std::vector<double> ticks =
        likenessTicks(r.least, r.most, units, static_cast<int>(b.height() / 15));
    for (const double mm : ticks) {
        const double y = std::round(placeOf(r.from, mm).y()) + 0.5;
        painter.setPen(QPen(c.line, 1));
        painter.drawLine(QPointF(b.left(), y), QPointF(b.right(), y));
        painter.setPen(c.quiet);
        painter.setFont(Theme::figures(11));
        painter.drawText(QRectF(0, y - 8, b.left() - 6, 16), Qt::AlignRight | Qt::AlignVCenter,
                         QString::fromStdString(printFine(mm, units)));
    }
    // As many counts as there is room for, in round steps.
    const int most = std::max(2, static_cast<int>(b.width() / 44));
    int step = 1;
    for (const int wanted : {1, 2, 5, 10, 20, 50, 100, 200, 500, 1000})
        if ((r.to - r.from) / (step = wanted) <= most) break;
    painter.setFont(Theme::figures(11));
    for (int n = (r.from + step - 1) / step * step; n <= r.to; n += step) {
        const double x = std::round(placeOf(n, r.least).x()) + 0.5;
        painter.setPen(QPen(c.line, 1));
        painter.drawLine(QPointF(x, b.bottom()), QPointF(x, b.bottom() + 4));
        painter.setPen(c.quiet);
        painter.drawText(QRectF(x - 22, b.bottom() + 4, 44, 14), Qt::AlignCenter, QString::number(n));
    }
    painter.setPen(QPen(c.quiet, 1));
    painter.drawLine(b.bottomLeft(), b.bottomRight());
    painter.setFont(Theme::words(11));
    painter.drawText(QRectF(b.left(), b.bottom() + 17, b.width(), 16), Qt::AlignRight | Qt::AlignVCenter,
                     "plates");
}

void LikenessPlot::paintCurve(QPainter& painter, bool mean) const {
    const Palette& c = Theme::colours();
    const LikenessSurvey* s = survey();
    QPolygonF line;
    for (const LikenessPoint& p : s->points) line << placeOf(p.plates, mean ? p.mean : p.greatest);
    const QColor colour = m_watch->isCurrent() ? c.ink : c.quiet;
    // Told apart by stroke and shape too, not by colour alone.
    painter.setPen(QPen(colour, 1.4, mean ? Qt::DashLine : Qt::SolidLine));
    painter.setBrush(Qt::NoBrush);
    painter.drawPolyline(line);
    painter.setPen(QPen(colour, 1.4));
    painter.setBrush(mean ? c.card : colour);
    for (qsizetype i = 0; i < line.size(); ++i) {
        const double r = static_cast<int>(i) == m_marked ? 5.5 : 3.2;
        painter.drawEllipse(line[i], r, r);
    }
    const QString word = mean ? "mean" : "greatest";
    if (line.size() >= 2)
        drawText(painter, wordPlace(mean).center(), word, Theme::words(11), colour, 0, c.card);
}

/// Clear of both curves, of their points and of the line of the document as it is.
QRectF LikenessPlot::wordPlace(bool mean) const {
    const LikenessSurvey* s = survey();
    if (!s) return {};
    WordRoom room;
    room.first = mean ? 1 : -1;
    room.within = body().adjusted(2, 2, -2, -2);
    const auto dot = [&](const QPointF& at, double r) {
        room.taken.emplace_back(at.x() - r, at.y() - r, 2 * r, 2 * r);
    };
    for (const bool of : {false, true}) {
        QPointF last;
        for (const LikenessPoint& p : s->points) {
            const QPointF at = placeOf(p.plates, of ? p.mean : p.greatest);
            if (&p != s->points.data()) room.lines.emplace_back(last, at);
            dot(last = at, 4);
            if (of == mean) room.anchors.insert(room.anchors.begin(), at);
        }
    }
    const QPointF now = placeOf(s->now.plates, s->now.greatest);
    room.lines.emplace_back(now.x(), body().top(), now.x(), body().bottom());
    for (const double mm : {s->now.greatest, s->now.mean}) dot(placeOf(s->now.plates, mm), 7);
    if (mean) room.taken.push_back(wordPlace(false));
    const QFontMetricsF metrics(Theme::words(11));
    return wordBox({metrics.horizontalAdvance(mean ? "mean" : "greatest") + 6, metrics.height()}, room);
}

/// The document as it is: a line with a handle, as on the rule.
void LikenessPlot::paintNow(QPainter& painter) const {
    const Palette& c = Theme::colours();
    const LikenessPoint& now = survey()->now;
    if (!(now.greatest > 0)) return;
    const QPointF greatest = placeOf(now.plates, now.greatest), mean = placeOf(now.plates, now.mean);
    painter.setPen(QPen(c.chosen, 1.6));
    painter.drawLine(QPointF(greatest.x(), body().top()), QPointF(greatest.x(), body().bottom()));
    painter.setBrush(c.card);
    painter.setPen(QPen(c.chosen, 2.4));
    painter.drawEllipse(greatest, 5.5, 5.5);
    painter.drawEllipse(mean, 5.5, 5.5);
}

void LikenessPlot::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const Palette& c = Theme::colours();
    if (survey()) {
        paintAxes(painter, range());
        paintNow(painter);
        paintCurve(painter, true);
        paintCurve(painter, false);
    }
    if (!hasFocus()) return;
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(Theme::mix(c.chosen, c.card, 0.5), 1));
    painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), 4, 4);
}

} // namespace slab::ui
