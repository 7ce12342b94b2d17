// The punch list of a boat that is wrong in four ways says those things, where, and what to do; nothing else
// of the ride.
#include "tests/evaluate/samples.h"
#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>

using namespace slab;
using namespace slab::test;

namespace {

std::map<std::string, Finding> loudOf(const Evaluation& e) {
    std::map<std::string, Finding> out;
    for (const Finding& f : e.findings)
        if (f.severity != Severity::note) {
            EXPECT_FALSE(out.contains(f.code) && f.code != "fit-tight") << f.code << " twice: " << f.message;
            out[f.code] = f;
        }
    return out;
}

bool says(const Finding& f, const std::string& words) {
    return f.message.find(words) != std::string::npos;
}
bool advises(const Finding& f, const std::string& words) {
    return f.remedy.find(words) != std::string::npos;
}
bool about(const Finding& f, const std::string& thing) {
    return std::find(f.about.begin(), f.about.end(), thing) != f.about.end();
}

} // namespace

TEST(Ride, PunchListOfABoatWrongInFourWays) {
    Project boat = sample("harbour-fire-boat");
    boat.rider.sex = "male";
    boat.rider.percentile = "99"; // too big for his feet, for the way out and for the donor's rated load
    boat.route.clear();
    boat.route.resize(2);
    boat.route[0].name = "shop door";
    boat.route[0].width = "34 in"; // 32 in and a little: ADA 2010 404.2.3 asks for 32 in
    boat.route[0].height = "79 in";
    boat.route[1].name = "loading ramp";
    boat.route[1].kind = "ramp";
    boat.route[1].slope = "1/8";
    boat.route[1].rise = "12 in";
    for (Opening& o : boat.openings)
        if (o.name == "sight") o.v = "-0.35 m"; // too low
    const Evaluation e = evaluated(boat, Effort::verdict);
    auto loud = loudOf(e);
    std::vector<std::string> codes;
    for (const auto& [code, f] : loud) codes.push_back(code);
    EXPECT_EQ(codes, (std::vector<std::string>{"exit-small", "fit-tight", "load-share", "ramp-steep",
                                               "route-blocked", "sight-ahead", "sight-ground"}));
    EXPECT_TRUE(says(loud["fit-tight"], "foot"));
    EXPECT_TRUE(about(loud["exit-small"], "opening:exit") && advises(loud["exit-small"], "wider"));
    const Finding& door = loud["route-blocked"];
    EXPECT_TRUE(says(door, "shop door") && says(door, "short across") && says(door, "rub rail"))
        << door.message;
    EXPECT_TRUE(about(door, "document:/route/0") && about(door, "plate:rub rail port/plate"));
    EXPECT_TRUE(advises(door, "narrower"));
    EXPECT_TRUE(door.at.has_value());
    const Finding& ramp = loud["ramp-steep"];
    EXPECT_TRUE(says(ramp, "loading ramp rises 1:8 (7.1°)") && says(ramp, "1:12")) << ramp.message;
    EXPECT_TRUE(advises(ramp, "12′ 0″ long")) << ramp.remedy; // 12 in at 1:12
    const Finding& slit = loud["sight-ahead"];
    EXPECT_TRUE(says(slit, "opening sight lies") && says(slit, "below the rider's eyes")) << slit.message;
    EXPECT_TRUE(about(slit, "opening:sight") && about(slit, "plate:wheelhouse/front"));
    EXPECT_TRUE(advises(slit, "Raise it by")) << slit.remedy;
    EXPECT_TRUE(slit.at.has_value());

    // What it advises, done: the slit goes up by what is told and a little.
    const double raise = [&] {
        for (const trial::OpeningSeen& o : e.trial->views.front().openings)
            if (o.opening == "sight") return o.raise;
        return 0.0;
    }();
    EXPECT_GT(raise, 100);
    for (Opening& o : boat.openings)
        if (o.name == "sight") o.v = printExact(-350 + (raise + 20) / e.scale, Unit::mm);
    const Evaluation mended = evaluated(boat, Effort::verdict);
    EXPECT_FALSE(loudOf(mended).contains("sight-ahead"));
}

TEST(Ride, IsReported) {
    const Project boat = sample("harbour-fire-boat");
    const Evaluation e = evaluated(boat, Effort::verdict);
    const auto report = nlohmann::json::parse(reportJson(boat, e));
    const auto& ride = report["ride"];
    EXPECT_EQ(ride["route"].size(), boat.route.size());
    for (const auto& part : ride["route"]) EXPECT_EQ(part["outcome"], "passes") << part["words"];
    EXPECT_GT(ride["stands"]["least_tip"]["angle_deg"].get<double>(), 10);
    EXPECT_EQ(ride["exits"][0]["outcome"], "tight") << "the seat's back stands in the way";
    EXPECT_FALSE(ride["cautions"].empty());
    const double carried = ride["stands"]["carried_kg"], all = ride["stands"]["aboard"]["mass_kg"];
    EXPECT_NEAR(carried, all - 110, 1e-9);
    EXPECT_NE(reportText(boat, e).find("\nRide\n"), std::string::npos);
}
