#include "ui/board/measure_tool.h"
#include "ui/board/board_canvas.h"
#include "ui/paint/page_painter.h"
#include "ui/tables/table_edits.h"
#include "ui/theme/theme.h"
#include <QPainter>
#include <algorithm>
#include <array>
#include <cmath>

namespace slab::ui {

namespace {

/// A dimension line through the place that was clicked, as one step.
Edit drawnLine(const BoardDesk& desk, const std::array<PointRef, 2>& points, const BoardPointer& pointer,
               const std::string& along, double step) {
    Edit line = addLine(desk.project(), pointer.view, points[0], points[1], along);
    const auto with = line.apply(desk.project());
    if (!with) return line;
    auto moved = moveLine(*with, desk.scope(), static_cast<int>(with->lines.size()) - 1, pointer.at, step);
    if (!moved) return line;
    const std::string label = line.label;
    return chained(label, {std::move(line), std::move(*moved)});
}

} // namespace

BoardPrompt MeasureTool::prompt() const {
    const auto n = static_cast<int>(m_places.size());
    return {n == 0   ? "Measure: click the first place"
            : n == 1 ? "Click the second place"
            : n == 2 ? "Click a third place for the angle"
                     : "A click measures anew",
            n < 3 ? n + 1 : 0, n < 3 ? 3 : 0};
}

QString MeasureTool::words() const {
    const QString told = reading();
    if (!told.isEmpty()) return told;
    return m_places.empty() ? "Click the first place" : "Click the second place";
}

std::vector<Vec2> MeasureTool::line() const {
    std::vector<Vec2> all = m_places;
    if (m_pointer && (all.size() == 1 || all.size() == 2)) all.push_back(*m_pointer);
    return all;
}

QString MeasureTool::reading() const {
    const std::vector<Vec2> all = line();
    if (all.size() < 2) return {};
    const BoardScene& scene = desk().scene();
    QString words = QString::fromStdString(inWords(slab::measure(all[0], all[1]), scene.scale, scene.units));
    if (all.size() == 3 && m_places.size() == 3)
        words += " · angle " + QString::fromStdString(printAngle(angleAt(all[0], all[1], all[2])));
    return words;
}

void MeasureTool::press(const BoardPointer& pointer) {
    if (m_places.size() >= 3 || (!m_places.empty() && pointer.view != m_view)) m_places.clear();
    SnapOptions options;
    if (!m_places.empty()) options.anchor = m_places.back();
    const Vec2 at = meet(pointer, pointer.at, options).at;
    m_view = pointer.view;
    m_places.push_back(at);
}

void MeasureTool::move(const BoardPointer& pointer) {
    m_pointer.reset();
    SnapOptions options;
    if (!m_places.empty()) options.anchor = m_places.back();
    const Vec2 at = meet(pointer, pointer.at, options).at;
    if (m_places.empty() || pointer.view == m_view) m_pointer = at;
}

bool MeasureTool::cancel() {
    const bool any = !m_places.empty();
    m_places.clear();
    meetNothing();
    return any;
}

void MeasureTool::paint(QPainter& painter) const {
    const std::vector<Vec2> all = line();
    const Palette& c = Theme::colours();
    painter.setPen(QPen(c.tight, 2));
    for (std::size_t i = 0; i + 1 < all.size() && i < (m_places.size() < 3 ? 1U : 2U); ++i)
        painter.drawLine(m_canvas.pixelOf(m_view, all[i]), m_canvas.pixelOf(m_view, all[i + 1]));
    painter.setBrush(c.card);
    for (const Vec2& p : m_places) painter.drawEllipse(m_canvas.pixelOf(m_view, p), 4, 4);
    if (all.size() < 2) return;
    const double length = (all[1] - all[0]).norm();
    const QPointF middle = (m_canvas.pixelOf(m_view, all[0]) + m_canvas.pixelOf(m_view, all[1])) / 2;
    drawText(painter, middle + QPointF(0, -14),
             QString::fromStdString(printLength(length, desk().scene().units)), Theme::figures(13, true),
             c.ink, 0, c.card);
}

BoardPrompt DimensionTool::prompt() const {
    const auto n = static_cast<int>(m_points.size());
    return {n == 0   ? "Dimension: click the point that it starts from"
            : n == 1 ? "Click the other point"
                     : "Click where the line goes",
            n + 1, 3};
}

QString DimensionTool::words() const {
    return m_points.empty() ? "Click the point that the dimension line starts from"
           : m_points.size() == 1
               ? "Click the other point"
               : "Click where the line goes: above or beside measures level or plumb, between them the "
                 "true distance";
}

const BoardPoint* DimensionTool::pointAt(const BoardPointer& pointer) const {
    const BoardPoint* best = nullptr;
    double least = m_canvas.reach() * 1.3;
    for (const BoardPoint& p : desk().scene().of(pointer.view).points) {
        if (p.mirrored || p.ref.handle != Handle::corner) continue;
        const double d = (p.at - pointer.at).norm();
        if (d < least) least = d, best = &p;
    }
    return best;
}

void DimensionTool::press(const BoardPointer& pointer) {
    m_pointer = pointer.at;
    if (m_points.size() == 2) return finish(pointer);
    if (!m_points.empty() && pointer.view != m_view) m_points.clear();
    const BoardPoint* point = pointAt(pointer);
    if (!point) {
        Q_EMIT desk().told("A dimension line runs from point to point: click a corner of an outline.");
        return;
    }
    if (!m_points.empty() && m_points.front() == point->ref) return;
    m_view = pointer.view;
    m_points.push_back(point->ref);
}

void DimensionTool::move(const BoardPointer& pointer) {
    m_pointer = pointer.at;
    m_snap = {};
    m_snap.at = pointer.at;
    if (m_points.size() == 2) return;
    if (const BoardPoint* point = pointAt(pointer)) {
        m_snap.at = point->at;
        m_snap.words = point->name;
    }
}

std::string DimensionTool::alongFor(BoardView view, const Vec2& a, const Vec2& b, const Vec2& at) {
    const Vec2 low = a.cwiseMin(b), high = a.cwiseMax(b);
    const bool inRight = at.x() >= low.x() && at.x() <= high.x(),
               inUp = at.y() >= low.y() && at.y() <= high.y();
    const bool level = std::abs(a.y() - b.y()) < 1e-6, plumb = std::abs(a.x() - b.x()) < 1e-6;
    if (level) return axisOf(view, 0);
    if (plumb) return axisOf(view, 1);
    if (inRight && !inUp) return axisOf(view, 0);
    if (inUp && !inRight) return axisOf(view, 1);
    return {};
}

void DimensionTool::finish(const BoardPointer& pointer) {
    const BoardPoint* a = find(desk().scene(), m_view, m_points[0]);
    const BoardPoint* b = find(desk().scene(), m_view, m_points[1]);
    if (!a || !b) {
        m_points.clear();
        return;
    }
    const std::string along = alongFor(m_view, a->at, b->at, pointer.at);
    const auto index = static_cast<int>(desk().project().lines.size());
    const bool done =
        desk().apply(drawnLine(desk(), {m_points[0], m_points[1]}, pointer, along, m_canvas.step()));
    m_points.clear();
    meetNothing();
    if (!done) return;
    desk().choose({m_view, {}, {}, index, -1});
    Q_EMIT m_canvas.toolDone(); // this tool is gone after that
}

bool DimensionTool::cancel() {
    const bool any = !m_points.empty();
    m_points.clear();
    meetNothing();
    return any;
}

void DimensionTool::paint(QPainter& painter) const {
    if (m_points.empty()) return;
    const Palette& c = Theme::colours();
    const BoardPoint* a = find(desk().scene(), m_view, m_points[0]);
    const BoardPoint* b = m_points.size() > 1 ? find(desk().scene(), m_view, m_points[1]) : nullptr;
    if (!a) return;
    painter.setPen(QPen(c.chosen, 1.6, Qt::DashLine));
    const Vec2 end = b ? b->at : m_pointer;
    painter.drawLine(m_canvas.pixelOf(m_view, a->at), m_canvas.pixelOf(m_view, end));
    painter.setBrush(c.card);
    painter.setPen(QPen(c.chosen, 1.6));
    painter.drawEllipse(m_canvas.pixelOf(m_view, a->at), 6, 6);
    if (!b) return;
    painter.drawEllipse(m_canvas.pixelOf(m_view, b->at), 6, 6);
    const std::string along = alongFor(m_view, a->at, b->at, m_pointer);
    const Vec2 d = b->at - a->at;
    const double value = along.empty() ? d.norm() : std::abs(along == axisOf(m_view, 0) ? d.x() : d.y());
    QString words = QString::fromStdString(printLength(value, desk().scene().units));
    if (!along.empty()) words += " along " + QString::fromStdString(along);
    drawText(painter, m_canvas.pixelOf(m_view, m_pointer) + QPointF(0, -16), words, Theme::figures(12),
             c.chosen, 0, c.card);
}

} // namespace slab::ui
