#include "ui/board/draw_tool.h"
#include "core/board/measure.h"
#include "core/board/moves.h"
#include "ui/board/board_canvas.h"
#include "ui/board/board_deeds.h"
#include "ui/paint/page_painter.h"
#include "ui/theme/theme.h"
#include <QKeyEvent>
#include <QPainter>
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

constexpr double boxFrom = 6;      // px
constexpr double samePlace = 1e-6; // mm

/// Round figures in the document, whatever the scale.
double rounded(double mm, double scale, double step) {
    return step > 0 ? std::round(mm / scale / step) * step * scale : mm;
}

} // namespace

const std::vector<DrawKind>& drawKinds() {
    static const std::vector<DrawKind> kinds{
        {"profile", "Profile", "P", "half width", nullptr,
         "A body by its side outline: click its corners in the side view."},
        {"taper", "Taper", "T", "height", "base at",
         "A body by its base outline and height: click its corners in the plan, or drag a box."},
        {"plate", "Plate", "L", nullptr, "stands at", "One free plate: click its corners, or drag a box."},
        {"round", "Round", "O", "radius", "stands at",
         "A pipe or tub: click the base and the far end, then how thick; or drag a circle."},
        {"facet", "Facets", "A", "depth", "starts at",
         "A body of free corners and faces: click the outline of one side."}};
    return kinds;
}

DrawTool::DrawTool(BoardCanvas& canvas, std::string kind) : BoardTool(canvas), m_kind(&drawKinds().front()) {
    for (const DrawKind& one : drawKinds())
        if (one.kind == kind) m_kind = &one;
    m_view = kind == "profile" || kind == "facet" ? BoardView::side : BoardView::plan;
}

bool DrawTool::allowed(BoardView view) const {
    const std::string_view kind = m_kind->kind;
    if (!m_places.empty()) return view == m_view;
    return kind == "profile" ? view == BoardView::side : kind == "taper" ? view == BoardView::plan : true;
}

std::optional<BoardView> DrawTool::keepsTo() const {
    const std::string_view kind = m_kind->kind;
    if (!m_places.empty() || kind == "profile" || kind == "taper") return m_view;
    return {};
}

BoardPrompt DrawTool::prompt() const {
    const int n = static_cast<int>(m_places.size()) + 1;
    const QString words = DrawTool::words(), kind = QString(m_kind->label) + ": ";
    return {kind + words.section(QStringLiteral(" · "), 0, 0), n, isRound() ? 3 : 0};
}

QString DrawTool::words() const {
    if (isRound())
        return m_places.empty()       ? "Click the middle of the base, or drag a circle from its middle"
               : m_places.size() == 1 ? "Click the middle of the far end"
                                      : "Click how thick it is, or type the radius; Enter makes it";
    const char* const where = m_view == BoardView::side    ? "side"
                              : m_view == BoardView::front ? "front"
                                                           : "plan";
    if (m_places.empty())
        return QString("In the %1: click the first corner, drag a box, or type its figures (= before a name)")
            .arg(where);
    if (m_places.size() < 3)
        return "Click the next corner · type figures for an exact one · Backspace takes it back";
    return "Enter, a double click or the first corner closes it · Backspace takes a corner back";
}

Vec2 DrawTool::met(const BoardPointer& pointer) {
    SnapOptions options;
    if (!m_places.empty()) options.anchor = m_places.back().at;
    if (m_boxFrom) options.anchor = *m_boxFrom;
    const Snap& snap = meet(pointer, pointer.at, options);
    const double scale = desk().scene().scale > 0 ? desk().scene().scale : 1;
    const double step = roundStep(1 / m_canvas.view().scale / scale, desk().scene().units.unit);
    Vec2 at = snap.at;
    if (!snap.exactRight && snap.words != "grid") at.x() = rounded(at.x(), scale, step);
    if (!snap.exactUp && snap.words != "grid") at.y() = rounded(at.y(), scale, step);
    m_closing = !isRound() && m_places.size() >= 3 && !m_boxFrom &&
                (m_canvas.pixelOf(m_view, m_places.front().at) - pointer.px).manhattanLength() <
                    BoardCanvas::reachPx * 1.4;
    return m_closing ? m_places.front().at : at;
}

void DrawTool::add(BoardView view, DrawnPlace place) {
    if (m_places.empty()) m_view = view;
    if (!m_places.empty() && (m_places.back().at - place.at).norm() < samePlace && !isRound()) return;
    m_places.push_back(std::move(place));
}

