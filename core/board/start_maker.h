#pragma once
// What all ready bodies have in common: room for donor and rider, dimensions in round figures, stock,
// openings. Private to the room.
#include "core/donor/donor.h"
#include "core/geometry/polyhedron.h"

namespace slab::detail {

/// A body in the making, at scale 1. Its rear end is at x = 0.
class StartMaker {
public:
    /// @param donor   a document of donor, rider and clearances alone
    /// @param margin  between what is inside and the outside of the plates, mm
    StartMaker(const std::string& title, const std::string& units, const Project& donor, double margin);

    Project project;

    [[nodiscard]] double margin() const { return m_margin; }
    /// Box of donor and rider with their clearances, in donor axes; all of it, or what reaches above a
    /// height.
    [[nodiscard]] Box3 inside(double above = -1e9) const;
    /// Greatest |y| of that box.
    [[nodiscard]] static double half(const Box3& box) { return std::max(-box.min.y(), box.max.y()); }
    /// Height of the rider's eyes; 0 without a rider.
    [[nodiscard]] double eyes() const;

    /// A named dimension of at least `mm`, in round figures of the builder's units. @return its value, mm
    double dimension(const std::string& name, double mm, const std::string& note = {});
    /// The donor's origin is moved to this x.
    void placeDonor(double x);
    /// A taper form that stands on `base` to `top`; plan outlines as formulas.
    using Plan = std::vector<std::array<std::string, 3>>; ///< name, x, y
    void taper(const std::string& name, const Plan& base, const Plan& top, const std::string& baseZ,
               const std::string& topZ);
    using Side = std::vector<std::array<std::string, 5>>; ///< name, side, x, z, half-width
    void profile(const std::string& name, const Side& outline);
    static Plan rectangle(const std::string& back, const std::string& front, const std::string& half);

    /// No plate there: the donor's wheels stand through it.
    void leaveOpen(const std::string& plate);
    /// Way out in the middle of a plate that is `width` by `height`, and a slit before the rider's eyes.
    void exit(const std::string& plate, double width, double height);
    void sight(const std::vector<std::string>& plates, double width);

private:
    std::string m_units;
    double m_margin, m_round;
    std::vector<FitSolid> m_solids;
    [[nodiscard]] std::string text(double mm) const;
};

} // namespace slab::detail
