#include "core/frames/lap_sides.h"
#include <algorithm>
#include <functional>
#include <numeric>
#include <set>
#include <tuple>

namespace slab::frames {

namespace {

using Pieces = std::set<std::size_t>;

constexpr double leastCut = 1e-6; ///< mm: less is rounding

/// One way to take a piece out of the rest, and what it costs against each lap's own preference.
struct Removal {
    std::size_t piece = 0;
    bool upper = true; ///< it comes out above, along its laps
    Vec3 from = Vec3::UnitZ();
    double cut = 0;  ///< mm cut through that need not be
    int against = 0; ///< laps of which another would be the lower one by preference
    /// Dearer ones later; of equals, the last in the list comes out first.
    [[nodiscard]] auto key() const {
        return std::tuple(std::llround(cut / leastCut), !upper, against, -static_cast<std::ptrdiff_t>(piece));
    }
};

class SideChooser {
public:
    SideChooser(const std::vector<Piece>& pieces, std::vector<LapChoice>& laps)
        : m_pieces(pieces), m_laps(laps), m_lapsOf(pieces.size()) {
        for (std::size_t i = 0; i < laps.size(); ++i) {
            m_lapsOf[laps[i].first].push_back(i);
            m_lapsOf[laps[i].second].push_back(i);
        }
    }

    std::optional<Locked> choose() {
        Pieces rest = all();
        const Pieces stuck = slid(rest);
        if (!stuck.empty()) return locked(stuck);
        m_rank = ranks();
        std::vector<LapChoice> chosen = m_laps;
        while (!rest.empty()) {
            const Removal r = cheapest(rest);
            for (const std::size_t i : m_lapsOf[r.piece])
                if (rest.contains(other(i, r.piece)))
                    chosen[i].firstLower = (chosen[i].first == r.piece) != (r.upper == sameWay(i, r.from));
            rest.erase(r.piece);
        }
        m_laps = std::move(chosen);
        return {};
    }

private:
    [[nodiscard]] Pieces all() const {
        Pieces rest;
        for (std::size_t i = 0; i < m_pieces.size(); ++i)
            if (!m_pieces[i].regions.empty()) rest.insert(i);
        return rest;
    }
    [[nodiscard]] std::size_t other(std::size_t lap, std::size_t piece) const {
        return m_laps[lap].first == piece ? m_laps[lap].second : m_laps[lap].first;
    }
    /// Level laps may be counted from either end.
    [[nodiscard]] bool sameWay(std::size_t lap, const Vec3& along) const {
        return m_laps[lap].along.dot(along) > 0;
    }
    /// The one of lower rank, unless more must be cut through for that.
    [[nodiscard]] static std::size_t preferredLower(const LapChoice& lap,
                                                    const std::vector<std::size_t>& rank) {
        const bool first = rank[lap.first] < rank[lap.second];
        const double own = first ? lap.costFirstLower : lap.costSecondLower,
                     turned = first ? lap.costSecondLower : lap.costFirstLower;
        return (own <= turned + leastCut) == first ? lap.first : lap.second;
    }
    /// Ranks by which all go together from above if the one of lower rank is the lower one: those of the
    /// list, or with what would be stuck in front, so that the others slide onto it one by one. Those of the
    /// list if none are found: then each lap is decided by itself.
    [[nodiscard]] std::vector<std::size_t> ranks() const {
        std::vector<std::size_t> order(m_pieces.size()), rank(m_pieces.size());
        std::iota(order.begin(), order.end(), 0);
        const std::vector<std::size_t> listed = order;
        for (std::size_t round = 0; round < 2 * order.size(); ++round) {
            for (std::size_t i = 0; i < order.size(); ++i) rank[order[i]] = i;
            const auto stuck = stuckPiece(rank);
            if (!stuck) return rank;
            const auto it = std::find(order.begin(), order.end(), *stuck);
            std::rotate(order.begin(), it, it + 1);
        }
        return listed;
    }
    /// One that would slide onto two others different ways, or that waits for one which waits for it.
    [[nodiscard]] std::optional<std::size_t> stuckPiece(const std::vector<std::size_t>& rank) const {
        std::vector<LapChoice> laps = m_laps;
        std::sort(laps.begin(), laps.end(), [&](const LapChoice& a, const LapChoice& b) {
            return std::minmax(rank[a.first], rank[a.second]) < std::minmax(rank[b.first], rank[b.second]);
        });
        const auto upper = [&](const LapChoice& lap) {
            return preferredLower(lap, rank) == lap.first ? lap.second : lap.first;
        };
        for (const LapChoice& a : laps)
            for (const LapChoice& b : laps)
                if (upper(a) == upper(b) && !oneWay(a.along, b.along)) return upper(a);
        Pieces waiting;
        for (const LapChoice& lap : laps) waiting.insert({lap.first, lap.second});
        const auto waits = [&](std::size_t piece) {
            return std::any_of(laps.begin(), laps.end(), [&](const LapChoice& lap) {
                return upper(lap) == piece && waiting.contains(preferredLower(lap, rank));
            });
        };
        while (std::erase_if(waiting, [&](std::size_t piece) { return !waits(piece); }) > 0) {
        }
        for (const LapChoice& lap : laps)
            if (waiting.contains(upper(lap))) return upper(lap);
        return {};
    }
    /// The one line of all laps with the rest: nothing if there are several lines, zero without laps.
    [[nodiscard]] std::optional<Vec3> line(std::size_t piece, const Pieces& rest) const {
        Vec3 found = Vec3::Zero();
        for (const std::size_t i : m_lapsOf[piece]) {
            if (!rest.contains(other(i, piece))) continue;
            const Vec3& along = m_laps[i].along;
            if (found.isZero())
                found = along;
            else if (!oneWay(found, along) && !oneWay(found, -along))
                return {};
        }
        return found;
    }
    /// What stays when all have come out that can.
    [[nodiscard]] Pieces slid(Pieces rest) const {
        for (bool found = true; found;) {
            found = false;
            for (auto it = rest.begin(); it != rest.end();) {
                const bool free = line(*it, rest).has_value();
                found = found || free;
                it = free ? rest.erase(it) : std::next(it);
            }
        }
        return rest;
    }
    [[nodiscard]] Locked locked(const Pieces& stuck) const;

