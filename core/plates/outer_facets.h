#pragma once
// The facets of a plate's cells by plane, without those between two cells.
#include "core/plates/weld.h"

namespace slab::plates {

struct OuterFacets {
    struct Facet {
        bool flip = false;
        int begin = 0, count = 0; ///< in `corners`
    };
    struct Group {
        int plane = 0;
        std::vector<Facet> facets;
    };
    std::vector<Group> planes; ///< ascending
    std::vector<int> corners;  ///< welded numbers
    [[nodiscard]] std::span<const int> loop(const Facet& f) const {
        return {corners.data() + f.begin, static_cast<std::size_t>(f.count)};
    }
    [[nodiscard]] Box3 boxOf(const Facet& facet, const std::vector<Vec3>& points) const;
    [[nodiscard]] Box3 boxOf(const std::vector<Facet>& facets, const std::vector<Vec3>& points) const;
};

/// Two facets of the same corners, one on each side of a plane, bound nothing: both are left out.
[[nodiscard]] OuterFacets outerFacets(const Cells& cells, const Welded& welded);

/// Facets on both sides of a plane may overlap in part; where their edges cross the solid gets a corner.
void addCrossings(const PlaneTable& planes, const OuterFacets& outer, double tolerance, Welded& welded);

} // namespace slab::plates