void DrawTool::press(const BoardPointer& pointer) {
    m_pressed = pointer.px;
    m_boxFrom.reset();
    if (!allowed(pointer.view)) {
        Q_EMIT desk().told(words() + ".");
        return;
    }
    // The pointer is read in the view that the kind keeps to; over another one the click was meant for that.
    const BoardView under = viewAt(desk().sheet(), m_canvas.view().toPaper(pointer.px));
    if (m_places.empty() && keepsTo() && under != m_view) {
        Q_EMIT desk().told(QString("A %1 is drawn in the %2 view, not over the %3: nothing was drawn.")
                               .arg(m_kind->kind, viewName(m_view), viewName(under)));
        return;
    }
    m_pointer = met(pointer);
    if (m_closing || (isRound() && m_places.size() == 2)) {
        finish();
        return;
    }
    add(pointer.view, clicked(*m_pointer));
    hold({}, {});
}

DrawnPlace DrawTool::clicked(const Vec2& at) const {
    DrawnPlace place{at, {}, {}};
    const auto take = [&](const QString& text, double& to, QString& kept) {
        if (text.trimmed().isEmpty()) return;
        const auto value = evaluate(text.toStdString(), desk().scope(), Space::subject, Kind::length);
        if (!value) return; // the strip says why
        to = value->value;
        kept = text;
    };
    take(m_right, place.at.x(), place.right);
    take(m_up, place.at.y(), place.up);
    return place;
}

void DrawTool::hold(const QString& right, const QString& up) {
    m_right = right;
    m_up = up;
}

void DrawTool::move(const BoardPointer& pointer) {
    m_pointer.reset();
    meetNothing();
    if (!allowed(pointer.view)) return;
    if (m_places.empty()) m_view = pointer.view;
    m_pointer = met(pointer);
    if (!isRound() || m_places.size() != 2) return;
    const Vec2 along = m_places[1].at - m_places[0].at, off = *m_pointer - m_places[0].at;
    m_radius = along.norm() > samePlace ? std::abs(along.x() * off.y() - along.y() * off.x()) / along.norm()
                                        : off.norm();
}

void DrawTool::drag(const BoardPointer& pointer) {
    if (m_places.size() != 1 || !allowed(pointer.view)) return;
    if (!m_boxFrom && (pointer.px - m_pressed).manhattanLength() < boxFrom) return;
    m_boxFrom = m_places.front().at;
    m_pointer = met(pointer);
    m_radius = isRound() ? (*m_pointer - *m_boxFrom).norm() : 0;
}

void DrawTool::release(const BoardPointer&) {
    if (!m_boxFrom || !m_pointer) return;
    const Vec2 a = *m_boxFrom, b = *m_pointer;
    m_boxFrom.reset();
    if (isRound()) {
        m_places.push_back({a, {}, {}});
        if (m_radius > samePlace) finish();
        return;
    }
    if (std::abs(a.x() - b.x()) < samePlace || std::abs(a.y() - b.y()) < samePlace) return;
    const Vec2 low = a.cwiseMin(b), high = a.cwiseMax(b);
    m_places.clear();
    for (const Vec2& corner : {low, Vec2(high.x(), low.y()), high, Vec2(low.x(), high.y())})
        m_places.push_back({corner, {}, {}});
    finish();
}

void DrawTool::doubleClick(const BoardPointer&) {
    if (canFinish()) finish();
}

bool DrawTool::key(QKeyEvent& event) {
    if (event.key() == Qt::Key_Return || event.key() == Qt::Key_Enter) {
        if (canFinish())
            finish();
        else
            Q_EMIT m_canvas.entryWanted({});
        return true;
    }
    if (event.key() == Qt::Key_Backspace && !m_places.empty()) {
        m_places.pop_back();
        m_closing = false;
        return true;
    }
    return false;
}

bool DrawTool::cancel() {
    const bool any = !m_places.empty();
    m_places.clear();
    m_boxFrom.reset();
    m_closing = false;
    meetNothing();
    return any;
}

void DrawTool::place(BoardView view, const Vec2& at) {
    if (allowed(view)) add(view, {at, {}, {}});
}

std::optional<Vec2> DrawTool::last() const {
    return m_places.empty() ? std::nullopt : std::optional(m_places.back().at);
}

Expected<void> DrawTool::placeTyped(const QString& right, const QString& up) {
    const auto x = evaluate(right.toStdString(), desk().scope(), Space::subject, Kind::length);
    if (!x) return tl::make_unexpected(x.error());
    const auto y = evaluate(up.toStdString(), desk().scope(), Space::subject, Kind::length);
    if (!y) return tl::make_unexpected(y.error());
    add(m_view, {{x->value, y->value}, right, up});
    hold({}, {});
    m_canvas.update();
    Q_EMIT m_canvas.pointed();
    return {};
}

