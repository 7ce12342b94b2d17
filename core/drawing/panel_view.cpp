#include "core/drawing/panel_view.h"
#include "core/drawing/contact_ink.h"
#include "core/drawing/corner_table.h"
#include "core/drawing/fold_ink.h"
#include "core/drawing/guide_ink.h"
#include "core/drawing/number_room.h"
#include "core/drawing/tiles.h"
#include "core/units/units.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {
namespace {

constexpr double marginLeft = 25, marginBottom = 21, marginSide = 12,
                 marginTop = 22; // room for numbers and sizes
constexpr LineStyle sizeLine{0.18, Ink::line}, thin{0.13, Ink::quiet};

/// Works on one view: places numbers first, then sizes outside of them.
class View {
public:
    View(const Panel& panel, const PanelMap& map, Layer& sizes, Layer& numbers, const Area& region)
        : m_panel(&panel), m_map(map), m_pen(sizes), m_numbers(numbers) {
        m_room.region = region;
        for (const Ring& ring : drawnRings(panel)) m_room.rings.push_back(map.ring(ring));
        const Box2 box = bounds(map.ring(panel.boundary.outer));
        m_low = box.min;
        m_high = box.max;
        m_used = {m_low.x(), m_low.y(), box.size().x(), box.size().y()};
        for (const Ring& ring : m_room.rings) include(bounds(ring).min), include(bounds(ring).max);
    }

