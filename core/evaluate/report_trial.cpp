#include "core/evaluate/report_trial.h"
#include "core/trial/words.h"
#include <cmath>

namespace slab {

namespace {

using TrialJson = nlohmann::ordered_json;
using trial::Outcome;

constexpr double kmhOf = 1e6 / 3600; ///< mm/s

const char* outcomeName(Outcome o) {
    return o == Outcome::passes  ? "passes"
           : o == Outcome::tight ? "tight"
           : o == Outcome::fails ? "fails"
                                 : "unknown";
}

/// What is endless or not a number is null.
TrialJson sized(double value) {
    return std::isfinite(value) ? TrialJson(std::abs(value) < 1e-9 ? 0.0 : value) : TrialJson(nullptr);
}
TrialJson degreesOf(double radians) {
    return sized(radians / trial::degree);
}
TrialJson placed(const Vec3& p) {
    return TrialJson::array({sized(p.x()), sized(p.y()), sized(p.z())});
}
TrialJson placed(const Vec2& p) {
    return TrialJson::array({sized(p.x()), sized(p.y())});
}

TrialJson massJson(const ride::MassProperties& m) {
    TrialJson inertia = TrialJson::array();
    for (int row = 0; row < 3; ++row) inertia.push_back(placed(Vec3(m.inertia.row(row).transpose())));
    return {{"mass_kg", m.mass}, {"centre_mm", placed(m.centre)}, {"inertia_kg_mm2", std::move(inertia)}};
}

TrialJson lineJson(const trial::Balance& b, const ride::TipLine& line) {
    return {{"over", TrialJson::array({b.wheels[static_cast<std::size_t>(line.from)],
                                       b.wheels[static_cast<std::size_t>(line.to)]})},
            {"distance_mm", line.distance},
            {"angle_deg", degreesOf(line.angle)}};
}

TrialJson balanceJson(const trial::Balance& b) {
    TrialJson parts = TrialJson::array(), wheels = TrialJson::array(), lines = TrialJson::array(),
              standings = TrialJson::array(), winds = TrialJson::array(), changes = TrialJson::array();
    for (const trial::LoadPart& p : b.load.parts)
        parts.push_back({{"name", p.name}, {"mass_kg", p.mass}, {"centre_mm", placed(p.centre)}});
    for (std::size_t i = 0; i < b.wheels.size(); ++i)
        wheels.push_back({{"name", b.wheels[i]}, {"at_mm", placed(b.stance.wheels[i])}});
    for (const ride::TipLine& line : b.lines) lines.push_back(lineJson(b, line));
    for (const trial::Standing& s : b.standings)
        standings.push_back({{"on", s.words},
                             {"slope_deg", degreesOf(s.slope.angle)},
                             {"stands", s.stands},
                             {"wheel_loads_n", s.loads}});
    for (const trial::WindCase& w : b.winds)
        winds.push_back({{"wind", w.words},
                         {"area_mm2", w.area},
                         {"tips_km_h", sized(w.limits.tips / kmhOf)},
                         {"slides_km_h", sized(w.limits.slides / kmhOf)}});
    for (const trial::BalanceChange& c : b.changes)
        changes.push_back({{"change", c.words}, {"least_tip_deg", degreesOf(c.angle)}});
    TrialJson out{{"aboard", massJson(b.load.all)},
                  {"empty", massJson(b.load.empty)},
                  {"parts", std::move(parts)},
                  {"unweighed", b.load.unweighed},
                  {"wheels", std::move(wheels)},
                  {"tip_lines", std::move(lines)},
                  {"least_tip", lineJson(b, b.least.line)},
                  {"standing", std::move(standings)}};
    out["carried_kg"] = b.rating ? TrialJson(b.rating->carried) : TrialJson(nullptr);
    out["rated_kg"] = b.rated > 0 ? TrialJson(b.rated) : TrialJson(nullptr);
    out["turn"] = {{"radius_mm", b.radius},
                   {"speed_km_h", b.speed / kmhOf},
                   {"tips_km_h", sized(b.turn.least() / kmhOf)}};
    out["wind"] = std::move(winds);
    out["changes"] = std::move(changes);
    return out;
}

TrialJson viewJson(const trial::View& v) {
    TrialJson openings = TrialJson::array();
    for (const trial::OpeningSeen& o : v.openings)
        openings.push_back({{"opening", o.opening},
                            {"plate", o.plate},
                            {"field_deg", degreesOf(o.field)},
                            {"ahead", o.ahead},
                            {"raise_mm", sized(o.raise)},
                            {"lower_edge_by_mm", sized(o.lower)}});
    return {{"who", v.who},
            {"eye_mm", placed(v.eye)},
            {"ground_from_mm", sized(v.beyondNose)},
            {"wanted_from_mm", sized(v.wanted)},
            {"stops_in_mm", sized(v.stops)},
            {"field_port_deg", degreesOf(v.field.port)},
            {"field_starboard_deg", degreesOf(v.field.starboard)},
            {"field_in_all_deg", degreesOf(v.field.total)},
            {"wanted_each_side_deg", degreesOf(v.wantedField)},
            {"blind_area_mm2", sized(v.map.blindArea)},
            {"blind_within_mm", sized(v.map.reach)},
            {"openings", std::move(openings)}};
}

TrialJson routeJson(const std::vector<trial::RouteResult>& route) {
    TrialJson list = TrialJson::array();
    for (const trial::RouteResult& r : route) {
        TrialJson lifts = TrialJson::array(), afloat = nullptr;
        for (const trial::RouteResult::Lift& l : r.lifts)
            lifts.push_back({{"wheels", l.wheels}, {"drives", l.drives}, {"gap_mm", l.gap}});
        if (r.afloat)
            afloat = {{"rise_mm", TrialJson::array({sized(r.afloat->down), sized(r.afloat->up)})},
                      {"nose_up_deg",
                       TrialJson::array({degreesOf(r.afloat->noseDown), degreesOf(r.afloat->noseUp)})}};
        list.push_back({{"name", r.name},
                        {"kind", r.kind},
                        {"outcome", outcomeName(r.outcome)},
                        {"margin_mm", r.outcome == Outcome::unknown ? TrialJson(nullptr) : sized(r.margin)},
                        {"measure", r.measure},
                        {"binds", r.binds},
                        {"at_mm", r.at ? placed(*r.at) : TrialJson(nullptr)},
                        {"lifts", std::move(lifts)},
                        {"afloat", std::move(afloat)},
                        {"words", r.words}});
    }
    return list;
}

TrialJson rampsJson(const trial::Ramps& r) {
    return {{"approach_deg", degreesOf(r.angles.approach)},   {"approach_binds", r.approach},
            {"departure_deg", degreesOf(r.angles.departure)}, {"departure_binds", r.departure},
            {"breakover_deg", degreesOf(r.angles.breakover)}, {"breakover_binds", r.breakover}};
}

TrialJson exitsJson(const std::vector<trial::WayOut>& ways) {
    TrialJson list = TrialJson::array();
    for (const trial::WayOut& w : ways) {
        TrialJson path = TrialJson::array();
        for (const Vec3& p : w.path) path.push_back(placed(p));
        list.push_back({{"opening", w.opening},
                        {"clear_mm", TrialJson::array({w.width, w.height})},
                        {"wanted_mm", TrialJson::array({w.wantedWidth, w.wantedHeight})},
                        {"for", w.who},
                        {"lid_mass_kg", w.lidMass},
                        {"catches_hold_n", w.catches},
                        {"catches_may_be_pushed", w.frees},
                        {"path_mm", std::move(path)},
                        {"in_the_way", w.inTheWay},
                        {"outcome", outcomeName(w.outcome)}});
    }
    return list;
}

} // namespace

nlohmann::ordered_json trialReport(const Evaluation& e) {
    if (!e.trial) return nullptr;
    const trial::Trial& t = *e.trial;
    TrialJson views = TrialJson::array(), gaps = TrialJson::array();
    for (const trial::View& v : t.views) views.push_back(viewJson(v));
    for (const trial::Gap& g : t.gaps)
        gaps.push_back({{"what", g.what},
                        {"size_mm", g.size},
                        {"moving", g.moving},
                        {"rule", g.rule},
                        {"at_mm", placed(g.at)}});
    TrialJson turning = nullptr;
    if (t.turning)
        turning = {{"diameter_mm", t.turning->path.diameter()},
                   {"swept_mm", t.turning->path.width()},
                   {"radius_mm", t.turning->path.radius},
                   {"outer", t.turning->outer},
                   {"inner", t.turning->inner}};
    return {{"stands", t.balance ? balanceJson(*t.balance) : TrialJson(nullptr)},
            {"route", routeJson(t.route)},
            {"turning", std::move(turning)},
            {"ramps", t.ramps ? rampsJson(*t.ramps) : TrialJson(nullptr)},
            {"sight", std::move(views)},
            {"exits", exitsJson(t.waysOut)},
            {"gaps", std::move(gaps)},
            {"open_area_mm2", {{"low", t.air.low}, {"high", t.air.high}}},
            {"cautions", t.cautions}};
}

std::string trialText(const Evaluation& e) {
    if (!e.trial) return {};
    const trial::Trial& t = *e.trial;
    std::string out;
    const auto line = [&](std::string name, const std::string& value) {
        name.resize(16, ' ');
        out += "  " + name + value + "\n";
    };
    if (t.balance) {
        const trial::Balance& b = *t.balance;
        line("mass", printMass(b.load.all.mass, e.units) + " in all, its middle " +
                         printLength(b.load.all.centre.z(), e.units) + " above the ground");
        line("tips at", printAngle(b.least.angle) + ", over " +
                            b.wheels[static_cast<std::size_t>(b.least.line.from)] + " and " +
                            b.wheels[static_cast<std::size_t>(b.least.line.to)]);
        if (b.rating)
            line("carries",
                 printMass(b.rating->carried, e.units) + " of " + printMass(b.rated, e.units) + " rated");
    }
    if (t.turning) line("turns in", printLength(t.turning->path.diameter(), e.units) + " across");
    for (const trial::View& v : t.views)
        line("sees ground", std::isfinite(v.beyondNose)
                                ? "from " + printLength(v.beyondNose, e.units) + " ahead of the body"
                                : "nowhere ahead");
    for (const trial::RouteResult& r : t.route) line(&r == t.route.data() ? "route" : "", r.words);
    if (!t.cautions.empty()) {
        out += "  before each ride\n";
        for (const std::string& caution : t.cautions) out += "    " + caution + "\n";
    }
    return out.empty() ? out : "\nRide\n" + out;
}

} // namespace slab
