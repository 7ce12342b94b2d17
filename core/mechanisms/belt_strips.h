#pragma once
// What a belt is made of: plies of strips cut from card, and the solid that they make.
#include "core/geometry/convex.h"
#include "core/mechanisms/belt_path.h"

namespace slab {

struct BeltCard {
    double thickness = 0; ///< of the card, mm
    double longest = 0;   ///< of a strip that a sheet gives at the belt's width, mm
};
/// One strip, laid flat.
struct BeltStrip {
    int ply = 0;           ///< 0 lies on the wheels
    double start = 0;      ///< where it begins, as a share of the way round from the start of run 0, [0, 1)
    double share = 1;      ///< of the way round
    double length = 0;     ///< cut length, the lap included, mm
    double lap = 0;        ///< of its end under the beginning of the next one, mm; 0 = the ends butt
    int links = 0;         ///< on it; 0 = a plain strip
    double linkLength = 0; ///< between two link marks on this ply, mm
    bool operator==(const BeltStrip&) const = default;
};
struct BeltPlies {
    int plies = 1;
    double thickness = 0; ///< of all plies, mm
    double stagger = 0;   ///< least way between joints of plies that lie on each other, mm; 0 for one ply
    std::vector<BeltStrip> strips;
    bool operator==(const BeltPlies&) const = default;
};

/// A mark across a strip, from the strip's beginning.
struct StripMark {
    enum class Kind {
        link, ///< a joint of two links
        lap,  ///< here the next strip begins, glued over what is left of this one
        glue, ///< on the inside face: up to here it is glued over the end of the strip before
    };
    Kind kind = Kind::link;
    double at = 0; ///< mm
    int link = 0;  ///< links before it on this strip
    bool operator==(const StripMark&) const = default;
};
/// All marks of a strip in rising order: between its links, so that two are one link apart, and both ends of
/// its laps. Where a link ends at the lap, the lap's mark stands for it.
[[nodiscard]] std::vector<StripMark> stripMarks(const BeltStrip& strip);

/// Strips of one belt. Plies make up the wanted thickness as nearly as whole cards can. The ends of a single
/// ply lap by `overlap`; those of several plies butt, and no joint lies under another. Strips of one ply are
/// alike, or differ by one link.
///
/// A ply that lies d outside the middle line is 2 pi d longer, whatever the wheels: the belt turns once
/// round.
/// @param links  0 = a plain strip
/// @error "belt-card" (a card without thickness, or too short for one link and the lap)
[[nodiscard]] Expected<BeltPlies> layStrips(double length, double thickness, int links, double overlap,
                                            const BeltCard& card);

/// A stretch of the belt, bent round its wheels: a prism across the belt, and its convex pieces. Facets of at
/// most `step` radians stand on the outside of the true curve, by up to radius × (1 / cos(step / 2) − 1).
struct BeltBand {
    Polyhedron solid; ///< closed
    std::vector<ConvexSolid> pieces;
};
struct BeltStretch {
    double from = 0, to = 1;        ///< shares of the way round, from < to <= from + 1
    double inside = 0, outside = 0; ///< of the middle line, mm, outside positive; inside < outside
    double width = 0;               ///< mm
};
/// @param place  side view to body: u along the view's x, v up, w across; the belt's middle is at w = 0
[[nodiscard]] BeltBand beltBand(const BeltPath& path, const BeltStretch& stretch, const Frame& place,
                                double step = 0.2);

} // namespace slab
