#include "core/plates/seam_trial.h"
#include <algorithm>
#include <cmath>
#include <limits>

namespace slab::plates {

namespace {

constexpr int mostCuts = 128;   ///< of one panel, ways that are not taken included
constexpr int mostSplit = 1000; ///< parts of one line: no limit

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
        Splitting sliced, halved;
        halve(piece, halved);
        if (slice(piece, sliced) && sliced.pieces.size() < halved.pieces.size()) halved = std::move(sliced);
        take(std::move(halved), out);
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
                double low = std::numeric_limits<double>::infinity(),
                       high = -std::numeric_limits<double>::infinity();
                for (const Vec2& p : facts.cloud) {
                    low = std::min(low, axis.dot(p));
                    high = std::max(high, axis.dot(p));
                }
                for (const double s : placesAlong(facts, axis, m_rules)) {
                    Trial t;
                    t.line = {axis, s};
                    t.off = std::abs(s - (low + high) / 2);
                    if (weigh({facts, m_rules, angle}, parts, t)) all.push_back(t);
                }
            }
        std::stable_sort(all.begin(), all.end(),
                         [](const Trial& a, const Trial& b) { return a.rank() < b.rank(); });
        return all;
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

    /// Strips as wide as a sheet allows, one after the other, that need the fewest parts of a piece's box.
    struct Strips {
        int way = 0, count = 0, parts = 0;
        double width = 0; ///< at most, mm
    };
    [[nodiscard]] std::optional<Strips> stripsFor(const Vec2& size) const {
        std::optional<Strips> best;
        const auto times = [](double length, double side) {
            return static_cast<int>(std::ceil(length / side - 1e-9));
        };
        for (const Vec2& sheet : m_rules.room.sizes)
            for (const bool turned : {false, true}) {
                if (turned && !m_rules.room.either) continue;
                const Vec2 sides = turned ? Vec2(sheet.y(), sheet.x()) : sheet;
                for (const int way : {0, 1}) {
                    const Strips strips{way, times(size[way], sides[way]),
                                        times(size[way], sides[way]) * times(size[1 - way], sides[1 - way]),
                                        sides[way]};
                    if (strips.count > 1 && (!best || std::pair(strips.parts, strips.count) <
                                                          std::pair(best->parts, best->count)))
                        best = strips;
                }
            }
        return best;
    }
    /// Where the first of some strips ends: as far from corners and openings as is wanted, then as wide as
    /// all others.
    [[nodiscard]] std::optional<CutLine> firstCut(const Facts& facts, double angle,
                                                  const Strips& strips) const {
        const Box2 box = boxAt(facts.cloud, angle);
        const Vec2 axis = strips.way == 1 ? Vec2(-std::sin(angle), std::cos(angle))
                                          : Vec2(std::cos(angle), std::sin(angle));
        const double low = box.min[strips.way], length = box.size()[strips.way], even = length / strips.count;
        const double from = length - (strips.count - 1) * strips.width, to = strips.width;
        std::vector<double> places = placesAlong(facts, axis, m_rules);
        for (const double s : {even, from, to}) places.push_back(low + s);
        std::optional<std::pair<double, double>> best;
        std::optional<CutLine> line;
        for (const double s : places) {
            if (s < low + from - 1e-9 || s > low + to + 1e-9) continue;
            Trial t;
            t.line = {axis, s};
            if (!weigh({facts, m_rules, angle}, mostSplit, t)) continue;
            const std::pair rank(std::round(t.breach), std::abs(s - low - even));
            if (best && *best <= rank) continue;
            best = rank;
            line = t.line;
        }
        return line;
    }
    /// Many parts: in strips. @return false if there is no place for a cut
    bool slice(const CutPiece& piece, Splitting& out) {
        CutPiece rest = piece;
        while (m_cuts < mostCuts) {
            const Facts facts(rest);
            const double angle = layDirections(facts.cloud, m_rules.room).front();
            const auto strips = stripsFor(boxAt(facts.cloud, angle).size());
            if (!strips || strips->parts <= searchedParts) {
                split(rest, out);
                return true;
            }
            const auto line = firstCut(facts, angle, *strips);
            if (!line) return false;
            const int seam = m_next++;
            ++m_cuts;
            CutPieces made = cutPiece(rest, *line, seam);
            if (made.pieces.size() != 2) return false;
            out.cuts.push_back(madeCut(rest, *line, seam));
            out.lost += made.lost;
            const auto side = [&](const CutPiece& p) {
                double sum = 0;
                for (const Vec2& q : p.outer.outer.points) sum += line->beyond(q);
                return sum / static_cast<double>(p.outer.outer.points.size());
            };
            const bool firstIsStrip = side(made.pieces[0]) < side(made.pieces[1]);
            split(made.pieces[firstIsStrip ? 0 : 1], out);
            rest = std::move(made.pieces[firstIsStrip ? 1 : 0]);
        }
        return false;
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
            if (t.off < size[way] / 6 && weigh({facts, m_rules, angle}, mostSplit, t)) all.push_back(t);
        }
        for (const Trial& t : all)
            if (!best ||
                std::pair(std::round(t.breach), t.off) < std::pair(std::round(best->breach), best->off))
                best = &t;
        if (!best || m_cuts >= mostCuts) return out.pieces.push_back(piece);
        const int seam = m_next++;
        ++m_cuts;
        CutPieces made = cutPiece(piece, best->line, seam);
        if (made.pieces.size() < 2) return out.pieces.push_back(piece);
        out.cuts.push_back(madeCut(piece, best->line, seam));
        out.lost += made.lost;
        for (const CutPiece& part : made.pieces) split(part, out);
    }

    SearchRules m_rules;
    int m_next;
    int m_cuts = 0; ///< made where many parts are needed
};

} // namespace

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