    Removal costOf(std::size_t piece, const Vec3& line, bool upper, const Pieces& rest) const {
        Removal r{piece, upper, line, 0, 0};
        for (const std::size_t i : m_lapsOf[piece]) {
            const LapChoice& lap = m_laps[i];
            const std::size_t partner = other(i, piece);
            if (!rest.contains(partner)) continue;
            const std::size_t lower = upper == sameWay(i, line) ? partner : piece;
            if (lower == preferredLower(lap, m_rank)) continue;
            r.cut += std::abs(lap.cost(lower) - std::min(lap.costFirstLower, lap.costSecondLower));
            ++r.against;
        }
        return r;
    }
    /// How many of the rest, laps apart, stand in the way of a removal.
    int barredBy(const Removal& r, const Pieces& rest) {
        const std::vector<Vec3> ways =
            r.from.isZero() ? waysOf(r.piece) : std::vector<Vec3>{r.upper ? r.from : Vec3(-r.from)};
        int fewest = -1;
        for (const Vec3& from : ways) {
            int count = 0;
            for (const std::size_t p : rest)
                count += p != r.piece && !lapped(p, r.piece) && bars(p, r.piece, from) ? 1 : 0;
            if (fewest < 0 || count < fewest) fewest = count;
            if (fewest == 0) break;
        }
        return fewest;
    }
    Removal cheapest(const Pieces& rest) {
        std::vector<Removal> removals;
        for (const std::size_t piece : rest) {
            const auto along = line(piece, rest);
            if (!along) continue;
            removals.push_back(costOf(piece, *along, true, rest));
            if (!along->isZero()) removals.push_back(costOf(piece, *along, false, rest));
        }
        std::sort(removals.begin(), removals.end(),
                  [](const Removal& a, const Removal& b) { return a.key() < b.key(); });
        const Removal* best = nullptr;
        int fewest = 0;
        for (const Removal& r : removals) {
            const int barred = barredBy(r, rest);
            if (best && barred >= fewest) continue;
            best = &r;
            fewest = barred;
            if (barred == 0) break;
        }
        return *best; // one there is: all come out by their laps
    }
    [[nodiscard]] bool lapped(std::size_t a, std::size_t b) const {
        return std::any_of(m_lapsOf[a].begin(), m_lapsOf[a].end(),
                           [&](std::size_t i) { return other(i, a) == b; });
    }
    bool bars(std::size_t stands, std::size_t moves, const Vec3& from) {
        return barsWay(m_pieces[stands], m_pieces[moves], from) &&
               !standsIn(m_pieces[stands], m_pieces[moves]);
    }
    [[nodiscard]] std::vector<Vec3> waysOf(std::size_t piece) const { return Ways({m_pieces[piece]}).of(0); }

    const std::vector<Piece>& m_pieces;
    std::vector<LapChoice>& m_laps;
    std::vector<std::vector<std::size_t>> m_lapsOf;
    std::vector<std::size_t> m_rank; ///< of equals, the lower one in a lap is that of lower rank
};

/// The one to leave out, and a smallest set that holds it.
/// @param stuckOf  what of some pieces holds together
Locked culprit(const Pieces& stuck, const std::function<Pieces(Pieces)>& stuckOf) {
    Locked found;
    std::size_t fewest = stuck.size();
    for (const std::size_t piece : stuck) {
        Pieces others = stuck;
        others.erase(piece);
        const std::size_t left = stuckOf(others).size();
        if (left > fewest) continue;
        fewest = left; // of equals the last in the list
        found.piece = piece;
    }
    Pieces core = stuck;
    for (const std::size_t piece : stuck) {
        if (piece == found.piece || !core.contains(piece)) continue;
        Pieces fewer = core;
        fewer.erase(piece);
        fewer = stuckOf(fewer);
        if (fewer.contains(found.piece)) core = std::move(fewer);
    }
    core.erase(found.piece);
    found.with.assign(core.begin(), core.end());
    return found;
}

Locked SideChooser::locked(const Pieces& stuck) const {
    return culprit(stuck, [&](Pieces rest) { return slid(std::move(rest)); });
}

} // namespace

std::optional<Locked> chooseSides(const std::vector<Piece>& pieces, std::vector<LapChoice>& laps) {
    return SideChooser(pieces, laps).choose();
}

Locked lockedIn(const std::vector<Piece>& pieces, const std::vector<std::size_t>& locked) {
    Locked found = culprit({locked.begin(), locked.end()}, [&](const Pieces& rest) {
        std::vector<Piece> some = pieces;
        for (std::size_t i = 0; i < some.size(); ++i)
            if (!rest.contains(i)) some[i].regions.clear();
        const std::vector<std::size_t> stuck = assemblyOf(some).locked;
        return Pieces(stuck.begin(), stuck.end());
    });
    found.ring = true;
    return found;
}

} // namespace slab::frames
