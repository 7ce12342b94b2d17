#pragma once
// Where plate forms stand and lie on other plates, and the match marks there.
#include "core/plates/feet.h"

namespace slab::plates {

/// The foot face of one foot, read off the finished solid.
struct FootFace {
    std::size_t plate = 0; ///< index in PlateSet::plates
    int foot = 0;          ///< a number of its own within the plate, from 1
    Plane plane;           ///< of the face it stands on, normal out of the host
    std::vector<std::vector<Vec3>> loops;
};

/// Labels feet and flat faces of the plate forms in `set` (from `first` on), counts their marks on from
/// `next`, and adds the contacts to the plates that they stand on. Edges of a foot come with mark = -foot.
/// A plate form that stands on several plates in one plane has its mark on the one with most of it. Of two
/// plate forms that lie on each other the smaller one rests.
void describeContacts(PlateSet& set, std::size_t first, const std::vector<FootFace>& feet, int& next);

} // namespace slab::plates
