#include "core/survey/constraint_sources.h"
#include "core/fit/pieces.h"
#include "core/plates/sheet_room.h"
#include "core/ride/tipping.h"
#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

namespace slab {

namespace {

using Told = std::vector<ToldMargin>;

double signedClearance(const FitPair& p) {
    return p.state == FitState::hits ? -p.depth : p.clearance;
}

/// "donor/seat back" -> "seat back", "rider/head" -> "rider's head".
std::string solidWords(const std::string& solid) {
    if (solid.starts_with("donor/")) return solid.substr(6);
    if (solid.starts_with("rider/")) return "rider's " + solid.substr(6);
    return solid;
}

/// One for each solid of donor and rider, against everything that is shown.
void tellFit(const Evaluation& e, Told& told) {
    if (!e.fit || !e.donor) return;
    for (const FitSolid& solid : e.donor->solids) {
        ToldMargin one{{"fit:" + solid.name, solidWords(solid.name)}, {e.scale, 1e300, 1e300}};
        for (const FitPair& p : e.fit->pairs) {
            if (p.solid != solid.name) continue;
            one.margin.clearance = std::min(one.margin.clearance, signedClearance(p));
            if (marginOf(p) >= one.margin.margin) continue;
            one.margin.margin = marginOf(p);
            one.margin.binding = p.plate;
        }
        if (!one.margin.binding.empty()) told.push_back(std::move(one));
    }
}

/// How far the body reaches over donor and rider in plan.
void tellWithin(const Evaluation& e, Told& told) {
    if (!e.fit || !e.donor || !e.plates) return;
    const auto body = boundsOf(*e.plates);
    if (!body) return;
    ToldMargin one{{"within", "donor and rider within the body"}, {e.scale, 1e300, 1e300}};
    for (const std::string group : {"donor", "rider"}) {
        const auto box = boundsOf(e.donor->solids, group);
        if (!box) continue;
        const double over = std::min({body->max.x() - box->min.x(), box->max.x() - body->min.x(),
                                      body->max.y() - box->min.y(), box->max.y() - body->min.y()});
        if (over >= one.margin.margin) continue;
        one.margin.margin = one.margin.clearance = over;
        one.margin.binding = group;
    }
    // Round forms are part of the body too: what the fit says goes first.
    const bool outside = !e.fit->outside.empty();
    double& margin = one.margin.margin;
    if (outside) {
        for (const FitResult::Outside& o : e.fit->outside)
            margin = std::min(margin, -std::max(o.gap, touchDepth));
        margin = std::min(margin, -2 * touchDepth);
        one.margin.binding = e.fit->outside.front().group;
    } else {
        margin = std::max(margin, touchDepth);
    }
    one.margin.clearance = margin;
    if (!one.margin.binding.empty()) told.push_back(std::move(one));
}

bool moves(const Evaluation& e) {
    return e.mechanisms && (!e.mechanisms->motions.empty() || !e.mechanisms->bought.empty());
}

/// What mechanisms move, and what is bought for them, against donor and rider.
void tellMovingPeople(const Evaluation& e, Told& told) {
    if (!e.fit || !e.donor || e.donor->solids.empty() || !moves(e)) return;
    ToldMargin one{{"moves:people", "moving parts past donor and rider"}, {e.scale, 1e300, 1e300}};
    for (const FitPair& p : e.fit->swept) {
        one.margin.clearance = std::min(one.margin.clearance, signedClearance(p));
        if (marginOf(p) >= one.margin.margin) continue;
        one.margin.margin = marginOf(p);
        one.margin.binding = p.solid + " – " + p.plate;
    }
    if (one.margin.binding.empty()) {
        // Looked for as far as each wish, and as far as the nearest of all that stands still.
        double wish = 0;
        for (const FitSolid& s : e.donor->solids) wish = std::max(wish, s.clearance);
        one.margin.margin = std::max(0.0, e.fit->leastClearance - wish);
        one.margin.clearance = one.margin.margin;
        one.margin.known = Known::atLeast;
    }
    told.push_back(std::move(one));
}

/// What mechanisms move against the shell, other mechanisms and round forms.
void tellMovingShell(const Evaluation& e, Told& told) {
    if (!e.worst || !e.mechanisms || e.mechanisms->motions.empty()) return;
    ToldMargin one{{"moves:shell", "moving parts past the shell"}, {e.scale, 0, 0, "", Known::atLeast}};
    if (!e.worst->moving.empty()) {
        const bool met = e.worst->meets;
        one.margin.margin = met ? -1 : e.worst->margin;
        one.margin.clearance = met ? -1 : 1; // apart: by how much is not asked for
        one.margin.known = met ? Known::atMost : Known::exactly;
        one.margin.binding = e.worst->moving + " – " + e.worst->other;
    }
    told.push_back(std::move(one));
}

/// A floating shell in its worst pose.
void tellAfloat(const Evaluation& e, Told& told) {
    if (!e.afloat || e.afloat->pairs.empty()) return;
    ToldMargin one{{"floats", "shell afloat on its chassis"}, {e.scale, 1e300, 1e300}};
    for (const FloatPair& p : e.afloat->pairs) {
        one.margin.clearance = std::min(one.margin.clearance, signedClearance(p.pair));
        if (marginOf(p.pair) >= one.margin.margin) continue;
        one.margin.margin = marginOf(p.pair);
        one.margin.binding = p.pair.solid + " – " + p.pair.plate + ", " + p.words;
    }
    told.push_back(std::move(one));
}

/// What is left of the sheet on which a panel lies best, in the direction that has the least; below 0 it is
/// larger than each.
double spareOnSheet(const Panel& panel, const plates::SheetRoom& room) {
    Ring cloud;
    const auto add = [&](const Ring& ring) { cloud.insert(cloud.end(), ring.begin(), ring.end()); };
    add(panel.boundary.outer);
    add(panel.boundary.inner);
    double best = -1e300;
    for (const double angle : layDirections(cloud, room)) {
        const Vec2 box = plates::boxAt(cloud, angle).size();
        for (const Vec2& sheet : room.sizes) {
            best = std::max(best, (sheet - box).minCoeff());
            if (room.either) best = std::max(best, (sheet - Vec2(box.y(), box.x())).minCoeff());
        }
    }
    return best;
}

/// The panel that needs most of its sheet; those that were split are taken whole.
void tellSheets(const Evaluation& e, Told& told) {
    if (!e.panels || !e.stock || !e.plates) return;
    const bool split =
        e.seams && std::any_of(e.seams->begin(), e.seams->end(), [](const SeamCut& s) { return s.found; });
    const std::vector<Panel> whole = split ? makePanels(*e.plates) : std::vector<Panel>();
    std::map<std::string, plates::SheetRoom> rooms;
    ToldMargin one{{"sheet", "largest panel on its sheet", Constraint::Unit::length, false, false},
                   {e.scale, 1e300, 1e300}};
    for (const Panel& panel : split ? whole : *e.panels) {
        if (panel.boundary.outer.size() < 3) continue;
        const auto [room, fresh] = rooms.try_emplace(panel.stock);
        if (fresh) room->second = plates::roomOf(*e.stock, panel.stock);
        if (room->second.sizes.empty()) continue;
        const double spare = spareOnSheet(panel, room->second);
        if (spare >= one.margin.margin) continue;
        one.margin.margin = one.margin.clearance = spare;
        one.margin.binding = panel.name;
    }
    if (!one.margin.binding.empty()) told.push_back(std::move(one));
}

/// What it must pass on its way.
void tellRoute(const Evaluation& e, Told& told) {
    if (!e.trial) return;
    for (const trial::RouteResult& r : e.trial->route) {
        if (r.outcome == trial::Outcome::unknown) continue;
        const bool passes = r.outcome != trial::Outcome::fails;
        ToldMargin one{{"route:" + r.name, r.name + (r.measure.empty() ? "" : ", " + r.measure),
                        Constraint::Unit::length, true, false},
                       {e.scale, passes ? std::max(0.0, r.margin) : std::min(r.margin, -2 * touchDepth)}};
        one.margin.clearance = one.margin.margin;
        one.margin.binding = r.binds;
        told.push_back(std::move(one));
    }
}

/// What the donor may carry, and the steepest ground that it is asked to stand on.
void tellRide(const Evaluation& e, Told& told) {
    if (!e.trial || !e.trial->balance) return;
    const trial::Balance& b = *e.trial->balance;
    if (b.rating && b.rated > 0) {
        const double spare = b.rated - b.rating->carried;
        told.push_back({{"load", "the donor's rated load", Constraint::Unit::mass, true, false},
                        {e.scale, spare, spare}});
    }
    ToldMargin one{{"tip", "standing on the steepest ground", Constraint::Unit::angle, true, false},
                   {e.scale, 1e300, 1e300}};
    for (const trial::Standing& s : b.standings) {
        // The slope rises towards its heading, so that it tips the other way.
        const auto tips = ride::tipAngleTowards(b.stance, s.slope.heading + std::numbers::pi);
        if (!tips || s.slope.angle <= 0) continue;
        double spare = tips->angle - s.slope.angle;
        spare = s.stands ? std::max(spare, 0.0) : std::min(spare, -2 * touchDepth);
        if (spare >= one.margin.margin) continue;
        one.margin.margin = one.margin.clearance = spare;
        one.margin.binding = s.words;
    }
    if (!one.margin.binding.empty()) told.push_back(std::move(one));
}

/// Speed in the tightest turn and wind, each less what is asked for; nothing tips what no limit is known of.
void tellTurnAndWind(const Evaluation& e, Told& told) {
    if (!e.trial || !e.trial->balance) return;
    const trial::Balance& b = *e.trial->balance;
    constexpr double most = 50000; // mm/s: where no speed tips it
    const auto tell = [&](const char* key, const char* words, double spare) {
        spare = std::clamp(spare, -most, most);
        told.push_back({{key, words, Constraint::Unit::speed, false, false}, {e.scale, spare, spare}});
    };
    if (b.speed > 0) tell("turn", "speed in the tightest turn", b.turn.least() - b.speed);
    double least = most;
    for (const trial::WindCase& w : b.winds) least = std::min(least, w.limits.least());
    if (b.wind > 0 && !b.winds.empty()) tell("wind", "wind", least - b.wind);
}

/// Passages that the whole or its modules are carried through.
void tellPassages(const Evaluation& e, Told& told) {
    if (!e.modules) return;
    std::map<std::string, ToldMargin> all;
    for (const ModuleInfo& module : e.modules->modules)
        for (const ModulePassing& passing : module.passings) {
            const auto [at, fresh] =
                all.try_emplace(passing.passage, ToldMargin{{"passage:" + passing.passage, passing.passage,
                                                             Constraint::Unit::length, false, false},
                                                            {e.scale, 1e300, 1e300}});
            Margin& margin = at->second.margin;
            if (passing.way.margin >= margin.margin) continue;
            margin.margin = margin.clearance = passing.way.margin;
            margin.binding = module.name.empty() ? "the body" : module.name;
        }
    for (auto& [name, one] : all) told.push_back(std::move(one));
}

/// The ways out, clear for whoever needs the most.
void tellExits(const Evaluation& e, Told& told) {
    if (!e.trial) return;
    for (const trial::WayOut& way : e.trial->waysOut) {
        if (way.outcome == trial::Outcome::unknown) continue;
        const double spare = std::min(way.width - way.wantedWidth, way.height - way.wantedHeight);
        told.push_back({{"exit:" + way.opening, "the way out, opening " + way.opening,
                         Constraint::Unit::length, false, false},
                        {e.scale, spare, spare}});
    }
}

/// Ground ahead and open view, against what is asked for.
void tellSight(const Evaluation& e, Told& told) {
    if (!e.trial) return;
    for (const trial::View& view : e.trial->views) {
        constexpr double most = 5000; // mm: where no ground is seen at all
        if (view.wanted > 0) {
            const double spare = std::max(view.wanted - view.beyondNose, -most);
            told.push_back(
                {{"sight:ground", "ground seen ahead", Constraint::Unit::length, false, false, {}, true},
                 {e.scale, spare, spare}});
        }
        const double open = std::min(view.field.port, view.field.starboard) - view.wantedField;
        told.push_back(
            {{"sight:field", "open view to either side", Constraint::Unit::angle, false, false, {}, true},
             {e.scale, open, open}});
    }
}

} // namespace

const std::vector<ConstraintSource>& constraintSources() {
    static const std::vector<ConstraintSource> all = {
        tellFit,  tellWithin,      tellMovingPeople, tellMovingShell, tellAfloat, tellRoute,
        tellRide, tellTurnAndWind, tellPassages,     tellExits,       tellSight,  tellSheets};
    return all;
}

std::vector<ToldMargin> marginsOf(const Evaluation& evaluation) {
    std::vector<ToldMargin> told;
    for (const ConstraintSource source : constraintSources()) source(evaluation, told);
    std::vector<ToldMargin> once;
    for (ToldMargin& t : told)
        if (std::none_of(once.begin(), once.end(), [&](const ToldMargin& o) { return o.of.key == t.of.key; }))
            once.push_back(std::move(t));
    return once;
}

bool holds(const Margin& margin) {
    return margin.margin >= -touchDepth;
}

bool meets(const ToldMargin& told) {
    return told.of.touches ? told.margin.clearance < 0 : !holds(told.margin);
}

} // namespace slab