bool DrawTool::canFinish() const {
    return isRound() ? m_places.size() >= 2 : m_places.size() >= 3;
}

bool DrawTool::finish() {
    NewForm wanted;
    wanted.kind = m_kind->kind;
    wanted.name = m_figures.name.trimmed().toStdString();
    wanted.view = m_view;
    wanted.step = readable;
    for (const DrawnPlace& p : m_places) wanted.places.push_back(p.at);
    wanted.size = isRound() ? m_radius : 0;
    const auto read = [&](const QString& text, double& to) -> Expected<void> {
        if (text.trimmed().isEmpty()) return {};
        const auto value = evaluate(text.toStdString(), desk().scope(), Space::subject, Kind::length);
        if (!value) return tl::make_unexpected(value.error());
        to = value->value;
        return {};
    };
    for (const auto& done : {read(m_figures.size, wanted.size), read(m_figures.from, wanted.from)})
        if (!done) return desk().apply(tl::make_unexpected(done.error()));
    const auto form = static_cast<int>(desk().project().forms.size());
    const bool made = desk().apply(drawnForm(desk().project(), desk().scope(), wanted, m_places, m_figures));
    if (!made) return false;
    const BoardView view = m_view;
    BoardDesk& table = desk();
    m_places.clear();
    m_figures = {};
    m_closing = false;
    meetNothing();
    chooseForm(table, form, view);
    Q_EMIT m_canvas.toolDone(); // this tool is gone after that
    return true;
}

std::vector<Vec2> DrawTool::draft() const {
    std::vector<Vec2> line;
    if (m_boxFrom && m_pointer && !isRound()) {
        const Vec2 a = *m_boxFrom, b = *m_pointer;
        return {a, {b.x(), a.y()}, b, {a.x(), b.y()}, a};
    }
    for (const DrawnPlace& p : m_places) line.push_back(p.at);
    if (m_pointer && !(isRound() && m_places.size() == 2)) line.push_back(*m_pointer);
    return line;
}

void DrawTool::paintSizes(QPainter& painter, const std::vector<Vec2>& line) const {
    if (line.size() < 2) return;
    const Vec2 &a = line[line.size() - 2], &b = line.back();
    const double length = (b - a).norm();
    const QPointF pa = m_canvas.pixelOf(m_view, a), pb = m_canvas.pixelOf(m_view, b);
    if (length < samePlace || QLineF(pa, pb).length() < 40) return;
    const Palette& c = Theme::colours();
    double turn = std::atan2(b.y() - a.y(), b.x() - a.x()) * 180 / M_PI;
    if (turn > 90.01) turn -= 180;
    if (turn <= -89.99) turn += 180;
    const QLineF way(pa, pb);
    const QPointF off(way.dy() / way.length() * 14, -way.dx() / way.length() * 14);
    drawText(painter, (pa + pb) / 2 + off, QString::fromStdString(printLength(length, desk().scene().units)),
             Theme::figures(12), c.ink, turn, c.card);
}

void DrawTool::paint(QPainter& painter) const {
    const Palette& c = Theme::colours();
    const std::vector<Vec2> line = draft();
    QPolygonF path;
    for (const Vec2& p : line) path << m_canvas.pixelOf(m_view, p);
    if (path.size() >= 3 && !isRound()) {
        QColor fill = c.chosen;
        fill.setAlphaF(0.10F);
        painter.setPen(Qt::NoPen);
        painter.setBrush(fill);
        painter.drawPolygon(path);
    }
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(c.chosen, 2, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.drawPolyline(path);
    if (isRound() && m_radius > 0 && !m_places.empty()) {
        const double r = m_radius * m_canvas.view().scale;
        if (m_boxFrom || m_places.size() == 2)
            painter.drawEllipse(m_canvas.pixelOf(m_view, m_places.front().at), r, r);
        if (m_places.size() == 2) painter.drawEllipse(m_canvas.pixelOf(m_view, m_places.back().at), r, r);
    }
    painter.setPen(QPen(c.chosen, 1.4));
    painter.setBrush(c.card);
    for (const DrawnPlace& p : m_places) {
        const QPointF at = m_canvas.pixelOf(m_view, p.at);
        painter.drawRect(QRectF(at.x() - 4, at.y() - 4, 8, 8));
    }
    if (m_closing && !m_places.empty()) {
        painter.setBrush(c.chosen);
        painter.drawEllipse(m_canvas.pixelOf(m_view, m_places.front().at), 7, 7);
    }
    paintSizes(painter, m_boxFrom && line.size() == 5 ? std::vector<Vec2>{line[0], line[1]} : line);
    if (m_boxFrom && line.size() == 5) paintSizes(painter, {line[1], line[2]});
}

} // namespace slab::ui
