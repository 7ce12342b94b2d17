#include "core/fit/float_moving.h"
#include "core/fit/float_told.h"
#include "core/mechanisms/shown.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace {

FitSolid seenIn(FitSolid solid, const FloatPose& pose) {
    solid.shape = placedBy(seenFromShell(pose), std::move(solid.shape));
    return solid;
}

class AllAfloat {
public:
    explicit AllAfloat(const FloatField& field)
        : m_field(field), m_things(field.set, field.cut), m_pieces(field.plates) {}

    void add(FloatFit& fit, const Job& job) const {
        double least = fit.pairs.empty() ? 1e9 : fit.leastClearance;
        const auto& poses = m_field.set.floating.poses;
        for (std::size_t i = 0; i < poses.size(); ++i)
            for (const FitSolid& solid : m_field.solids) {
                if (job.stopped()) return;
                for (auto& [pair, moved] : m_things.nearTo(seenIn(solid, poses[i]), least)) {
                    least = std::min(least, pair.clearance);
                    const std::string rise = printLength(std::abs(poses[i].rise), m_field.units);
                    std::string words = floatWords(poses[i], rise) + (moved.empty() ? "" : ", " + moved);
                    take(fit, {std::move(pair), static_cast<int>(i), std::move(words), {}});
                }
            }
    }

    /// The greatest travel that leaves the pair's solid free, in words; empty if no one travel does.
    [[nodiscard]] std::string remedy(const FloatPair& worst) {
        const FloatPose& pose = m_field.set.floating.poses[static_cast<std::size_t>(worst.pose)];
        const auto solid = std::find_if(m_field.solids.begin(), m_field.solids.end(),
                                        [&](const FitSolid& s) { return s.name == worst.pair.solid; });
        if (solid == m_field.solids.end() || !m_field.tried || !worst.posed.empty()) return {};
        for (const FloatTravel& travel : m_field.travels) {
            if (!takesPart(travel.way, pose)) continue;
            const auto most = greatest(travel, *solid);
            if (!most) continue;
            return "Let linkage " + travel.linkage + " " + wayWords(travel.way) + " no more than " +
                   figureWords(travel.way, *most) + ", move it, or make more room at rest.";
        }
        return {};
    }

private:
    using Way = FloatTravel::Way;

    static void take(FloatFit& fit, FloatPair pair) {
        for (FloatPair& p : fit.pairs)
            if (p.pair.solid == pair.pair.solid && p.pair.plate == pair.pair.plate) {
                if (marginOf(pair.pair) < marginOf(p.pair)) p = std::move(pair);
                return;
            }
        fit.pairs.push_back(std::move(pair));
    }
    static bool takesPart(Way way, const FloatPose& pose) {
        constexpr double some = 1e-6;
        switch (way) {
        case Way::up:
            return pose.rise > some;
        case Way::down:
            return pose.rise < -some;
        case Way::noseUp:
            return pose.noseUp > some;
        case Way::noseDown:
            return pose.noseUp < -some;
        }
        return false;
    }
    static const char* wayWords(Way way) {
        switch (way) {
        case Way::up:
            return "rise";
        case Way::down:
            return "sink";
        case Way::noseUp:
            return "pitch nose up";
        case Way::noseDown:
            return "pitch nose down";
        }
        return "";
    }
    [[nodiscard]] std::string figureWords(Way way, double value) const {
        return way == Way::up || way == Way::down ? printLength(value, m_field.units) : printAngle(value);
    }
    /// As lengths and angles are printed.
    [[nodiscard]] double stepOf(Way way) const {
        if (way != Way::up && way != Way::down) return 0.1 * std::numbers::pi / 180;
        return isInch(m_field.units) ? 25.4 / m_field.units.denominator : 0.1;
    }
    [[nodiscard]] std::optional<double> greatest(const FloatTravel& travel, const FitSolid& solid) {
        const double step = stepOf(travel.way);
        const auto clears = [&](int steps) { return free(solid, m_field.tried(travel, steps * step)); };
        if (!clears(0)) return {};
        int good = 0, bad = static_cast<int>(std::ceil(travel.now / step - 1e-9));
        while (bad - good > 1) {
            const int middle = (good + bad) / 2;
            (clears(middle) ? good : bad) = middle;
        }
        return good * step;
    }
    /// Whether nothing is worse than at rest in any of the poses.
    [[nodiscard]] bool free(const FitSolid& solid, const std::vector<FloatPose>& poses) {
        std::vector<std::string> near, hit; // at rest
        for (const auto* all : {&m_field.rest.pairs, &m_field.rest.swept})
            for (const FitPair& p : *all) {
                if (p.solid != solid.name) continue;
                if (p.state != FitState::fits) near.push_back(p.plate);
                if (p.state == FitState::hits) hit.push_back(p.plate);
            }
        return std::all_of(poses.begin(), poses.end(), [&](const FloatPose& pose) {
            FitSolid seen = seenIn(solid, pose);
            for (const FitPair& p : pairsOf(seen, m_pieces, m_field.plates))
                if (p.state > stateAtRest(m_field.rest, p)) return false;
            if (m_things.tooNear(seen, near)) return false;
            seen.clearance = 0;
            return near.empty() || !m_things.tooNear(seen, hit);
        });
    }

    const FloatField& m_field;
    MovingThings m_things;
    Pieces m_pieces;
};

} // namespace

FloatFit floatAll(FloatFit shown, const FloatField& field, const Job& job) {
    AllAfloat all(field);
    all.add(shown, job);
    if (job.stopped()) return shown;
    std::map<std::string, std::string> owners;
    for (const MovingSolid& s : field.set.solids) owners.emplace(s.name, s.mechanism);
    tellFloat(shown, {field.rest, field.solids, field.plates, field.linkages, field.units, std::move(owners),
                      [&](const FloatPair& worst) { return all.remedy(worst); }});
    return shown;
}

} // namespace slab
