#include "core/plates/seam_search.h"
#include "core/geometry/segment.h"
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace slab::plates {

namespace {

constexpr double noLimit = std::numeric_limits<double>::infinity();
constexpr std::size_t mostParts = 64; ///< of one panel
constexpr int mostSplit = 1000;       ///< parts of one line: no limit
constexpr int searchedParts = 4;      ///< parts up to which every place is looked at

/// A line that might be cut, with what it would give.
struct Trial {
    CutLine line;
    bool fitsLow = false, fitsHigh = false;
    int parts = 0;     ///< that the line itself makes
    int expected = 0;  ///< as many as the boxes of both sides need
    double breach = 0; ///< of the wanted distances, mm
    double sheets = 0; ///< mm²
    double clear = 0;  ///< mm
    double length = 0; ///< mm
    double off = 0;    ///< from the middle, mm
    [[nodiscard]] std::array<double, 6> rank() const {
        return {static_cast<double>(expected),
                std::round(breach * 100),
                std::round(sheets),
                -std::round(clear),
                std::round(length * 10),
                off};
    }
    [[nodiscard]] int least() const { return std::max(parts, (fitsLow ? 1 : 2) + (fitsHigh ? 1 : 2)); }
};

/// Corners of a ring that a seam keeps clear of: turns of 10° and more, not those of a faceted curve.
void addCorners(const Ring& ring, Ring& corners) {
    constexpr double cosTen = 0.984807753012208;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2 &a = ring[i], &b = ring[(i + 1) % ring.size()], &c = ring[(i + 2) % ring.size()];
        if ((b - a).normalized().dot((c - b).normalized()) <= cosTen) corners.push_back(b);
    }
}

/// What is asked of a piece again and again.
struct Facts {
    const CutPiece& piece;
    Ring cloud, corners;
    explicit Facts(const CutPiece& p) : piece(p), cloud(cloudOf(p)) {
        addCorners(p.outer.outer.points, corners);
        if (p.inner) addCorners(p.inner->outer.points, corners);
    }
};
[[nodiscard]] LineRoom roomAt(const Facts& facts, const CutLine& line);

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
    constexpr double edge = 1; // mm: nearer to the end is no cut
    std::erase_if(places, [&](double s) { return s < low + edge || s > high - edge; });
    std::sort(places.begin(), places.end());
    places.erase(std::unique(places.begin(), places.end(), [](double a, double b) { return b - a < 0.01; }),
                 places.end());
    return places;
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

MadeCut madeCut(const CutPiece& piece, const CutLine& line, int seam) {
    MadeCut cut{seam, line, crossings(piece.outer, line), {}, lineRoom(piece, line)};
    if (piece.inner) cut.inner = crossings(*piece.inner, line);
    return cut;
}

class Search {
public:
    explicit Search(const SearchRules& rules) : m_rules(rules), m_next(rules.seam) {}

    void split(const CutPiece& piece, Splitting& out) {
        if (fits(piece)) return out.pieces.push_back(piece);
        for (int parts = 2; parts <= searchedParts; ++parts)
            if (auto found = solve(piece, parts)) return take(std::move(*found), out);
        halve(piece, out);
    }

private:
    static void take(Splitting&& found, Splitting& out) {
        std::move(found.pieces.begin(), found.pieces.end(), std::back_inserter(out.pieces));
        std::move(found.cuts.begin(), found.cuts.end(), std::back_inserter(out.cuts));
        out.lost += found.lost;
    }

    [[nodiscard]] bool fits(const CutPiece& piece) const {
        return fitsSheet(cloudOf(piece), m_rules.room, 1);
    }

    /// Lines that may do with so many parts, the best first.
    [[nodiscard]] std::vector<Trial> trials(const Facts& facts, int parts) const {
        std::vector<Trial> all;
        for (const double angle : layDirections(facts.cloud, m_rules.room))
            for (const Vec2& axis :
                 {Vec2(std::cos(angle), std::sin(angle)), Vec2(-std::sin(angle), std::cos(angle))}) {
                double low = noLimit, high = -noLimit;
                for (const Vec2& p : facts.cloud) {
                    low = std::min(low, axis.dot(p));
                    high = std::max(high, axis.dot(p));
                }
                for (const double s : placesAlong(facts, axis, m_rules)) {
                    Trial t;
                    t.line = {axis, s};
                    t.off = std::abs(s - (low + high) / 2);
                    if (weigh(facts, angle, parts, t)) all.push_back(t);
                }
            }
        std::stable_sort(all.begin(), all.end(),
                         [](const Trial& a, const Trial& b) { return a.rank() < b.rank(); });
        return all;
    }

    /// @return false if the line cannot do with so many parts
    bool weigh(const Facts& facts, double angle, int parts, Trial& t) const {
        const CutPiece& piece = facts.piece;
        Ring low, high;
        sidesOf(piece.outer.outer.points, t.line, low, high);
        if (piece.inner) sidesOf(piece.inner->outer.points, t.line, low, high);
        const std::array<Vec2, 2> boxes{boxAt(low, angle).size(), boxAt(high, angle).size()};
        t.fitsLow = m_rules.room.takes(boxes[0]);
        t.fitsHigh = m_rules.room.takes(boxes[1]);
        if (t.least() > parts) return false;
        const auto on = crossings(piece.outer, t.line);
        t.parts = static_cast<int>(on.size()) + 1;
        for (const TracedRing& hole : piece.outer.holes) t.parts -= timesThrough(hole.points, t.line);
        if (t.least() > parts) return false;
        for (const auto& [from, to] : on) t.length += to - from;
        const LineRoom room = roomAt(facts, t.line);
        t.clear = std::min({room.corner, room.opening, 3 * m_rules.keep});
        t.breach = std::max(0.0, m_rules.keep - room.corner) + std::max(0.0, m_rules.keep - room.opening) +
                   room.through;
        // A part that does not fit will be cut again: its box stands for what it uses.
        t.expected = t.parts - 2;
        for (const Vec2& box : boxes) {
            t.expected += m_rules.room.count(box);
            t.sheets += box.prod();
        }
        if (t.fitsLow && t.fitsHigh) t.sheets = shelfArea({boxes[0], boxes[1]}, m_rules.room);
        return true;
    }

    /// The best way to cut a piece into that many parts or fewer.
    std::optional<Splitting> solve(const CutPiece& piece, int parts) {
        if (fits(piece)) return Splitting{{piece}, {}, 0};
        if (parts < 2) return {};
        constexpr std::size_t tries = 12;
        const std::vector<Trial> all = trials(Facts(piece), parts);
        for (std::size_t i = 0; i < all.size() && i < tries; ++i)
            if (auto done = cut(piece, all[i].line, parts)) return done;
        return {};
    }

    std::optional<Splitting> cut(const CutPiece& piece, const CutLine& line, int parts) {
        const int seam = m_next++;
        CutPieces made = cutPiece(piece, line, seam);
        if (made.pieces.size() < 2 || static_cast<int>(made.pieces.size()) > parts) return {};
        Splitting out;
        out.cuts.push_back(madeCut(piece, line, seam));
        out.lost = made.lost;
        int left = parts;
        for (std::size_t i = 0; i < made.pieces.size(); ++i) {
            const int rest = static_cast<int>(made.pieces.size() - i) - 1; // each takes one at least
            std::optional<Splitting> best;
            for (int share = 1; share <= left - rest && !best; ++share) best = solve(made.pieces[i], share);
            if (!best) return {};
            left -= static_cast<int>(best->pieces.size());
            take(std::move(*best), out);
        }
        return out;
    }

    /// Many parts: across the direction of the greatest excess, near the middle of whole sheets.
    void halve(const CutPiece& piece, Splitting& out) {
        const Facts facts(piece);
        const Ring& cloud = facts.cloud;
        const Vec2 sheet = m_rules.room.largest();
        const Trial* best = nullptr;
        std::vector<Trial> all;
        const double angle = layDirections(cloud, m_rules.room).front();
        const Box2 box = boxAt(cloud, angle);
        const Vec2 size = box.size();
        const bool across =
            m_rules.room.either ? size.y() > size.x() : size.y() / sheet.y() > size.x() / sheet.x();
        const int way = across ? 1 : 0;
        const Vec2 axis =
            across ? Vec2(-std::sin(angle), std::cos(angle)) : Vec2(std::cos(angle), std::sin(angle));
        for (const double s : placesAlong(facts, axis, m_rules)) {
            Trial t;
            t.line = {axis, s};
            t.off = std::abs(s - (box.min[way] + box.max[way]) / 2);
            if (t.off < size[way] / 6 && weigh(facts, angle, mostSplit, t)) all.push_back(t);
        }
        for (const Trial& t : all)
            if (!best ||
                std::pair(std::round(t.breach), t.off) < std::pair(std::round(best->breach), best->off))
                best = &t;
        if (!best || out.pieces.size() >= mostParts) return out.pieces.push_back(piece);
        const int seam = m_next++;
        CutPieces made = cutPiece(piece, best->line, seam);
        if (made.pieces.size() < 2) return out.pieces.push_back(piece);
        out.cuts.push_back(madeCut(piece, best->line, seam));
        out.lost += made.lost;
        for (const CutPiece& part : made.pieces) split(part, out);
    }

    SearchRules m_rules;
    int m_next;
};

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

LineRoom roomAt(const Facts& facts, const CutLine& line) {
    LineRoom room{noLimit, noLimit, 0};
    const Vec2 along = line.along();
    const Vec2 foot = line.normal * line.offset;
    std::vector<Segment> on;
    for (const auto& [from, to] : crossings(facts.piece.outer, line))
        on.emplace_back(foot + along * from, foot + along * to);
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

Vec2 MadeCut::middle() const {
    if (outer.empty()) return line.normal * line.offset;
    return line.normal * line.offset + line.along() * ((outer.front().first + outer.front().second) / 2);
}

void cutAll(Splitting& split, const CutLine& line, int seam, const std::optional<Vec2>& through) {
    std::vector<CutPiece> pieces = std::move(split.pieces);
    split.pieces.clear();
    for (CutPiece& piece : pieces) {
        CutPieces made;
        if (!through || slab::contains(piece.outer.outer.points, *through, 1e-6))
            made = cutPiece(piece, line, seam);
        if (made.pieces.size() < 2) {
            split.pieces.push_back(std::move(piece));
            continue;
        }
        split.cuts.push_back(madeCut(piece, line, seam));
        split.lost += made.lost;
        std::move(made.pieces.begin(), made.pieces.end(), std::back_inserter(split.pieces));
    }
}

Splitting searchSplit(const CutPiece& piece, const SearchRules& rules) {
    Splitting out;
    Search(rules).split(piece, out);
    return out;
}

} // namespace slab::plates
