#pragma once
// What is tried out, and one file each for what is looked at.
#include "core/donor/donor.h"
#include "core/mechanisms/mechanisms.h"
#include "core/plates/lids.h"
#include "core/plates/openings.h"
#include "core/route/crossing.h"
#include "core/route/footprint.h"
#include "core/trial/figures.h"
#include "core/trial/trial.h"

namespace slab::trial {

/// An opening of the document in one plate.
struct PlateOpening {
    std::size_t plate = 0; ///< index in the plates
    FlatOpening flat;
    std::string purpose;
    bool operator==(const PlateOpening&) const = default;
};

/// A plate, a bought part, or a solid of donor or rider, as the points that bound it, in the axes of the way
/// (wayOf()).
struct Bulk {
    std::string name;
    bool plate = false;
    bool person = false;
    bool donor = false;
    bool low = false;                        ///< stands on the ground, as wheels do
    std::vector<Vec3> points{};              ///< round ones in facets from outside
    std::vector<std::vector<Vec3>> pieces{}; ///< convex pieces of it; none = the points are one
};

/// The plan's hull with the owner of each corner.
struct OwnedFootprint {
    route::Footprint footprint;
    std::vector<std::size_t> owner; ///< index in the bulks, one a corner
    double top = 0;                 ///< greatest height, mm
    std::size_t highest = 0;        ///< whose
    Vec3 highestAt = Vec3::Zero();
};
/// Side view in the donor's own way forward: axles, and the lower edges of all that is not on wheels.
struct OwnedSide {
    route::SideView view;
    std::vector<std::size_t> owner;               ///< of each chain of undersides, index in the bulks
    std::vector<std::string> axles;               ///< wheels of each axle, in words
    std::vector<std::vector<std::size_t>> wheels; ///< of each axle, index in the wheels given
};
/// Where a floating shell hangs on its donor.
struct FloatLink {
    std::string name; ///< of the linkage
    Vec3 at = Vec3::Zero();
};

/// How far to go.
enum class Depth {
    live,   ///< what moves with the hand: balance, route, turning, exits
    survey, ///< what is seen straight ahead as well
    windy,  ///< wind as well
    full    ///< changes, the map of what is seen, and the way out round a bend as well
};

/// The finished thing as shown.
struct Stuff {
    const PlateSet& plates;
    const StockSet& stock;
    const std::vector<BoughtPart>& bought;
    const DonorSet& donor;
    const RideFigures& ride;
    const std::vector<RouteFigure>& route;
    const std::vector<PlateOpening>& openings;
    const FloatRange& floating;
    std::vector<double> bare{}; ///< areas of skin faces that no plate closes, mm², …
    std::vector<Vec3> bareAt{}; ///< … and their middles
    UnitStyle units;
    Depth depth = Depth::full;
    std::optional<FloatLink> link{}; ///< nothing where the shell does not float
    std::vector<Gap> closing{};      ///< between what moves and what it moves past; where sweeps are known
    std::vector<Bulk> bulks{};       ///< by gather()
    Load load{};                     ///< by gather()
    Expected<OwnedFootprint> plan{}, emptyPlan{}; ///< with everybody and with nobody aboard; by gather()
    OwnedSide side{}; ///< donor and shell as one, on the donor's wheels; by gather()
};

/// Fills in what several looks need.
void gather(Stuff& stuff);

/// Everything with a mass. Adhesive lies along the joints.
[[nodiscard]] Load loadOf(const Stuff& stuff);

/// One line for people.
[[nodiscard]] std::string routeWords(const Stuff& stuff, const RouteResult& result);

/// Nothing without three wheels that are not in line, and a mass.
[[nodiscard]] std::optional<Balance> balanceOf(const Stuff& stuff);
void tellBalance(const Stuff& stuff, const Balance& balance, std::vector<Finding>& findings);

/// In the order of the route.
[[nodiscard]] std::vector<RouteResult> passRoute(const Stuff& stuff, const std::optional<Balance>& balance);
[[nodiscard]] std::optional<Turning> turningOf(const Stuff& stuff);
void tellRoute(const Stuff& stuff, const std::vector<RouteResult>& route, std::vector<Finding>& findings);

/// From the eyes of whoever drives.
[[nodiscard]] std::vector<View> viewsOf(const Stuff& stuff);
void tellViews(const Stuff& stuff, const std::vector<View>& views, std::vector<Finding>& findings);

[[nodiscard]] std::vector<WayOut> waysOutOf(const Stuff& stuff);
[[nodiscard]] std::vector<Gap> gapsOf(const Stuff& stuff);
[[nodiscard]] Air airOf(const Stuff& stuff);
void tellLeaving(const Stuff& stuff, const Trial& trial, std::vector<Finding>& findings);

/// All of it.
[[nodiscard]] Trial tryOut(Stuff stuff);

} // namespace slab::trial
