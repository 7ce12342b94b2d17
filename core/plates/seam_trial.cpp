#include "core/plates/seam_trial.h"
#include "core/geometry/segment.h"
#include <algorithm>
#include <cmath>
#include <limits>

namespace slab::plates {

namespace {

constexpr double noLimit = std::numeric_limits<double>::infinity();

/// Corners of a ring that a seam keeps clear of: turns of 10° and more, not those of a faceted curve.
void addCorners(const Ring& ring, Ring& corners) {
    constexpr double cosTen = 0.984807753012208;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2 &a = ring[i], &b = ring[(i + 1) % ring.size()], &c = ring[(i + 2) % ring.size()];
        if ((b - a).normalized().dot((c - b).normalized()) <= cosTen) corners.push_back(b);
    }
}

/// What the outline has on either side of a line, as points.
void sidesOf(const Ring& ring, const CutLine& line, Ring& low, Ring& high) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2 &a = ring[i], &b = ring[(i + 1) % ring.size()];
        const double da = line.beyond(a), db = line.beyond(b);
        (da > 0 ? high : low).push_back(a);
        if ((da > 0) == (db > 0)) continue;
        low.push_back(a + (b - a) * (da / (da - db)));
        high.push_back(low.back());
    }
}

int timesThrough(const Ring& ring, const CutLine& line) {
    int count = 0;
    for (std::size_t i = 0; i < ring.size(); ++i)
        count += (line.beyond(ring[i]) > 0) != (line.beyond(ring[(i + 1) % ring.size()]) > 0);
    return count / 2;
}

using Segment = std::pair<Vec2, Vec2>;

double ringRoom(const Ring& ring, const std::vector<Segment>& on) {
    double least = noLimit;
    for (std::size_t i = 0; i < ring.size(); ++i)
        for (const auto& [from, to] : on) {
            least = std::min(least, toSegment(ring[i], from, to));
            for (const Vec2& end : {from, to})
                least = std::min(least, toSegment(end, ring[i], ring[(i + 1) % ring.size()]));
        }
    return least;
}

struct Extent {
    double from = noLimit, to = -noLimit;
    [[nodiscard]] double size() const { return to - from; }
};
Extent extentOf(const Ring& ring, const Vec2& axis) {
    Extent e;
    for (const Vec2& p : ring) {
        e.from = std::min(e.from, axis.dot(p));
        e.to = std::max(e.to, axis.dot(p));
    }
    return e;
}
/// Whether what stands there runs with lines square to `axis` rather than across them.
bool runsWith(const Ring& stand, const Vec2& axis) {
    return extentOf(stand, Vec2(-axis.y(), axis.x())).size() > extentOf(stand, axis).size();
}

double standRoom(const std::vector<Ring>& stands, const CutLine& line,
                 const std::vector<std::pair<double, double>>& on) {
    double least = noLimit;
    for (const Ring& stand : stands) {
        if (!runsWith(stand, line.normal)) continue;
        const Extent across = extentOf(stand, line.normal), along = extentOf(stand, line.along());
        if (std::none_of(on.begin(), on.end(),
                         [&](const auto& o) { return o.first < along.to && o.second > along.from; }))
            continue;
        least = std::min(least, std::max({0.0, across.from - line.offset, line.offset - across.to}));
    }
    return least;
}

/// Lays boxes in shelves as they are turned. @return length used of the last sheet and sheets before it
std::pair<int, double> shelves(std::vector<Vec2> boxes, const Vec2& sheet) {
    std::sort(boxes.begin(), boxes.end(), [](const Vec2& a, const Vec2& b) { return a.x() > b.x(); });
    std::vector<Vec2> rows; // length, width filled
    for (const Vec2& box : boxes) {
        const auto row = std::find_if(rows.begin(), rows.end(),
                                      [&](const Vec2& r) { return r.y() + box.y() <= sheet.y() + 1e-9; });
        if (row == rows.end())
            rows.emplace_back(box);
        else
            row->y() += box.y();
    }
    std::vector<double> used{0};
    for (const Vec2& row : rows) {
        const auto at =
            std::find_if(used.begin(), used.end(), [&](double u) { return u + row.x() <= sheet.x() + 1e-9; });
        if (at == used.end())
            used.push_back(row.x());
        else
            *at += row.x();
    }
    return {static_cast<int>(used.size()) - 1, *std::min_element(used.begin(), used.end())};
}

} // namespace

Facts::Facts(const CutPiece& p) : piece(p), cloud(cloudOf(p)) {
    addCorners(p.outer.outer.points, corners);
    if (p.inner) addCorners(p.inner->outer.points, corners);
}

