#pragma once
// A vehicle on two or three axles driven over a ground profile, seen from the side. mm and radians.
// Rigid, tyres and springs included: what gives way is a question for the donor's maker.
#include "core/route/profile.h"
#include <algorithm>
#include <limits>

namespace slab::route {

struct Axle {
    double x = 0;      ///< of its centre, vehicle axes, mm
    double radius = 0; ///< of its wheels, mm, 0 or more; on level ground the centre stands that high
    bool operator==(const Axle&) const = default;
};
/// All in the vehicle's axes: x forward, z up from level ground.
struct SideView {
    std::vector<Axle> axles;    ///< two to six, at different x
    Vec2 centre = Vec2::Zero(); ///< of what they carry: decides which axles carry it, where there are three
    std::vector<Ring>
        undersides; ///< chains of points that must stay above the ground; one point is a chain too
    bool operator==(const SideView&) const = default;
};
/// @error "axles-few", "axles-alike" (two at one x), "out-of-range"
[[nodiscard]] Expected<void> checkSideView(const SideView& vehicle);

/// How it stands: a point p of the vehicle is at `at` + p turned by `pitch`.
struct SidePose {
    Vec2 at = Vec2::Zero();
    double pitch = 0;         ///< radians, above 0 nose up
    std::vector<double> gaps; ///< of each axle to the ground, straight down, mm; 0 where it stands
    bool tips = false;        ///< its centre is not between the wheels that it stands on
    [[nodiscard]] Vec2 place(const Vec2& p) const { return at + turned() * p; }
    [[nodiscard]] Eigen::Matrix2d turned() const { return Eigen::Rotation2Dd(pitch).toRotationMatrix(); }
    bool operator==(const SidePose&) const = default;
};
/// Set on the ground with its origin over x. Of more than two axles it stands on the two about its centre of
/// mass with which no other is in the ground.
/// @param near  a pitch to look about first
/// @error as checkSideView() and checkProfile(); "no-stance" if it cannot stand there (steeper than 75°)
[[nodiscard]] Expected<SidePose> standAt(const GroundProfile& ground, const SideView& vehicle, double x,
                                         double near = 0);
/// Least height of a chain over the ground, straight down, mm; below 0 it is in it. Exact: its straight
/// pieces against corners of the ground too.
struct GroundGap {
    double height = std::numeric_limits<double>::infinity();
    Vec2 at = Vec2::Zero(); ///< of the underside, vehicle axes
    int chain = -1;
    double x = 0; ///< of the vehicle's origin
    bool operator==(const GroundGap&) const = default;
};
/// One for each chain.
[[nodiscard]] std::vector<GroundGap> gapsUnder(const GroundProfile& ground, const SideView& vehicle,
                                               const SidePose& pose);
/// The least of them; infinite if there are none.
[[nodiscard]] GroundGap gapUnder(const GroundProfile& ground, const SideView& vehicle, const SidePose& pose);

/// The least or most of something along the way.
struct Along {
    double value = 0;
    double x = 0; ///< of the vehicle's origin
    bool operator==(const Along&) const = default;
};
struct Crossing {
    GroundGap clearance;          ///< least of all
    std::vector<GroundGap> under; ///< least of each chain; empty where only the least of all was asked for
    Along noseDown, noseUp;       ///< least and most pitch, radians
    std::vector<Along> lifts;     ///< greatest gap under each axle, mm
    std::vector<Climb> climbs;    ///< what is hardest for each axle's wheels; none for points
    bool tips = false;            ///< its centre of mass is beyond the wheels somewhere
    std::vector<SidePose> poses;  ///< at even steps, for pictures
    int steps = 0;                ///< how many even steps the last round had
    double change = 0;            ///< that the last doubling of steps made, mm
    [[nodiscard]] bool blocked() const {
        return std::any_of(climbs.begin(), climbs.end(), [](const Climb& c) { return c.blocked; });
    }
    bool operator==(const Crossing&) const = default;
};
/// Driven from one x of its origin to another, step by step; steps are doubled, and the best of each refined,
/// until twice running nothing changes by more than `tolerance` mm (pitch: at the wheelbase's end).
/// @param tolerance  mm, above 0
/// @param eachChain  refine the least of every chain, not only the least of all
/// @error as standAt()
[[nodiscard]] Expected<Crossing> drive(const GroundProfile& ground, const SideView& vehicle, double from,
                                       double to, double tolerance = 0.02, bool eachChain = true);

/// The same while a hand moves: at even steps, of which only the least clearance is refined; no poses.
/// @param steps  1 or more
/// @error as standAt(); "out-of-range"
[[nodiscard]] Expected<Crossing> quickDrive(const GroundProfile& ground, const SideView& vehicle, double from,
                                            double to, int steps = 96);

/// A body on wheels of its own that floats on a donor: at `link` it slides up and down and pitches, but goes
/// along.
struct Linked {
    SideView donor, body;     ///< in the same axes, as they stand on level ground
    Vec2 link = Vec2::Zero(); ///< the point of both that goes along
};
struct LinkTravel {
    Along down, up;         ///< least and most of body over donor at the link, against level ground, mm
    Along noseDown, noseUp; ///< least and most pitch of the body against the donor, radians
    int steps = 0;
    double change = 0; ///< as in Crossing
};
/// Rigid lengths: wheels keep their distances along the vehicle, not along the level.
/// @error as drive()
[[nodiscard]] Expected<LinkTravel> linkTravel(const GroundProfile& ground, const Linked& linked, double from,
                                              double to, double tolerance = 0.02);
/// The same while a hand moves: at even steps only.
/// @error as linkTravel(); "out-of-range"
[[nodiscard]] Expected<LinkTravel> quickLinkTravel(const GroundProfile& ground, const Linked& linked,
                                                   double from, double to, int steps = 64);
/// The same for points in place of wheels and distances kept along the level, as it is drawn on paper; exact,
/// since everything is straight between the places where a wheel meets a corner of the ground.
/// @param ground  without upright steps
/// @error as linkTravel(); "profile-order" at an upright step; "axles-few" unless both have two axles
[[nodiscard]] Expected<LinkTravel> linkTravelOnPaper(const GroundProfile& ground, const Linked& linked,
                                                     double from, double to);

} // namespace slab::route
