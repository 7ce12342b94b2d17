#include "core/trial/outline.h"
#include "core/trial/passing.h"
#include "core/trial/stuff.h"

namespace slab::trial {

namespace {

/// Before every ride; nothing of it replaces local rules.
std::vector<std::string> cautionsOf(const Stuff& stuff) {
    std::vector<std::string> out;
    if (stuff.donor.people.empty() && stuff.donor.chassis.wheels.empty()) return out;
    out = {
        "Local rules govern where and how it may be driven; ask before it goes on a path or a road.",
        "A grown-up walks beside it within reach of the switch, above all with a child aboard and among "
        "people.",
        "Try every slope, door and turn slowly and empty first; tyres, springs and a rider who leans make it "
        "tip sooner than it is worked out here.",
        "Drive it no faster than a walk among people; others cannot see how little is seen from inside.",
        "The way out opens from inside and from outside without tools; try it in five seconds.",
        "Keep fingers, hair and cloth away from all that turns, folds or slides; cover gaps that close.",
        "Foam and card burn: no heat, flame, fog machine or charging battery inside.",
        "A chair for daily needs is clamped, never drilled; ask its maker before it carries anything."};
    return out;
}

} // namespace

std::vector<RouteResult> passRoute(const Stuff& stuff, const std::optional<Balance>& balance) {
    std::vector<RouteResult> out;
    for (const RouteFigure& part : stuff.route) {
        RouteResult one = isGround(part.kind) ? passGround(stuff, part, balance) : passPlan(stuff, part);
        one.words = routeWords(stuff, one);
        out.push_back(std::move(one));
    }
    return out;
}

void gather(Stuff& stuff) {
    stuff.bulks = bulksOf(stuff);
    stuff.load = loadOf(stuff);
    Plans plans = plansOf(stuff.bulks);
    stuff.plan = std::move(plans.aboard);
    stuff.emptyPlan = std::move(plans.empty);
    SideParts parts;
    parts.wheels = stuff.donor.chassis.wheels;
    parts.centre = stuff.load.all.mass > 0 ? stuff.load.all.centre : stuff.donor.chassis.centre;
    parts.reach = 1e4;
    stuff.side = sideOf(stuff, parts);
}

Trial tryOut(Stuff stuff) {
    gather(stuff);
    Trial out;
    const bool wheels = !stuff.donor.chassis.wheels.empty();
    if (wheels) out.balance = balanceOf(stuff);
    out.route = passRoute(stuff, out.balance);
    if (wheels) {
        out.turning = turningOf(stuff);
        out.ramps = rampsOf(stuff);
    }
    if (stuff.depth > Depth::live) out.views = viewsOf(stuff);
    out.waysOut = waysOutOf(stuff);
    out.gaps = gapsOf(stuff);
    out.air = airOf(stuff);
    if (out.balance) tellBalance(stuff, *out.balance, out.findings);
    tellRoute(stuff, out.route, out.findings);
    tellViews(stuff, out.views, out.findings);
    tellLeaving(stuff, out, out.findings);
    out.cautions = cautionsOf(stuff);
    return out;
}

} // namespace slab::trial
