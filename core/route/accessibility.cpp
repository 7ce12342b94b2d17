#include "core/route/accessibility.h"
#include <algorithm>
#include <numbers>

namespace slab::route {

namespace {

constexpr double inch = 25.4, degree = std::numbers::pi / 180, pound = 0.45359237, mile = 1609344.0 / 3600;
constexpr auto mm = Measure::millimetres;
constexpr auto kg = Measure::kilograms;
constexpr auto speed = Measure::millimetresPerSecond;
constexpr std::string_view quoted = "quotation in a public document";
constexpr std::string_view board = "access-board.gov/ada, quoted";
constexpr std::string_view curb = "corada.com/documents/2010ADAStandards/406-2";
constexpr std::string_view awm = "inclusivedesignmobility.wordpress.com/2013/04/29 (quotes the report)";
constexpr std::string_view rail = "Rail Vehicle Accessibility, transportable wheelchair annex, quoted";
constexpr std::string_view ukMaker = "quoted in a maker's manual";
constexpr std::string_view medical = "HME trade press, 2019-02, p. 14";

// 2010 ADA Standards, PROWAG, 49 CFR 37.3 (old), AWM (University at Buffalo IDeA, 2010), UK and US classes of
// chairs. Where the standard prints inches, millimetres are computed from them (36 in = 914.4, which it
// rounds to 915).
const std::vector<AccessFigure> table{
    {"turning-circle", "circular turning space, diameter", 60 * inch, mm, false, "ADA 2010 304.3.1", board,
     Basis::read},
    {"t-turn-square", "T-turn: side of the square it lies in", 60 * inch, mm, false, "ADA 2010 304.3.2",
     "ada.gov/descript/reg3a/fig3des.htm", Basis::read},
    {"t-turn-width", "T-turn: width of arms and base", 36 * inch, mm, false, "ADA 2010 304.3.2",
     "ada.gov/descript/reg3a/fig3des.htm", Basis::read},
    {"t-turn-arm", "T-turn: arms clear each way", 12 * inch, mm, false, "ADA 2010 304.3.2",
     "ada.gov/descript/reg3a/fig3des.htm", Basis::read},
    {"t-turn-base", "T-turn: base clear", 24 * inch, mm, false, "ADA 2010 304.3.2",
     "ada.gov/descript/reg3a/fig3des.htm", Basis::read},
    {"floor-width", "clear floor space, width", 30 * inch, mm, false, "ADA 2010 305.3", quoted, Basis::read},
    {"floor-length", "clear floor space, length", 48 * inch, mm, false, "ADA 2010 305.3", quoted,
     Basis::read},
    {"route-width", "clear width of a route", 36 * inch, mm, false, "ADA 2010 403.5.1", quoted, Basis::read},
    {"door-width", "clear width of a door, open 90°", 32 * inch, mm, false, "ADA 2010 404.2.3", quoted,
     Basis::read},
    {"threshold", "height of a threshold", 0.5 * inch, mm, true, "ADA 2010 404.2.5", quoted, Basis::read},
    {"threshold-upright", "upright part of a level change", 0.25 * inch, mm, true, "ADA 2010 303.2", quoted,
     Basis::read},
    {"threshold-bevel", "bevel of a level change above that", 1 / 2.0, Measure::ratio, true, "ADA 2010 303.3",
     quoted, Basis::read},
    {"ramp-slope", "running slope of a ramp", 1 / 12.0, Measure::ratio, true, "ADA 2010 405.2", quoted,
     Basis::read},
    {"ramp-slope-6in", "existing sites, rise up to 6 in", 1 / 10.0, Measure::ratio, true, "ADA 2010 405.2",
     quoted, Basis::read},
    {"ramp-slope-3in", "existing sites, rise up to 3 in", 1 / 8.0, Measure::ratio, true, "ADA 2010 405.2",
     quoted, Basis::read},
    {"cross-slope", "cross slope", 1 / 48.0, Measure::ratio, true, "ADA 2010 405.3", quoted, Basis::read},
    {"ramp-rise", "rise of one ramp run", 30 * inch, mm, true, "ADA 2010 405.6",
     "corada.com/documents/1991ADAStandards/4-8-2", Basis::read},
    {"counter-slope", "counter slope of gutter and street at a kerb ramp", 1 / 20.0, Measure::ratio, true,
     "ADA 2010 406.2", curb, Basis::read},
    {"flare-slope", "slope of a kerb ramp's flares", 1 / 10.0, Measure::ratio, true, "ADA 2010 406.3", curb,
     Basis::read},
    {"flare-slope-no-landing", "the same where there is no landing", 1 / 12.0, Measure::ratio, true,
     "ADA 2010 406.3", curb, Basis::read},
    {"kerb-landing", "landing at the top of a kerb ramp", 36 * inch, mm, false, "ADA 2010 406.4", curb,
     Basis::read},
    {"prowag-ramp-slope", "kerb ramp in the street", 1 / 12.0, Measure::ratio, true, "PROWAG R304.2.1",
     quoted, Basis::read},
    {"prowag-ramp-length", "length beyond which the slope need not be held", 180 * inch, mm, false,
     "PROWAG R304.2.1", quoted, Basis::read},
    {"grade-change", "change of grade at a gutter, algebraic", 0.133, Measure::ratio, true, "PROWAG R304.5.2",
     quoted, Basis::read},
    {"common-width", "common wheelchair, width", 30 * inch, mm, true, "49 CFR 37.3 (old)", "corada.com",
     Basis::read},
    {"common-length", "common wheelchair, length", 48 * inch, mm, true, "49 CFR 37.3 (old)", "corada.com",
     Basis::read},
    {"common-mass", "common wheelchair, occupied", 600 * pound, kg, true, "49 CFR 37.3 (old)", "corada.com",
     Basis::read},
    {"awm-manual-width", "floor of 95 % of hand-propelled chairs, width", 786, mm, false, "AWM 2010", awm,
     Basis::read},
    {"awm-manual-length", "the same, length", 1362, mm, false, "AWM 2010", awm, Basis::read},
    {"awm-power-width", "floor of 95 % of powered chairs, width", 827, mm, false, "AWM 2010", awm,
     Basis::read},
    {"awm-power-length", "the same, length", 1414, mm, false, "AWM 2010", awm, Basis::read},
    {"awm-scooter-width", "floor of 95 % of scooters, width", 837, mm, false, "AWM 2010", awm, Basis::read},
    {"awm-scooter-length", "the same, length", 1435, mm, false, "AWM 2010", awm, Basis::read},
    {"awm-corner-half", "90° corridor turn that half of all chairs make", 850, mm, false, "AWM 2010", awm,
     Basis::read},
    {"awm-corner-chairs", "90° corridor turn for 95 % of chairs", 1000, mm, false, "AWM 2010", awm,
     Basis::read},
    {"awm-corner-scooters", "90° corridor turn for 95 % of scooters", 1100, mm, false, "AWM 2010", awm,
     Basis::read},
    {"rail-width", "chair on a train, width without 50 mm for each hand", 700, mm, true, "Rail PRM", rail,
     Basis::read},
    {"rail-length", "chair on a train, length without 50 mm for the feet", 1200, mm, true, "Rail PRM", rail,
     Basis::read},
    {"rail-height", "chair on a train with a tall man", 1375, mm, true, "Rail PRM", rail, Basis::read},
    {"rail-turning", "side of the turning square on a train", 1500, mm, false, "Rail PRM", rail, Basis::read},
    {"rail-mass", "chair on a train, laden", 300, kg, true, "Rail PRM", rail, Basis::read},
    {"rail-obstacle", "step that a chair on a train climbs", 50, mm, false, "Rail PRM", rail, Basis::read},
    {"rail-clearance", "its ground clearance", 60, mm, false, "Rail PRM", rail, Basis::read},
    {"rail-dynamic", "its dynamic stability on a slope", 6 * degree, Measure::radians, false, "Rail PRM",
     rail, Basis::read},
    {"rail-static", "its static stability on a slope", 9 * degree, Measure::radians, false, "Rail PRM", "",
     Basis::recalled},
    {"uk3-mass", "UK class 3, unladen", 150, kg, true, "UK class 3", ukMaker, Basis::read},
    {"uk3-width", "UK class 3, width", 850, mm, true, "UK class 3", ukMaker, Basis::read},
    {"uk3-speed", "UK class 3, on the road", 8 * mile, speed, true, "UK class 3", ukMaker, Basis::read},
    {"uk3-speed-pavement", "UK class 3, on the pavement", 4 * mile, speed, true, "UK class 3", ukMaker,
     Basis::read},
    {"uk3-hold", "UK class 3: brake holds on", 1 / 5.0, Measure::ratio, false, "UK class 3", ukMaker,
     Basis::read},
    {"uk2-mass", "UK classes 1 and 2, unladen", 113.4, kg, true, "UK class 2", "public list of classes",
     Basis::read},
    {"uk2-speed", "UK class 2", 4 * mile, speed, true, "UK class 2", "public list of classes", Basis::read},
    {"us2-speed", "US group 2 powered chair", 3 * mile, speed, false, "US CMS group 2", medical, Basis::read},
    {"us2-obstacle", "US group 2: step climbed", 40, mm, false, "US CMS group 2", medical, Basis::read},
    {"us2-slope", "US group 2: dynamic stability", 6 * degree, Measure::radians, false, "US CMS group 2",
     medical, Basis::read},
    {"us3-speed", "US group 3 powered chair", 4.5 * mile, speed, false, "US CMS group 3", medical,
     Basis::read},
    {"us3-obstacle", "US group 3: step climbed", 60, mm, false, "US CMS group 3", medical, Basis::read},
    {"us3-slope", "US group 3: dynamic stability", 7.5 * degree, Measure::radians, false, "US CMS group 3",
     medical, Basis::read},
    {"iso-length", "greatest overall length of a chair", 1200, mm, true, "ISO 7193:1985", "",
     Basis::recalled},
    {"iso-width", "greatest overall width of a chair", 700, mm, true, "ISO 7193:1985", "", Basis::recalled},
    {"iso-height", "greatest overall height of a chair", 1090, mm, true, "ISO 7193:1985", "",
     Basis::recalled},
};

} // namespace

const std::vector<AccessFigure>& accessFigures() {
    return table;
}

std::optional<AccessFigure> accessFigure(std::string_view id) {
    const auto it =
        std::find_if(table.begin(), table.end(), [&](const AccessFigure& f) { return f.id == id; });
    return it == table.end() ? std::nullopt : std::optional(*it);
}

double mostRampSlope(double rise) {
    constexpr double enough = 1e-6; // mm
    const auto slope = [](std::string_view id) { return accessFigure(id)->value; };
    if (rise <= 3 * inch + enough) return slope("ramp-slope-3in");
    return rise <= 6 * inch + enough ? slope("ramp-slope-6in") : slope("ramp-slope");
}

} // namespace slab::route
