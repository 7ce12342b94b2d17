#include "core/fit/pieces.h"
#include "core/geometry/convex_hull.h"
#include <algorithm>
#include <map>

namespace slab {

Pieces::Pieces(const PlateSet& plates) {
    m_made.reserve(plates.plates.size());
    for (std::size_t i = 0; i < plates.plates.size(); ++i) {
        const Plate& plate = plates.plates[i];
        const int index = static_cast<int>(i);
        for (const ConvexSolid& cell : plate.cells)
            if (!cell.points.empty()) m_pieces.push_back({Prepared(cell), bounds(cell), index});
        if (plate.cells.empty() && !plate.solid.vertices.empty()) {
            m_made.push_back({ConvexSolid::Kind::hull, plate.solid.vertices, 0});
            m_pieces.push_back({Prepared(m_made.back()), bounds(m_made.back()), index});
        }
    }
}

double boxDistance(const Box3& a, const Box3& b) {
    return (a.min - b.max).cwiseMax(b.min - a.max).cwiseMax(0).norm();
}

namespace {

bool flatFaced(const ConvexSolid& s) {
    return s.kind == ConvexSolid::Kind::hull && s.radius == 0;
}

/// One solid's pairs, gathered piece by piece.
class Gatherer {
public:
    Gatherer(const FitSolid& solid, const PlateSet& plates)
        : m_solid(solid), m_shape(solid.shape), m_plates(plates) {}

    void meet(Pieces::Piece& piece) {
        const Nearest near = nearest(m_shape, piece.shape);
        m_least = std::min(m_least, near.distance);
        FitPair& pair = of(piece.plate);
        if (near.meets && near.depth > touchDepth) {
            overlap(pair, near, piece.shape);
        } else if (pair.state != FitState::hits && near.distance < pair.clearance) {
            pair.clearance = near.meets ? 0 : near.distance;
            pair.onSolid = near.onA;
            pair.onPlate = near.onB;
        }
    }
    [[nodiscard]] double least() const { return m_least; }

    /// Pairs in plate order: those nearer than wanted and the nearest, or all that met.
    [[nodiscard]] std::vector<FitPair> chosen(bool all = false) {
        std::sort(m_found.begin(), m_found.end(),
                  [](const Found& a, const Found& b) { return a.plate < b.plate; });
        const auto nearest =
            std::min_element(m_found.begin(), m_found.end(), [](const Found& a, const Found& b) {
                return a.pair.clearance < b.pair.clearance;
            });
        std::vector<FitPair> out;
        for (auto it = m_found.begin(); it != m_found.end(); ++it) {
            FitPair& p = it->pair;
            if (p.state != FitState::hits) p.state = apartState(p.clearance, p.wanted);
            if (all || p.state != FitState::fits || it == nearest) out.push_back(std::move(p));
        }
        return out;
    }

private:
    struct Found {
        int plate;
        FitPair pair;
    };

    FitPair& of(int plate) {
        const auto it =
            std::find_if(m_found.begin(), m_found.end(), [&](const Found& f) { return f.plate == plate; });
        if (it != m_found.end()) return it->pair;
        FitPair pair;
        pair.solid = m_solid.name;
        pair.plate = m_plates.plates[static_cast<std::size_t>(plate)].name;
        pair.wanted = m_solid.clearance;
        pair.clearance = 1e300;
        m_found.push_back({plate, std::move(pair)});
        return m_found.back().pair;
    }

    void overlap(FitPair& pair, const Nearest& near, Prepared& piece) {
        const bool deepest = pair.state != FitState::hits || near.depth > pair.depth;
        pair.state = FitState::hits;
        pair.clearance = 0;
        pair.depth = std::max(pair.depth, near.depth);
        Vec3 at = near.onA;
        if (flatFaced(m_solid.shape) && flatFaced(piece.solid())) {
            const CommonPart common = commonPart(m_shape.hull(), piece.hull());
            pair.volume += common.volume;
            if (common.volume > 0) at = common.centroid;
        }
        if (deepest) pair.onSolid = pair.onPlate = at;
    }

    const FitSolid& m_solid;
    Prepared m_shape;
    const PlateSet& m_plates;
    std::vector<Found> m_found;
    double m_least = 1e300;
};

struct Candidate {
    double bound;
    int piece;
};

/// Pieces with the least distance that their boxes allow; the least of all first, the rest as they come:
/// after it hardly any is left to compare, so sorting them would cost more than it saves.
std::vector<Candidate> nearestFirst(const Box3& box, Pieces& pieces) {
    std::vector<Candidate> order;
    order.reserve(pieces.all().size());
    std::size_t least = 0;
    for (std::size_t i = 0; i < pieces.all().size(); ++i) {
        order.push_back({boxDistance(box, pieces.all()[i].box), static_cast<int>(i)});
        if (order[i].bound < order[least].bound) least = i;
    }
    if (!order.empty()) std::swap(order[0], order[least]);
    return order;
}

} // namespace

std::vector<FitPair> pairsOf(const FitSolid& solid, Pieces& pieces, const PlateSet& plates, double within) {
    if (solid.shape.points.empty()) return {};
    const double farthest = std::max(solid.clearance, within);
    const std::vector<Candidate> order = nearestFirst(bounds(solid.shape), pieces);
    if (order.empty() || order.front().bound > farthest) return {}; // the least of all stands first
    Gatherer gatherer(solid, plates);
    for (const Candidate& c : order) {
        if (c.bound > farthest || c.bound > std::max(solid.clearance, gatherer.least())) continue;
        gatherer.meet(pieces.all()[static_cast<std::size_t>(c.piece)]);
    }
    return gatherer.chosen();
}

double leastMarginOf(const FitSolid& solid, Prepared& home, Pieces& pieces, const Vec3& shift, double floor) {
    double least = 1e9;
    if (solid.shape.points.empty()) return least;
    const ConvexSolid moved = translated(solid.shape, shift);
    Prepared shape(moved);
    shape.takeDirections(home);
    for (const Candidate& c : nearestFirst(bounds(moved), pieces)) {
        if (least < floor) break;
        if (c.bound - solid.clearance > least) continue;
        const Nearest near = nearest(shape, pieces.all()[static_cast<std::size_t>(c.piece)].shape);
        least = std::min(least, (near.meets ? -near.depth : near.distance) - solid.clearance);
    }
    return least;
}

FitResult liveFit(const std::vector<FitSolid>& solids, const PlateSet& plates, const FitWords& words) {
    FitResult fit;
    Pieces pieces(plates);
    for (const FitSolid& solid : solids)
        for (FitPair& pair : pairsOf(solid, pieces, plates)) fit.pairs.push_back(std::move(pair));
    summarise(fit, solids, plates, words);
    return fit;
}

std::vector<FitPair> everyPair(const FitResult& fit, const std::vector<FitSolid>& solids,
                               const PlateSet& plates) {
    std::map<std::pair<std::string, std::string>, const FitPair*> known;
    for (const FitPair& p : fit.pairs) known[{p.solid, p.plate}] = &p;
    std::vector<FitPair> every;
    Pieces pieces(plates);
    for (const FitSolid& solid : solids) {
        if (solid.shape.points.empty()) continue;
        Gatherer gatherer(solid, plates);
        for (Pieces::Piece& piece : pieces.all()) gatherer.meet(piece);
        for (FitPair& pair : gatherer.chosen(true)) {
            const auto it = known.find({pair.solid, pair.plate});
            every.push_back(it == known.end() ? std::move(pair) : *it->second);
        }
    }
    return every;
}

} // namespace slab