    /// Places that later words keep clear of.
    void keepClear(const Layer& layer, double by = 0) {
        for (const Label& label : layer.labels) m_room.taken.push_back(labelArea(label).grown(by));
    }
    void keepClear(const Area& area) { m_room.taken.push_back(area); }
    /// @return true if rows are told together
    bool numberEdges(const std::vector<EdgeRow>& rows) {
        bool together = false;
        for (const PlacedNumber& one : placeNumbers(m_room, rows, *m_panel, m_map)) {
            const auto& [best, foot] = one.place;
            const Area area = NumberRoom::areaOf(one.place, NumberRoom::widthOf(one.number));
            include({area.x, area.y});
            include({area.right(), area.top()});
            const Vec2 leader = (foot - best).normalized();
            m_numbers.line(best + leader * NumberRoom::balloon, foot, thin);
            pill(area);
            m_numbers.wordsMiddle(best, one.number, {2.5, Align::centre, Ink::line, true, true});
            together = together || one.together;
        }
        return together;
    }
    void overallSizes(const UnitStyle& units) {
        const Vec2 span = (m_high - m_low) / m_map.scale;
        const double y = m_used.y - 4.5, x = m_used.x - 4.5;
        const Vec2 bottomLeft = touching(m_low.x(), 0, false), bottomRight = touching(m_high.x(), 0, false);
        const Vec2 leftLow = touching(m_low.y(), 1, false), leftHigh = touching(m_high.y(), 1, false);
        sizeOf({m_low.x(), y}, {m_high.x(), y}, bottomLeft, bottomRight, size(span.x(), units));
        sizeOf({x, m_low.y()}, {x, m_high.y()}, leftLow, leftHigh, size(span.y(), units));
    }
    void diagonals() {
        const Ring outline = m_map.ring(m_panel->boundary.outer);
        Vec2 middle = (m_low + m_high) / 2;
        char letter = 'A';
        for (const auto& [a, b] : checkDiagonals(m_panel->boundary.outer)) {
            const Vec2& from = outline[static_cast<std::size_t>(a)];
            const Vec2& to = outline[static_cast<std::size_t>(b)];
            m_pen.line(from, to, {0.13, Ink::quiet, Dash::dotted});
            for (const Vec2& corner : {from, to}) letterCorner(corner, middle, std::string(1, letter++));
        }
    }
    void datum() const {
        m_pen.circle(m_low, 1.1, {0.2, Ink::chosen});
        m_pen.line(m_low - Vec2(2, 0), m_low + Vec2(2, 0), {0.2, Ink::chosen});
        m_pen.line(m_low - Vec2(0, 2), m_low + Vec2(0, 2), {0.2, Ink::chosen});
    }
    void openings() {
        for (std::size_t i = 0; i < m_panel->holes.size(); ++i) {
            const PanelLoop& hole = m_panel->holes[i];
            if (hole.outer.size() < 3) continue;
            const Box2 box = bounds(m_map.ring(hole.outer));
            const Vec2 middle = (box.min + box.max) / 2;
            std::string words = openingLetter(i);
            const std::string full = words + "  " + openingName(hole);
            if (textWidth(full, {2.4, true, false}) < 0.85 * box.size().x()) words = full;
            placeWords(words, middle, box);
        }
    }
    /// Numbers of the corners that the table tells, where no edge numbers tell them.
    void openingCorners() {
        const std::vector<EdgeRow> rows = edgeRows(*m_panel);
        for (std::size_t h = 0; h < m_panel->holes.size(); ++h) {
            const auto ofHole = [&](const EdgeRow& row) { return row.hole == static_cast<int>(h); };
            if (std::any_of(rows.begin(), rows.end(), ofHole)) continue;
            const Ring ring = m_map.ring(m_panel->holes[h].outer);
            for (const std::size_t i : toldCorners(m_panel->holes[h].outer))
                numberCorner(openingLetter(h) + std::to_string(i + 1), ring, i);
        }
    }
    /// What stands on the panel, and what it lies on, in words.
    void contacts(const Layer& marks) {
        const std::vector<ContactSpot> spots = contactSpots(*m_panel);
        WordRoom room{m_room.rings, m_room.taken, faceArea(*m_panel, m_map), m_room.region};
        keepClearOfArrow(marks, room);
        const Ring outline = m_map.ring(m_panel->boundary.outer);
        for (const auto& [a, b] : checkDiagonals(m_panel->boundary.outer))
            room.lines.push_back(
                {outline[static_cast<std::size_t>(a)], outline[static_cast<std::size_t>(b)]});
        drawContactWords(spots, m_map, 2.4, room, m_numbers);
        drawRestWords(restLines(*m_panel), 2.4, room, m_numbers);
        m_room.taken = room.taken;
        for (const ContactSpot& spot : spots)
            for (const Ring& ring : spot.rings) m_room.rings.push_back(m_map.ring(ring));
    }

private:
    void include(const Vec2& p) {
        const double right = std::max(m_used.right(), p.x()), top = std::max(m_used.top(), p.y());
        m_used.x = std::min(m_used.x, p.x());
        m_used.y = std::min(m_used.y, p.y());
        m_used.width = right - m_used.x;
        m_used.height = top - m_used.y;
    }
    /// An outline corner with this x (axis 0) or y (axis 1), nearest to the size line.
    [[nodiscard]] Vec2 touching(double value, int axis, bool) const {
        Vec2 best = axis == 0 ? Vec2(value, m_high.y()) : Vec2(m_high.x(), value);
        for (const Vec2& p : m_map.ring(m_panel->boundary.outer))
            if (std::abs(p[axis] - value) < 1e-6 && p[1 - axis] < best[1 - axis]) best = p;
        return best;
    }
    void sizeOf(const Vec2& a, const Vec2& b, const Vec2& fromA, const Vec2& fromB,
                const std::string& words) {
        const Vec2 along = (b - a).normalized(), side(-along.y(), along.x());
        m_pen.line(a, b, sizeLine);
        for (const auto& [end, from] : {std::pair(a, fromA), std::pair(b, fromB)}) {
            m_pen.line(end - 1.3 * side, end + 1.3 * side, {0.3, Ink::line});
            const Vec2 back = (from - end).normalized();
            if ((from - end).norm() > 4) m_pen.line(end + 2 * back, from - 1.2 * back, thin);
        }
        const bool level = std::abs(along.x()) > 0.5;
        const double turn = level ? 0 : std::numbers::pi / 2;
        const Vec2 away = level ? Vec2(0, -3.6) : Vec2(-3.4, 0);
        m_pen.wordsMiddle((a + b) / 2 + away, words, {3.4, Align::centre, Ink::line, true, true, turn});
    }
    /// Corner letter beside its diagonal, inside the outline if there is room, else outside.
    void letterCorner(const Vec2& corner, const Vec2& middle, const std::string& letter) {
        const WordStyle style{2.4, Align::centre, Ink::quiet, true};
        const double half = textWidth(letter, style.text()) / 2 + 0.2;
        const Vec2 inward = (middle - corner).normalized(), aside(-inward.y(), inward.x());
        Vec2 best = corner - 4.6 * inward;
        const auto clear = [&](const Vec2& at) {
            if (!m_room.isFree({at.x() - half, at.y() - 1, 2 * half, 2})) return false;
            best = at;
            return true;
        };
        bool found = false;
        for (const double along : {4.6, 6.5, 9.0, 12.0, 16.0, -3.5, -5.0, -7.5})
            for (const double side : {1.9, -1.9, 3.2, -3.2, 0.0}) {
                if (found || (along > 0 && side == 0)) continue; // the diagonal itself runs there
                found = clear(corner + along * inward + side * aside);
            }
        m_pen.wordsMiddle(best, letter, style);
        m_room.taken.push_back({best.x() - half, best.y() - 1, 2 * half, 2});
    }
    /// Beside the corner of an opening: in it first, then on the panel; further off with a line to the
    /// corner.
    void numberCorner(const std::string& number, const Ring& ring, std::size_t i) {
        const WordStyle style{2, Align::centre, Ink::line, false, true};
        const Vec2 half(textWidth(number, style.text()) / 2 + 0.2, 0.95);
        const Vec2 &corner = ring[i], &before = ring[(i + ring.size() - 1) % ring.size()],
                   &after = ring[(i + 1) % ring.size()];
        Vec2 open = (before - corner).normalized() + (after - corner).normalized();
        open = open.norm() > 1e-6 ? open.normalized()
                                  : Vec2((after - corner).y(), -(after - corner).x()).normalized();
        if (!contains(ring, corner + 1e-3 * open)) open = -open;
        constexpr double beside = 4; // mm: further off, a line leads to the corner
        for (const double away : {2.0, 2.6, 3.3, beside, 5.5, 7.5, 10.0, 14.0, 19.0})
            for (const double turned : {0.0, 0.5, -0.5, 3.14, 1.0, -1.0, 2.6, -2.6, 2.0, -2.0, 1.5, -1.5}) {
                const Vec2 at = corner + away * (Eigen::Rotation2Dd(turned) * open);
                const Area area{at.x() - half.x(), at.y() - half.y(), 2 * half.x(), 2 * half.y()};
                const NumberPlace place{at, corner};
                if (!m_room.isFree(area) || (away > beside && !m_room.leaderIsFree(place))) continue;
                if (away > beside) {
                    const Vec2 way = (corner - at).normalized();
                    m_numbers.line(at + way * half.norm(), corner, thin);
                    m_room.leaders.push_back(place);
                }
                m_numbers.wordsMiddle(at, number, style);
                m_room.taken.push_back(area);
                m_room.numberAreas.push_back(area);
                return;
            }
    }
    /// Letter and name of an opening: in its middle, or beside a small one.
    void placeWords(const std::string& words, const Vec2& middle, const Box2& box) {
        const WordStyle style{2.4, Align::centre, Ink::line, true};
        const double half = textWidth(words, style.text()) / 2;
        const Vec2 reach = (box.max - box.min) / 2;
        Vec2 best = middle;
        for (const Vec2& off :
             {Vec2(0, 0), Vec2(0, reach.y() / 2), Vec2(0, -reach.y() / 2), Vec2(reach.x() + half + 1, 0),
              Vec2(-reach.x() - half - 1, 0), Vec2(0, reach.y() + 2), Vec2(0, -reach.y() - 2),
              Vec2(reach.x() + half + 1, reach.y() + 2)}) {
            const Vec2 at = middle + off;
            if (!m_room.isFree({at.x() - half, at.y() - 1, 2 * half, 2})) continue;
            best = at;
            break;
        }
        m_pen.wordsMiddle(best, words, style);
        m_room.taken.push_back({best.x() - half, best.y() - 1, 2 * half, 2});
    }
    void pill(const Area& area) const {
        const double r = area.height / 2;
        Ring ring;
        for (int i = 0; i <= 12; ++i) {
            const double angle = -std::numbers::pi / 2 + std::numbers::pi * i / 12;
            ring.push_back({area.right() - r + r * std::cos(angle), area.y + r + r * std::sin(angle)});
        }
        for (int i = 0; i <= 12; ++i) {
            const double angle = std::numbers::pi / 2 + std::numbers::pi * i / 12;
            ring.push_back({area.x + r + r * std::cos(angle), area.y + r + r * std::sin(angle)});
        }
        m_numbers.fill(ring, Ink::paper);
        m_numbers.path(ring, true, {0.18, Ink::line});
    }

