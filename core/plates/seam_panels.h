#pragma once
// Pieces of a cut panel as panels of their own.
#include "core/plates/seam_search.h"

namespace slab::plates {

/// "a", "b" … "z", "aa" …
[[nodiscard]] std::string pieceLetter(std::size_t index);

/// Makes the panels of the pieces, in their order. A seam's edges carry `seam`, the piece across and a mark
/// of their own, for every copy anew; what met the panel or stood on it goes with the piece that has it.
/// @param mark  the next free match mark, counted on
[[nodiscard]] std::vector<Panel> piecePanels(const Panel& panel, Splitting split, int& mark);

/// From the left (or from below) along the panel's longer side, then across it.
void orderPieces(std::vector<CutPiece>& pieces, const Panel& panel);

} // namespace slab::plates
