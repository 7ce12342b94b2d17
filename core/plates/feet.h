#pragma once
// Feet: edges of plate forms that stand on a face of another plate and are cut to it.
#include "core/plates/cell.h"
#include "core/plates/plate.h"

namespace slab::plates {

inline constexpr double contactReach = 0.5; ///< mm: an edge or face this near a face lies on it
inline constexpr double leastContact = 1;   ///< mm²: less is a touch
/// Sine of the least lean that a foot is cut for: at 15° the saw is 75° from square.
inline constexpr double leastRise = 0.25881904510252074;
/// Sine of the lean under which a plate lies flat instead of standing on its edge: 1°.
inline constexpr double flatRise = 0.017452406437283512;

/// One face of a finished plate, as others meet it.
struct HostFace {
    const Plate* plate = nullptr;
    bool inside = false;
    Plane plane; ///< normal out of the plate
    /// What is there of it, openings taken off; the plate's panel coordinates. Worked out when first asked
    /// for, by one thread: few faces ever are.
    [[nodiscard]] const std::vector<Polygon>& area() const;

private:
    mutable std::vector<Polygon> m_area;
};
/// Outside face, then inside face; one that has no outline is left out.
[[nodiscard]] std::vector<HostFace> facesOf(const Plate& plate);
/// What points of that face bound of it: flat rings laid on the face and cut to its area.
[[nodiscard]] std::vector<Polygon> commonWith(const HostFace& face, const std::vector<Vec3>& corners);

/// One edge of a plate form as drawn: its corner lines on both faces.
struct EdgeLine {
    Vec3 a, b;       ///< on the outside face
    Vec3 down;       ///< from there to the inside face
    Vec3 along, out; ///< unit vectors; out of the plate, in its plane
    double length = 0;
};
[[nodiscard]] EdgeLine edgeLine(const FreePlate& form, double thickness, std::size_t ring, std::size_t edge);
[[nodiscard]] const Ring& ringOf(const FreePlate& form, std::size_t ring); ///< 0 = outer, then the holes

struct Foot {
    std::size_t ring = 0, edge = 0; ///< of the form's outline
    std::string host;
    Plane face; ///< cut to; normal out of the host
    Half half;  ///< the side of the plate, once it is cut
    bool operator==(const Foot&) const = default;
};

enum class Stand {
    on,     ///< the edge is drawn on the face that it stands on
    through ///< it is drawn on the far face and would run through the host: it butts the near face
};
/// A plate form on its way: `plate` as it is so far.
struct Standing {
    const FreePlate* form = nullptr;
    double thickness = 0;
    int rank = 0;
    const Plate* plate = nullptr;
    std::vector<Foot> feet;
};
/// Adds the feet of every plate form, on `fixed` plates and on one another. Of two that would each be cut to
/// the other only the lower one yields: the greater rank, then the later.
/// @param tooFlat  told of each edge that leans too little to be cut to the face that it stands on
void findFeet(std::vector<Standing>& forms, const PlateList& fixed, Stand kind,
              std::vector<Finding>& tooFlat);

/// Cuts and extends the cells of a plate form, drawn with square edges, to the faces that it stands on.
/// Foot::half is set.
void cutFeet(PlaneTable& planes, Cells& cells, const FreePlate& form, double thickness,
             std::vector<Foot>& feet);

} // namespace slab::plates
