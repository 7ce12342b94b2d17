#pragma once
// What a seated person sees of the ground and of the horizon, past opaque plates and through openings in
// them. mm and radians; x forward, y to port, z up, the ground is z = 0. Directions are azimuths from x
// towards y.
#include "core/base/error.h"
#include "core/geometry/vec.h"
#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace slab::sight {

using Triangle = std::array<Vec3, 3>;

/// A flat hole in whatever opaque lies at it: sight slit, window, open hatch.
struct SightOpening {
    std::vector<Vec3> outline; ///< convex, planar, in order, either way round; three corners or more, mm
    double depth = 0; ///< triangles within this of its plane are cut through, mm: about the plate's thickness
    bool operator==(const SightOpening&) const = default;
};
/// Openings cut the triangles whose three corners lie within `depth` of their plane, as seen from the eye. A
/// thick plate has one opening in each face, of a small depth: what is seen must pass both. Nothing opaque
/// lies below the ground.
struct SightScene {
    Vec3 eye = Vec3::Zero(); ///< above the ground
    std::vector<Triangle> opaque;
    std::vector<SightOpening> openings;
};
/// @error "out-of-range" (eye not above the ground, a figure not finite); "sight-opening" (too few corners,
/// not flat
///        within `depth` + 0.01 mm, or not convex)
[[nodiscard]] Expected<void> checkScene(const SightScene& scene);

/// A range of angles or distances, `from` ≤ `to`.
struct Range {
    double from = 0, to = 0;
    [[nodiscard]] double size() const { return to - from; }
    bool operator==(const Range&) const = default;
};

/// One scene, checked once and asked often. Exact: each direction cuts the scene by an upright plane through
/// the eye, and what is opaque in it hides ranges of elevation.
class Sight {
public:
    /// @error as checkScene()
    [[nodiscard]] static Expected<Sight> of(const SightScene& scene);

    /// Elevations that are hidden in a direction, over −π/2 … π/2, ascending and apart from each other.
    [[nodiscard]] std::vector<Range> hidden(double azimuth) const;
    /// Ground that is hidden in a direction, as distances from below the eye, ascending; the last may be
    /// endless.
    [[nodiscard]] std::vector<Range> blindGround(double azimuth) const;
    /// Nearest ground that is seen in a direction, from below the eye; infinite if none.
    /// @param beyond    what is nearer does not count, mm: the way to the vehicle's own outline
    /// @param shortest  strips no longer than this do not count, mm
    [[nodiscard]] double nearestSeen(double azimuth, double beyond = 0, double shortest = 0) const;
    /// Is a point hidden? By one ray against each triangle: independent of the ranges.
    [[nodiscard]] bool hides(const Vec3& point) const;
    /// Azimuths in [0, 2π) in which nothing hides an elevation, ascending; one that runs through 0 is in two
    /// parts. Exact at the horizon of elevation 0; a cone cuts triangles in curves, so others are refused.
    [[nodiscard]] std::vector<Range> openHorizon() const;
    [[nodiscard]] const SightScene& scene() const { return m_scene; }

private:
    explicit Sight(SightScene scene);
    /// A triangle with the openings that cut it.
    struct Part {
        Triangle triangle;
        std::vector<std::size_t> openings;
    };
    /// Parts that an upright plane through the eye in a direction may cut.
    [[nodiscard]] const std::vector<std::uint32_t>& partsTowards(double azimuth) const;
    void sortIn(std::size_t part);

    SightScene m_scene;
    std::vector<Part> m_parts;
    std::vector<std::vector<std::uint32_t>> m_sectors; ///< even ones from 0 to 2π: indices in m_parts, rising
};

/// Grid over the ground in polar form about the point below the eye.
struct BlindMap {
    int directions = 0, rings = 0;
    double reach = 0; ///< mm
    std::vector<bool>
        blind; ///< direction by direction, ring by ring from within: the cell's middle is hidden
    std::vector<double> nearest; ///< nearest ground seen in each direction, mm; infinite if none
    double blindArea = 0;        ///< within reach, mm²; exact ranges, summed over parts of each direction
    [[nodiscard]] bool at(int direction, int ring) const {
        return blind[static_cast<std::size_t>(direction * rings + ring)];
    }
    /// Middle of a cell: azimuth and distance.
    [[nodiscard]] double azimuth(int direction) const;
    [[nodiscard]] double distance(int ring) const;
    bool operator==(const BlindMap&) const = default;
};
/// @param reach       mm, above 0
/// @param directions  8 to 7200;  @param rings  1 to 2000
/// @error "out-of-range"
[[nodiscard]] Expected<BlindMap> blindMap(const Sight& sight, double reach, int directions = 360,
                                          int rings = 100);

/// The worst direction of a range.
struct SeenAhead {
    double distance = 0, azimuth = 0; ///< mm, infinite if no ground is seen there; radians
    bool operator==(const SeenAhead&) const = default;
};
/// What a person who looks ahead needs: within ±`half` of a direction ground is seen from that distance on,
/// or nearer.
/// @param step    of the directions that are asked, radians; both ends are asked too
/// @param beyond  as in nearestSeen()
/// @error "out-of-range"
[[nodiscard]] Expected<SeenAhead> nearestSeenAhead(const Sight& sight, double azimuth, double half,
                                                   double step, double beyond = 0);

/// Open field about straight ahead, at the horizon.
struct HorizontalField {
    double total = 0;               ///< of all open directions, radians
    double port = 0, starboard = 0; ///< how far it is open without a break from straight ahead to either
                                    ///< side; 0 if straight ahead is hidden
    bool operator==(const HorizontalField&) const = default;
};
[[nodiscard]] HorizontalField horizontalField(const Sight& sight);
/// The same of several eyes together: what any of them sees is seen. They lie so near to each other that
/// their directions are taken about one point.
[[nodiscard]] HorizontalField horizontalField(const std::vector<Sight>& eyes);
/// The same for several eyes together and a vehicle with a front: in each direction the nearest ground that
/// any of them sees beyond a line square to the way, `front` ahead. Distances are counted along the way.
/// @param half      under π/2
/// @param shortest  mm along the way: a strip of ground that is no longer, as under a skirt, does not count
/// @error "out-of-range"
[[nodiscard]] Expected<SeenAhead> nearestSeenAhead(const std::vector<Sight>& eyes, double azimuth,
                                                   double half, double step, double front,
                                                   double shortest = 0);

/// Distance from the eye at which ground is seen over an edge: x He / (He − Hh).
/// @param ahead  of the edge, mm, 0 or more;  @param edge  its height, mm, in [0, eye)
/// @error "out-of-range"; also if the edge is as high as the eye, since then no ground is seen
/// @source  similar triangles
[[nodiscard]] Expected<double> groundOverEdge(double eye, double ahead, double edge);

/// Way to stop: v t + v² / 2a.
/// @param speed  mm/s;  @param reaction  s;  @param braking  mm/s², above 0; on a slope less g sin s
/// @error "out-of-range"
/// @source  uniform deceleration
[[nodiscard]] Expected<double> stoppingDistance(double speed, double reaction, double braking);
/// Greatest speed from which it stops within a distance, mm/s: the inverse.
[[nodiscard]] Expected<double> speedToStopWithin(double distance, double reaction, double braking);

} // namespace slab::sight
