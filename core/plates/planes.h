#pragma once
// Every plane that a build uses, each kept once: cells then know "the same plane" by number, not by
// tolerance.
#include "core/geometry/vec.h"
#include <vector>

namespace slab::plates {

/// One side of a plane of the table. Not flipped: the points with depth >= 0 (against the normal).
struct Half {
    int plane = -1;
    bool flip = false;
    [[nodiscard]] Half other() const { return {plane, !flip}; }
    bool operator==(const Half&) const = default;
};

class PlaneTable {
public:
    /// @param centre, size  of the body; planes whose distance differs by less than size * 1e-10 there are
    /// one
    explicit PlaneTable(const Vec3& centre = Vec3::Zero(), double size = 1000)
        : m_centre(centre), m_size(size) {}
    /// The half-space of points inside `plane`; finds an equal or opposite plane that is already there.
    Half add(const Plane& plane);
    [[nodiscard]] const Plane& operator[](int plane) const {
        return m_planes[static_cast<std::size_t>(plane)];
    }
    /// Signed distance, positive outside the half-space, mm.
    [[nodiscard]] double outside(const Half& half, const Vec3& p) const {
        const double d = (*this)[half.plane].distance(p);
        return half.flip ? -d : d;
    }
    [[nodiscard]] Vec3 outward(const Half& half) const {
        return half.flip ? Vec3(-(*this)[half.plane].normal) : (*this)[half.plane].normal;
    }
    /// A vertex this near a plane counts as on it, mm.
    [[nodiscard]] double eps() const { return m_size * 2e-11; }
    [[nodiscard]] std::size_t size() const { return m_planes.size(); }

private:
    Vec3 m_centre;
    double m_size;
    std::vector<Plane> m_planes;
    std::vector<double>
        m_away; ///< of each plane from the centre, mm: most others are passed over by it alone
};

} // namespace slab::plates
