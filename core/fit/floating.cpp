#include "core/fit/float_told.h"
#include "core/fit/pieces.h"
#include "core/mechanisms/shown.h"
#include <algorithm>
#include <map>

namespace slab {
namespace {

/// The greatest way that a point of the solid goes, mm.
double greatestWay(const ConvexSolid& shape, const Pose& pose) {
    double way = 0;
    for (const Vec3& p : shape.points) way = std::max(way, (pose(p) - p).norm());
    // The rim of a cylinder turns about its axis points, which the radius bounds.
    const double turned = (pose.turn - Mat3::Identity()).norm();
    return shape.kind == ConvexSolid::Kind::cylinder ? way + shape.radius * turned : way;
}

FitSolid posed(FitSolid solid, const Pose& pose) {
    solid.shape = placedBy(pose, std::move(solid.shape));
    return solid;
}

class Worst {
public:
    Worst(const FitResult& rest, const PlateSet& plates, const UnitStyle& style)
        : m_plates(plates), m_pieces(plates), m_style(style) {
        for (const FitPair& p : rest.pairs) {
            const auto [at, fresh] = m_rest.try_emplace(p.solid, p.clearance);
            if (!fresh) at->second = std::min(at->second, p.clearance);
        }
    }
    void look(const FitSolid& solid, const FloatPose& pose, int index) {
        const Pose seen = seenFromShell(pose);
        const auto rest = m_rest.find(solid.name);
        const double nearest = rest == m_rest.end() ? 0 : rest->second;
        if (nearest - greatestWay(solid.shape, seen) > std::max(solid.clearance, m_least)) return;
        for (FitPair& pair : pairsOf(posed(solid, seen), m_pieces, m_plates)) {
            m_least = std::min(m_least, pair.clearance);
            const auto [at, fresh] = m_index.try_emplace({pair.solid, pair.plate}, m_pairs.size());
            if (fresh)
                m_pairs.push_back({std::move(pair), index, words(pose), {}});
            else if (marginOf(pair) < marginOf(m_pairs[at->second].pair))
                m_pairs[at->second] = {std::move(pair), index, words(pose), {}};
        }
    }
    /// A solid in a pose of the rider, in all poses of the shell; after all solids at rest.
    void look(const PosedSolid& one, const std::vector<FloatPose>& poses) {
        const Box3 box = bounds(one.solid.shape);
        double gap = 1e300, way = 0;
        for (const Pieces::Piece& piece : m_pieces.all()) gap = std::min(gap, boxDistance(box, piece.box));
        for (const FloatPose& pose : poses)
            way = std::max(way, greatestWay(one.solid.shape, seenFromShell(pose)));
        if (gap - way > std::max(one.solid.clearance, m_least)) return;
        for (std::size_t i = 0; i < poses.size(); ++i)
            for (FitPair& pair :
                 pairsOf(posed(one.solid, seenFromShell(poses[i])), m_pieces, m_plates, m_least)) {
                if (pair.state == FitState::fits && pair.clearance >= m_least) continue;
                m_least = std::min(m_least, pair.clearance);
                const auto [at, fresh] = m_index.try_emplace({pair.solid, pair.plate}, m_pairs.size());
                if (!fresh && marginOf(pair) >= marginOf(m_pairs[at->second].pair)) continue;
                FloatPair found{std::move(pair), static_cast<int>(i), words(poses[i]) + ", " + one.words,
                                one.words};
                if (fresh)
                    m_pairs.push_back(std::move(found));
                else
                    m_pairs[at->second] = std::move(found);
            }
    }
    /// Near ones, and of each solid the nearest.
    [[nodiscard]] std::vector<FloatPair> chosen() const {
        std::map<std::string, const FloatPair*> nearest;
        for (const FloatPair& p : m_pairs) {
            const FloatPair*& best = nearest[p.pair.solid];
            if (!best || marginOf(p.pair) < marginOf(best->pair)) best = &p;
        }
        std::vector<FloatPair> all;
        for (const FloatPair& p : m_pairs)
            if (p.pair.state != FitState::fits || nearest[p.pair.solid] == &p) all.push_back(p);
        return all;
    }

private:
    const PlateSet& m_plates;
    Pieces m_pieces;
    const UnitStyle& m_style;
    std::map<std::string, double> m_rest;
    double m_least = 1e300;
    std::map<std::pair<std::string, std::string>, std::size_t> m_index;
    std::vector<FloatPair> m_pairs;

    [[nodiscard]] std::string words(const FloatPose& pose) const {
        return floatWords(pose, printLength(std::abs(pose.rise), m_style));
    }
};

} // namespace

FloatFit floatFit(const FitResult& rest, const std::vector<FitSolid>& solids, const PlateSet& plates,
                  const std::vector<FloatPose>& poses, const std::vector<std::string>& linkages,
                  const UnitStyle& style, const std::vector<PosedSolid>& posed) {
    FloatFit fit;
    Worst worst(rest, plates, style);
    for (std::size_t i = 0; i < poses.size(); ++i)
        for (const FitSolid& solid : solids)
            if (!solid.shape.points.empty()) worst.look(solid, poses[i], static_cast<int>(i));
    for (const PosedSolid& one : posed) worst.look(one, poses);
    fit.pairs = worst.chosen();
    tellFloat(fit, {rest, solids, plates, linkages, style, {}, {}});
    return fit;
}

Probe probeOf(const FitResult& rest, const FloatFit& afloat) {
    Probe probe = probeOf(rest);
    for (const FloatPair& p : afloat.pairs) {
        probe.clearance =
            std::min(probe.clearance, p.pair.state == FitState::hits ? -p.pair.depth : p.pair.clearance);
        if (marginOf(p.pair) < probe.margin) {
            probe.margin = marginOf(p.pair);
            probe.binding = p.pair.solid + " – " + p.pair.plate + ", " + p.words;
        }
    }
    return probe;
}

} // namespace slab
