#pragma once
#include "core/body/skin.h"

namespace slab {

/// A face's origin in the forms, and which piece of its side it was there (0 = undivided).
struct FaceOrigin {
    std::string form;
    std::string base; ///< "form/side" without "#n"
    int piece = 0;
    bool operator==(const FaceOrigin&) const = default;
};
/// "port#2" of form "hull" -> {"hull", "hull/port", 2}
[[nodiscard]] FaceOrigin originOf(const std::string& form, const std::string& side);

/// Names all faces of `skin` (origins[i] belongs to faces[i]). A side in one piece keeps its plain name;
/// several pieces become "#1", "#2", …, matched to `keys` by the set of named neighbours, then by the nearest
/// centroid at scale 1; new pieces take the free numbers in the order of their form, then along x, y, z.
/// @return keys of the pieces as named now
std::vector<PieceKey> namePieces(Skin& skin, const std::vector<FaceOrigin>& origins,
                                 const std::vector<PieceKey>& keys, double scale);

/// Order along x, of equals along y, then z: indices into `centres`. Coordinates within 1e-7 of the extent
/// are equal, so that rounding at another scale does not change the order.
[[nodiscard]] std::vector<std::size_t> alongBody(const std::vector<Vec3>& centres);

[[nodiscard]] Vec3 faceCentroid(const Skin& skin, const SkinFace& face);

} // namespace slab
