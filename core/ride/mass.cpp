#include "core/ride/mass.h"

namespace slab::ride {

namespace {

/// Volume and first and second moments of a closed polyhedron about `origin`, mm³, mm⁴, mm⁵.
struct Moments {
    double volume = 0;
    Vec3 first = Vec3::Zero();
    Mat3 second = Mat3::Zero();
};

Moments momentsOf(const Polyhedron& solid, const Vec3& origin) {
    Moments sum;
    for (const PolyFace& face : solid.faces)
        for (const auto& loop : face.loops)
            for (std::size_t i = 1; i + 1 < loop.size(); ++i) {
                const Vec3 a = solid.vertices[static_cast<std::size_t>(loop[0])] - origin;
                const Vec3 b = solid.vertices[static_cast<std::size_t>(loop[i])] - origin;
                const Vec3 c = solid.vertices[static_cast<std::size_t>(loop[i + 1])] - origin;
                const double det = a.dot(b.cross(c));
                const Vec3 all = a + b + c;
                sum.volume += det / 6;
                sum.first += det / 24 * all;
                sum.second +=
                    det / 120 *
                    (a * a.transpose() + b * b.transpose() + c * c.transpose() + all * all.transpose());
            }
    return sum;
}

/// Inertia about the point that second moments are taken about.
Mat3 inertiaOf(const Mat3& second) {
    return second.trace() * Mat3::Identity() - second;
}

} // namespace

Expected<MassProperties> pointMass(double mass, const Vec3& at) {
    if (!(mass >= 0) || !std::isfinite(mass) || !at.allFinite())
        return fail("out-of-range", "A part's mass must be 0 or more, and its place must be known.", {},
                    "Give the mass in kg and the place.");
    return MassProperties{mass, at, Mat3::Zero()};
}

Expected<MassProperties> solidOfMass(const Polyhedron& solid, double mass) {
    if (!(mass >= 0) || !std::isfinite(mass))
        return fail("out-of-range", "A part's mass must be 0 or more.", {}, "Give the mass in kg.");
    const Box3 box = bounds(solid);
    const Vec3 origin = (box.min + box.max) / 2;
    const Moments m = momentsOf(solid, origin);
    if (!(m.volume > 1e-12 * box.size().prod()) || !std::isfinite(m.volume))
        return fail("no-volume", "The solid encloses no volume.", {},
                    "Check that it is closed and looks outward.");
    const Vec3 centre = m.first / m.volume;
    const Mat3 second = m.second - m.volume * centre * centre.transpose();
    return MassProperties{mass, origin + centre, inertiaOf(second) * (mass / m.volume)};
}

Expected<MassProperties> solidMass(const Polyhedron& solid, double density) {
    if (!(density > 0) || !std::isfinite(density))
        return fail("out-of-range", "A density must be above 0.", {}, "Give the density in kg/m³.");
    return solidOfMass(solid, std::max(volume(solid), 0.0) * density * 1e-9);
}

MassProperties combined(const std::vector<MassProperties>& parts) {
    MassProperties all;
    for (const MassProperties& part : parts) {
        all.mass += part.mass;
        all.centre += part.mass * part.centre;
    }
    if (all.mass > 0)
        all.centre /= all.mass;
    else
        all.centre.setZero();
    for (const MassProperties& part : parts) {
        const Vec3 off = part.centre - all.centre;
        all.inertia += part.inertia + part.mass * inertiaOf(off * off.transpose());
    }
    return all;
}

MassProperties moved(const MassProperties& part, const Mat3& rotation, const Vec3& by) {
    return {part.mass, rotation * part.centre + by, rotation * part.inertia * rotation.transpose()};
}

Expected<double> inertiaAbout(const MassProperties& part, const Vec3& point, const Vec3& direction) {
    const double length = direction.norm();
    if (!(length > 0) || !std::isfinite(length))
        return fail("out-of-range", "An axis needs a direction.", {}, "Give a direction that is not zero.");
    const Vec3 axis = direction / length;
    return axis.dot(part.inertia * axis) + part.mass * (part.centre - point).cross(axis).squaredNorm();
}

} // namespace slab::ride