/// Places along one axis of a frame that are worth a look.
std::vector<double> placesAlong(const Facts& facts, const Vec2& axis, const SearchRules& rules) {
    const Ring& cloud = facts.cloud;
    double low = noLimit, high = -noLimit;
    for (const Vec2& p : cloud) {
        low = std::min(low, axis.dot(p));
        high = std::max(high, axis.dot(p));
    }
    std::vector<double> places{(low + high) / 2};
    for (const Vec2& s : rules.room.sizes)
        for (const double side : {s.x(), s.y()})
            for (int k = 1; k <= searchedParts; ++k) {
                places.push_back(low + k * side);
                places.push_back(high - k * side);
            }
    for (int parts = 3; parts <= searchedParts + 1; ++parts)
        for (int i = 1; i < parts; ++i) places.push_back(low + (high - low) * i / parts);
    constexpr int steps = 32;
    const double middle = (low + high) / 2;
    for (int i = 1; i < steps; ++i) // whole millimetres from the middle
        places.push_back(middle + std::round((high - low) * (i - steps / 2.0) / steps));
    for (const Vec2& p : facts.corners)
        for (const double d : {-rules.keep, rules.keep}) places.push_back(axis.dot(p) + d);
    for (const TracedRing& hole : facts.piece.outer.holes) {
        double from = noLimit, to = -noLimit;
        for (const Vec2& p : hole.points) {
            from = std::min(from, axis.dot(p));
            to = std::max(to, axis.dot(p));
        }
        places.push_back(from - rules.keep);
        places.push_back(to + rules.keep);
    }
    for (const Ring& stand : facts.piece.stands) {
        if (!runsWith(stand, axis)) continue;
        const Extent e = extentOf(stand, axis);
        places.push_back(e.from - rules.keep);
        places.push_back(e.to + rules.keep);
    }
    constexpr double edge = 1; // mm: nearer to the end is no cut
    std::erase_if(places, [&](double s) { return s < low + edge || s > high - edge; });
    std::sort(places.begin(), places.end());
    places.erase(std::unique(places.begin(), places.end(), [](double a, double b) { return b - a < 0.01; }),
                 places.end());
    return places;
}

bool weigh(const LaidPiece& laid, int parts, Trial& t) {
    const auto& [facts, rules, angle] = laid;
    const CutPiece& piece = facts.piece;
    Ring low, high;
    sidesOf(piece.outer.outer.points, t.line, low, high);
    if (piece.inner) sidesOf(piece.inner->outer.points, t.line, low, high);
    const std::array<Vec2, 2> boxes{boxAt(low, angle).size(), boxAt(high, angle).size()};
    t.fitsLow = rules.room.takes(boxes[0]);
    t.fitsHigh = rules.room.takes(boxes[1]);
    if (t.least() > parts) return false;
    const auto on = crossings(piece.outer, t.line);
    t.parts = static_cast<int>(on.size()) + 1;
    for (const TracedRing& hole : piece.outer.holes) t.parts -= timesThrough(hole.points, t.line);
    if (t.least() > parts) return false;
    for (const auto& [from, to] : on) t.length += to - from;
    const LineRoom room = roomAt(facts, t.line);
    t.clear = std::min({room.corner, room.opening, room.stand, 3 * rules.keep});
    t.breach = std::max(0.0, rules.keep - room.corner) + std::max(0.0, rules.keep - room.opening) +
               std::max(0.0, rules.keep - room.stand) + room.through;
    // A part that does not fit will be cut again: its box stands for what it uses.
    t.expected = t.parts - 2;
    for (const Vec2& box : boxes) {
        t.expected += rules.room.count(box);
        t.sheets += box.prod();
    }
    if (t.fitsLow && t.fitsHigh) t.sheets = shelfArea({boxes[0], boxes[1]}, rules.room);
    return true;
}

LineRoom roomAt(const Facts& facts, const CutLine& line) {
    LineRoom room{noLimit, noLimit, 0, noLimit};
    const Vec2 along = line.along();
    const Vec2 foot = line.normal * line.offset;
    std::vector<Segment> on;
    const auto crossed = crossings(facts.piece.outer, line);
    room.stand = standRoom(facts.piece.stands, line, crossed);
    for (const auto& [from, to] : crossed) on.emplace_back(foot + along * from, foot + along * to);
    for (const Vec2& p : facts.corners)
        for (const auto& [from, to] : on) room.corner = std::min(room.corner, toSegment(p, from, to));
    const auto look = [&](const TracedPolygon& face, bool outside) {
        for (const TracedRing& hole : face.holes) {
            room.opening = std::min(room.opening, ringRoom(hole.points, on));
            for (const auto& [from, to] : crossings({hole, {}}, line)) {
                room.opening = 0;
                if (outside) room.through += to - from;
            }
        }
    };
    look(facts.piece.outer, true);
    if (facts.piece.inner) look(*facts.piece.inner, false);
    return room;
}

Ring cloudOf(const CutPiece& piece) {
    Ring all = piece.outer.outer.points;
    if (piece.inner)
        all.insert(all.end(), piece.inner->outer.points.begin(), piece.inner->outer.points.end());
    return all;
}

LineRoom lineRoom(const CutPiece& piece, const CutLine& line) {
    return roomAt(Facts(piece), line);
}

double shelfArea(const std::vector<Vec2>& boxes, const SheetRoom& room) {
    if (boxes.empty()) return 0;
    const Vec2 sheet = room.largest();
    double least = noLimit;
    const std::size_t turns = room.either && boxes.size() <= 6 ? std::size_t{1} << boxes.size() : 1;
    for (std::size_t t = 0; t < turns; ++t) {
        std::vector<Vec2> laid = boxes;
        bool fits = true;
        for (std::size_t i = 0; i < laid.size(); ++i) {
            if ((t >> i & 1U) != 0) std::swap(laid[i].x(), laid[i].y());
            fits = fits && laid[i].x() <= sheet.x() + 1e-9 && laid[i].y() <= sheet.y() + 1e-9;
        }
        if (!fits) continue;
        const auto [whole, length] = shelves(laid, sheet);
        least = std::min(least, (whole * sheet.x() + length) * sheet.y());
    }
    return least;
}

} // namespace slab::plates