    const Panel* m_panel;
    PanelMap m_map;
    Pen m_pen, m_numbers; ///< numbers lie over the size lines
    NumberRoom m_room;
    Vec2 m_low, m_high; ///< overall box of the outer outline, on paper
    Area m_used;        ///< everything drawn so far
};

} // namespace

namespace {

/// Which way round the panel lies, in the corner of the view.
void drawUp(const Pen& pen, const Vec2& middle, const Panel& panel, const PanelDrawingOptions& options) {
    const Vec2 up = panel.up.normalized();
    pen.arrow(middle - 4 * up, middle + 4 * up, 2.6, {0.4, Ink::line});
    pen.words(middle + Vec2(6.5, 0.6), "OUTSIDE FACE UP", {2.7, Align::left, Ink::line, true});
    pen.words(middle + Vec2(6.5, -3.2), arrowWords(panel, options.arrows) + facingNote(options.facing),
              {2.3, Align::left, Ink::quiet});
}

} // namespace

DrawingScale niceScale(double most, const UnitStyle& units) {
    static const std::vector<double> metric = {0.2, 0.5, 1,  2,  2.5, 3,  4,  5,  6,  8,  10, 12,
                                               14,  15,  16, 18, 20,  25, 30, 35, 40, 50, 75, 100};
    static const std::vector<double> inches = {0.25, 0.5, 1,  2,  3,  4,  6,  8,  10, 12,
                                               14,   16,  18, 20, 24, 32, 48, 64, 96};
    const auto& steps = isInch(units) ? inches : metric;
    for (double step : steps)
        if (1 / step <= most * (1 + 1e-9))
            return {1 / step, step >= 1 ? "1:" + plain(step, 1) : plain(1 / step, 1) + ":1"};
    const double step = std::ceil(1 / most / 50) * 50;
    return {1 / step, "1:" + plain(step, 0)};
}

