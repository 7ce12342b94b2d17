#pragma once
// A vehicle made of a few solids and weights, tried out without a document.
#include "core/geometry/convex.h"
#include "core/trial/outline.h"
#include "core/trial/stuff.h"
#include "core/trial/words.h"
#include <gtest/gtest.h>

namespace slab::trial::test {

/// What Stuff refers to, kept alive.
struct Rig {
    PlateSet plates;
    StockSet stock;
    std::vector<BoughtPart> bought;
    DonorSet donor;
    RideFigures ride;
    std::vector<RouteFigure> route;
    std::vector<PlateOpening> openings;
    FloatRange floating;

    [[nodiscard]] Stuff stuff() const {
        Stuff out{plates, stock, bought, donor, ride, route, openings, floating, {}, {}, {}};
        gather(out);
        return out;
    }
    void wheel(double x, double y, double radius, WheelRole role = WheelRole::fixed) {
        donor.chassis.wheels.push_back(
            {"wheel " + std::to_string(donor.chassis.wheels.size() + 1), Vec3(x, y, 0), radius, 40, role});
    }
    void box(const std::string& name, const Vec3& min, const Vec3& max) {
        FitSolid solid;
        solid.name = name;
        solid.group = "donor";
        solid.shape = makeBoxSolid(min, max);
        donor.solids.push_back(std::move(solid));
    }
    void weight(const std::string& name, double mass, const Vec3& at) {
        ride.ballast.push_back({name, mass, at});
    }
    /// Nothing but what the rig is given: no adhesive, and nobody aboard.
    Rig() { ride.crossSlope = 0; }
};

} // namespace slab::trial::test
