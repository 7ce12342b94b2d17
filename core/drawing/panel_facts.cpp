#include "core/drawing/panel_facts.h"
#include "core/drawing/outline_arcs.h"
#include "core/drawing/pen.h"
#include "core/units/units.h"
#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

namespace slab {
namespace {

constexpr int thousandths = 1000; ///< of an inch: told as decimals, with a caliper's care
constexpr double degree = std::numbers::pi / 180;

/// Edge b comes `after` edges behind a and is like it but for its length, its mark counted on.
bool alike(const PanelEdge& a, const PanelEdge& b, int after) {
    const bool counted = a.mark == 0 ? b.mark == 0 : b.mark == a.mark + after;
    return a.neighbour == b.neighbour && a.role == b.role && counted &&
           std::abs(a.bevel - b.bevel) < squareWithin;
}

/// By edge of a ring: the number of the arc that it belongs to, or -1.
std::vector<int> arcOfEdges(const Ring& ring, const std::vector<OutlineArc>& arcs) {
    std::vector<int> of(ring.size(), -1);
    for (std::size_t a = 0; a < arcs.size(); ++a)
        for (int i = arcs[a].first; i < arcs[a].last; ++i)
            of[static_cast<std::size_t>(i) % ring.size()] = static_cast<int>(a);
    return of;
}

std::string runName(int first, int last) {
    return first == last ? std::to_string(first + 1)
                         : std::to_string(first + 1) + "–" + std::to_string(last + 1);
}

bool hasWord(const std::string& name, const std::string& word) {
    for (std::size_t at = name.find(word); at != std::string::npos; at = name.find(word, at + 1)) {
        const bool left = at == 0 || !std::isalpha(static_cast<unsigned char>(name[at - 1]));
        const std::size_t end = at + word.size();
        const bool right = end == name.size() || !std::isalpha(static_cast<unsigned char>(name[end]));
        if (left && right) return true;
    }
    return false;
}

/// What the copies of a panel meet at one edge.
void tellCopies(const Panel& panel, EdgeRow& row) {
    if (panel.copies.size() < 2) return;
    const auto loop = static_cast<std::size_t>(row.hole + 1), edge = static_cast<std::size_t>(row.first);
    std::set<std::string> neighbours;
    for (const PanelCopy& copy : panel.copies) {
        if (loop >= copy.loops.size() || edge >= copy.loops[loop].size()) return;
        const EdgeMeeting& meeting = copy.loops[loop][edge];
        row.marks.push_back(meeting.mark);
        neighbours.insert(meeting.neighbour);
    }
    row.differs = neighbours.size() > 1;
    if (std::all_of(row.marks.begin(), row.marks.end(), [](int mark) { return mark == 0; }))
        row.marks.clear();
}

/// Does a row hold nothing but short edges that meet nothing, all with one tilt?
bool isLoose(const EdgeRow& row) {
    constexpr double longest = 25; // mm: such edges are marked out by their corners
    return row.neighbour.empty() && row.mark == 0 && row.marks.empty() && !row.differs && row.radius == 0 &&
           row.length <= longest;
}

/// Puts three and more rows of short loose edges that follow each other into one.
void gatherLoose(std::vector<EdgeRow>& rows, std::size_t start, const std::string& letter) {
    constexpr std::size_t least = 3;
    for (std::size_t i = start; i < rows.size(); ++i) {
        std::size_t end = i;
        while (end < rows.size() && isLoose(rows[end]) && rows[end].role == rows[i].role &&
               std::abs(rows[end].bevel - rows[i].bevel) < squareWithin)
            ++end;
        if (end < i + least) continue;
        EdgeRow& whole = rows[i];
        whole.upTo = true;
        whole.last = rows[end - 1].last;
        whole.number = letter + runName(whole.first, whole.last);
        for (std::size_t k = i; k < end; ++k) whole.length = std::max(whole.length, rows[k].length);
        rows.erase(rows.begin() + static_cast<std::ptrdiff_t>(i) + 1,
                   rows.begin() + static_cast<std::ptrdiff_t>(end));
    }
}

void addRows(const Panel& panel, const PanelLoop& loop, int hole, std::vector<EdgeRow>& rows) {
    const std::vector<PanelEdge>& edges = loop.edges;
    const bool runs = edges.size() > 16;
    const std::string letter = hole < 0 ? "" : openingLetter(static_cast<std::size_t>(hole));
    const std::size_t start = rows.size();
    const std::vector<OutlineArc> arcs = runs ? arcsOf(loop.outer) : std::vector<OutlineArc>{};
    const std::vector<int> arcOf = arcOfEdges(loop.outer, arcs);
    const auto arcAt = [&](std::size_t i) { return i < arcOf.size() ? arcOf[i] : -1; };
    for (std::size_t i = 0; i < edges.size(); ++i) {
        const PanelEdge& e = edges[i];
        const int index = static_cast<int>(i);
        if (runs && rows.size() > start) {
            EdgeRow& row = rows.back();
            const auto first = static_cast<std::size_t>(row.first);
            const bool onArc = arcAt(i) >= 0 && arcAt(i) == arcAt(first);
            const bool asLong = arcAt(i) == arcAt(first) && std::abs(edges[i - 1].length - e.length) < 0.05 &&
                                std::abs(edges[first].length - e.length) < 0.05;
            if ((onArc || asLong) && alike(edges[i - 1], e, 1) && alike(edges[first], e, index - row.first)) {
                row.last = index;
                row.number = letter + runName(row.first, index);
                row.radius = onArc ? arcs[static_cast<std::size_t>(arcAt(i))].radius : 0;
                continue;
            }
        }
        EdgeRow row{letter + runName(index, index),
                    index,
                    index,
                    e.neighbour,
                    e.role,
                    e.bevel,
                    e.length,
                    e.mark,
                    0,
                    hole,
                    false,
                    {},
                    0,
                    false};
        tellCopies(panel, row);
        rows.push_back(std::move(row));
    }
    if (runs) gatherLoose(rows, start, letter);
}

/// A form cut it: each edge has a plate of the form behind it.
bool isFormHole(const PanelLoop& hole) {
    return hole.opening.empty() && std::any_of(hole.edges.begin(), hole.edges.end(),
                                               [](const PanelEdge& e) { return !e.neighbour.empty(); });
}

} // namespace

std::vector<EdgeRow> edgeRows(const Panel& panel) {
    std::vector<EdgeRow> rows;
    addRows(panel, panel.boundary, -1, rows);
    for (std::size_t h = 0; h < panel.holes.size(); ++h)
        if (isFormHole(panel.holes[h])) addRows(panel, panel.holes[h], static_cast<int>(h), rows);
    (void)bevelKinds(rows);
    return rows;
}

const PanelLoop& loopOf(const Panel& panel, const EdgeRow& row) {
    return row.hole < 0 ? panel.boundary : panel.holes.at(static_cast<std::size_t>(row.hole));
}

std::vector<EdgeRow> rowsByCopy(const std::vector<EdgeRow>& rows) {
    std::vector<EdgeRow> told;
    for (const EdgeRow& row : rows)
        if (!row.marks.empty()) told.push_back(row);
    return told;
}

std::string openingLetter(std::size_t index) {
    const std::string letters = "PQRSTUVWXYZ";
    if (index < letters.size()) return {letters[index]};
    return "P" + std::to_string(index - letters.size() + 2);
}

std::string openingName(const PanelLoop& hole) {
    if (!hole.opening.empty()) return hole.opening;
    std::set<std::string> forms;
    for (const PanelEdge& e : hole.edges)
        if (!e.neighbour.empty()) forms.insert(e.neighbour.substr(0, e.neighbour.rfind('/')));
    return forms.size() == 1 ? "for " + *forms.begin() : "hole";
}

std::vector<BevelKind> bevelKinds(std::vector<EdgeRow>& rows, std::size_t most) {
    std::vector<double> tilts;
    for (const EdgeRow& row : rows)
        if (std::abs(row.bevel) >= squareWithin) tilts.push_back(row.bevel);
    std::sort(tilts.begin(), tilts.end(), std::greater<>());
    std::vector<BevelKind> kinds;
    for (double within = 0.1 * degree;; within *= 2) {
        kinds.clear();
        for (double tilt : tilts) {
            const bool together = !kinds.empty() && kinds.back().mostTilt - tilt <= within &&
                                  (kinds.back().mostTilt > 0) == (tilt > 0);
            if (!together) kinds.push_back({'a', tilt, tilt, tilt, {}});
            kinds.back().leastTilt = tilt;
            kinds.back().tilt = (kinds.back().leastTilt + kinds.back().mostTilt) / 2;
        }
        if (kinds.size() <= std::max<std::size_t>(most, 2)) break;
    }
    for (std::size_t k = 0; k < kinds.size(); ++k) kinds[k].letter = static_cast<char>('a' + k);
    for (EdgeRow& row : rows) {
        row.sketch = 0;
        if (std::abs(row.bevel) < squareWithin) continue;
        for (BevelKind& kind : kinds) {
            if (row.bevel < kind.leastTilt || row.bevel > kind.mostTilt) continue;
            row.sketch = kind.letter;
            kind.edges.push_back(row.number);
        }
    }
    return kinds;
}

std::vector<std::pair<int, int>> checkDiagonals(const Ring& outline) {
    const int count = static_cast<int>(outline.size());
    if (count < 4 || circleThrough(outline)) return {};
    const Box2 box = bounds(outline);
    const auto nearestTo = [&](const Vec2& corner) {
        int best = 0;
        for (int i = 1; i < count; ++i)
            if ((outline[static_cast<std::size_t>(i)] - corner).norm() <
                (outline[static_cast<std::size_t>(best)] - corner).norm() - 1e-9)
                best = i;
        return best;
    };
    const int lowLeft = nearestTo(box.min), highRight = nearestTo(box.max);
    const int lowRight = nearestTo({box.max.x(), box.min.y()}),
              highLeft = nearestTo({box.min.x(), box.max.y()});
    std::vector<std::pair<int, int>> pairs;
    for (const auto& [a, b] : {std::pair(lowLeft, highRight), std::pair(lowRight, highLeft)}) {
        const int apart = std::abs(a - b);
        if (apart <= 1 || apart == count - 1) continue;
        if (std::find(pairs.begin(), pairs.end(), std::pair(b, a)) == pairs.end()) pairs.push_back({a, b});
    }
    return pairs;
}

std::optional<std::pair<Vec2, double>> circleThrough(const Ring& ring) {
    if (ring.size() < 12) return {};
    Vec2 centre = Vec2::Zero();
    for (const Vec2& p : ring) centre += p / static_cast<double>(ring.size());
    const double radius = (ring[0] - centre).norm();
    for (const Vec2& p : ring)
        if (std::abs((p - centre).norm() - radius) > 0.05) return {};
    return std::pair(centre, radius);
}

std::vector<OpeningRow> openingRows(const Panel& panel) {
    const Vec2 datum = bounds(panel.boundary.outer).min;
    std::vector<OpeningRow> rows;
    for (const PanelLoop& hole : panel.holes) {
        if (hole.outer.empty()) continue;
        OpeningRow row;
        row.name = openingName(hole);
        if (const auto circle = circleThrough(hole.outer)) {
            row.round = true;
            row.diameter = 2 * circle->second;
            row.at = circle->first - datum;
        } else {
            const Box2 box = bounds(hole.outer);
            row.size = box.size();
            row.at = box.min - datum;
        }
        for (const PanelEdge& edge : hole.edges)
            if (std::abs(edge.bevel) > std::abs(row.wall)) row.wall = edge.bevel;
        rows.push_back(row);
    }
    return rows;
}

std::string handWords(const Panel& panel) {
    // One outline may serve both sides of the body: then no side is named.
    bool port = hasWord(panel.name, "port"), starboard = hasWord(panel.name, "starboard");
    for (const std::string& plate : panel.plates) {
        port = port || hasWord(plate, "port");
        starboard = starboard || hasWord(plate, "starboard");
    }
    if (port && starboard) return "either hand";
    if (port) return "left (port)";
    if (starboard) return "right (starboard)";
    return panel.mirrorOf.empty() ? "" : "other hand";
}

std::string thicknessWords(const Panel& panel, bool nominal, const UnitStyle& units) {
    std::string printed = printThickness(panel.thickness, units);
    if (isInch(units)) printed += " (" + printThickness(panel.thickness, {}) + ")";
    return nominal ? "NOMINAL " + printed : printed + ", measured";
}

std::string markWords(const EdgeRow& row) {
    if (row.mark <= 0) return "";
    const std::string first = std::to_string(row.mark);
    return row.last > row.first ? first + "–" + std::to_string(row.mark + row.last - row.first) : first;
}

std::string upWords(const Panel& panel) {
    return panel.upWord.empty() ? "up" : panel.upWord;
}

std::string arrowWords(const Panel& panel, const std::vector<std::string>& arrows) {
    if (arrows.empty()) return "arrow points " + upWords(panel);
    std::vector<std::pair<std::string, std::vector<std::size_t>>> ways;
    for (std::size_t i = 0; i < arrows.size(); ++i) {
        const auto at =
            std::find_if(ways.begin(), ways.end(), [&](const auto& w) { return w.first == arrows[i]; });
        if (at == ways.end())
            ways.push_back({arrows[i], {i + 1}});
        else
            at->second.push_back(i + 1);
    }
    std::string words = "arrow points ";
    for (std::size_t i = 0; i < ways.size(); ++i) {
        words += (i > 0 ? ", " : "") + ways[i].first + (ways[i].second.size() > 1 ? " (copies " : " (copy ");
        for (std::size_t k = 0; k < ways[i].second.size(); ++k)
            words += (k > 0 ? ", " : "") + std::to_string(ways[i].second[k]);
        words += ")";
    }
    return words;
}

std::string facingNote(const std::vector<std::string>& facing) {
    if (facing.empty()) return {};
    return facing.size() == 1 ? "; this face " + facing.front() : "; copies face different ways";
}

std::string meetsWords(const EdgeRow& row) {
    if (row.differs) return "see copies";
    return row.neighbour.empty() ? "–" : row.neighbour;
}

std::string size(double mm, const UnitStyle& units) {
    if (isInch(units) && units.denominator == thousandths) return printThickness(mm, units);
    std::string text = printLength(mm, units);
    const std::string unit = " " + std::string(unitName(units.unit));
    if (!isInch(units) && text.ends_with(unit)) text.erase(text.size() - unit.size());
    return text;
}

UnitStyle pageUnits(const Panel& panel, const UnitStyle& units) {
    const Ring& outline = panel.boundary.outer;
    UnitStyle own = units;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        if (!slotBottom(outline, i)) continue;
        if (isInch(units))
            own.denominator = thousandths;
        else
            ++own.decimals;
        break;
    }
    return own;
}

bool slotBottom(const Ring& outline, std::size_t i) {
    constexpr double widest = 60, opposite = -0.9; // cosine: a round corner inward has no opposite walls
    const std::size_t count = outline.size();
    if (count < 4) return false;
    const Vec2 &from = outline[i], &to = outline[(i + 1) % count];
    const Vec2 in = from - outline[(i + count - 1) % count], across = to - from,
               out = outline[(i + 2) % count] - to;
    return across.norm() <= widest && cross2(in, across) < 0 && cross2(across, out) < 0 &&
           in.dot(out) < opposite * in.norm() * out.norm();
}

std::string unitsWords(const UnitStyle& units) {
    if (units.unit == Unit::ft) return "Sizes in feet and inches";
    if (units.unit == Unit::in) return "Sizes in inches";
    return "Sizes in " + std::string(unitName(units.unit));
}

} // namespace slab