PanelView drawView(const Panel& panel, const Area& region, const std::vector<EdgeRow>& rows,
                   const PanelDrawingOptions& options) {
    const UnitStyle& units = options.units;
    PanelView view;
    view.group = {panel.name,
                  panel.name,
                  {{"outer", {}, {}, {}, {}}, {"inner", {}, {}, {}, {}}, {"marks", {}, {}, {}, {}}}};
    view.notes = {panel.name + " sizes", "sizes", {{"sizes", {}, {}, {}, {}}, {"numbers", {}, {}, {}, {}}}};
    if (panel.boundary.outer.size() < 3) return view;
    Box2 box = bounds(panel.boundary.outer);
    for (const Ring& ring : drawnRings(panel)) box = united(box, bounds(ring));
    const Area room{region.x + marginLeft, region.y + marginBottom, region.width - marginLeft - marginSide,
                    region.height - marginBottom - marginTop};
    const double most =
        std::min(room.width / std::max(1e-6, box.size().x()), room.height / std::max(1e-6, box.size().y()));
    view.scale = niceScale(most, units);
    const Vec2 centre(room.x + room.width / 2, room.y + room.height / 2);
    const PanelMap map{view.scale.factor, centre - (box.min + box.max) / 2 * view.scale.factor};
    const Polygon face = faceArea(panel, map);
    view.group.layers[0].fills.push_back({face, options.tint, false});
    drawOutlines(panel, map, view.group.layers[0], view.group.layers[1]);
    drawName(panel, nameArea(panel, map, 6), Pen(view.group.layers[2]), {13, 2.2});
    drawContacts(contactSpots(panel), map, view.group.layers[2]);
    drawGuides(panel, map, view.group.layers[2]);
    drawFolds(panel, map, view.group);
    View work(panel, map, view.notes.layers[0], view.notes.layers[1], region);
    for (std::size_t i = 0; i < panel.folds.size(); ++i)
        drawFoldWords(panel.folds[i], map(panel.folds[i].from), map(panel.folds[i].to), units,
                      Pen(view.notes.layers[0]), "F" + std::to_string(i + 1) + "  ", view.scale.factor);
    drawUp(Pen(view.notes.layers[0]), {region.x + 4.5, region.top() - 6}, panel, options);
    work.keepClear({region.x, region.top() - 11, 9, 11});
    work.keepClear(view.notes.layers[0], 0.5);
    work.keepClear(view.group.layers[2]);
    work.openings();
    work.contacts(view.group.layers[2]);
    work.diagonals();
    view.together = work.numberEdges(rows);
    work.openingCorners();
    work.overallSizes(units);
    work.datum();
    return view;
}

} // namespace slab
