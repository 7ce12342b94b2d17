#include "core/donor/placing.h"

namespace slab {

namespace {

template <class Move>
void carry(DonorSet& set, const Move& moved) {
    const auto solids = [&](std::vector<FitSolid>& all) {
        for (FitSolid& s : all)
            for (Vec3& p : s.shape.points) p = moved(p);
    };
    solids(set.solids);
    for (DonorPose& pose : set.poses) solids(pose.solids);
    for (Wheel& w : set.chassis.wheels) w.at = moved(w.at);
    set.chassis.centre = moved(set.chassis.centre);
    set.chassis.axle = moved(set.chassis.axle);
    for (ReachPoint& p : set.chassis.service) p.at = moved(p.at);
    for (Person& who : set.people)
        for (Vec3* p : {&who.centre, &who.eye, &who.seat}) *p = moved(*p);
}

} // namespace

void shift(DonorSet& set, const Vec3& by) {
    carry(set, [&](const Vec3& p) -> Vec3 { return p + by; });
    set.place += by;
    for (Person& who : set.people) who.top += by.z();
}

void put(DonorSet& set, const Mat3& turn, const Vec3& place) {
    carry(set, [&](const Vec3& p) -> Vec3 { return place + turn * p; });
    set.place = place;
    set.chassis.forward = turn * set.chassis.forward;
    for (ReachPoint& p : set.chassis.service) p.from = turn * p.from;
    for (Person& who : set.people) who.top += place.z();
}

} // namespace slab
