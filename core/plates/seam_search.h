#pragma once
// Where a panel that is too large is best cut.
#include "core/plates/seam_cut.h"
#include "core/plates/sheet_room.h"

namespace slab::plates {

struct SearchRules {
    SheetRoom room;
    double keep = 40; ///< mm: wanted between a seam and the nearest corner or opening
    int seam = 0;     ///< number of the first seam that is found
};

/// How far the part of a line that lies on a piece stays from the piece's corners and openings.
struct LineRoom {
    double corner = 0;  ///< mm to the nearest corner (a turn of 10° or more) of either face
    double opening = 0; ///< mm to the nearest hole's edge; 0 when it runs through one
    double through = 0; ///< mm of holes that it runs through
    /// mm to the nearest plate that stands along the line on the inside face, where a butt strip would lie; 0
    /// when it stands on the line. What stands across the line does not count: the strip stops at it.
    double stand = 0;
};
[[nodiscard]] LineRoom lineRoom(const CutPiece& piece, const CutLine& line);

/// A cut as it was made, through one piece.
struct MadeCut {
    int seam = 0; ///< its number
    CutLine line;
    std::vector<std::pair<double, double>> outer, inner; ///< on either face, along CutLine::along()
    LineRoom room;
    /// A point of the seam.
    [[nodiscard]] Vec2 middle() const;
};
struct Splitting {
    std::vector<CutPiece> pieces;
    std::vector<MadeCut> cuts; ///< in the order of cutting
    double lost = 0;           ///< mm², see CutPieces
};
/// Cuts the pieces that the line meets; nothing is noted for a piece that it misses.
/// @param through  only the piece that has this point of the line; else all
void cutAll(Splitting& split, const CutLine& line, int seam, const std::optional<Vec2>& through = {});

/// Both faces' outlines as one cloud of points, for fitting.
[[nodiscard]] Ring cloudOf(const CutPiece& piece);

/// Cuts a piece until each part goes on a sheet. Up to four parts by search over all places square to the
/// sheet's and the piece's directions: the fewest parts, then the least breach of `keep`, then the least
/// sheet area by shelves; more parts in strips as wide as a sheet or by halving the greatest excess,
/// whichever makes fewer. Parts that nothing helps stay large.
[[nodiscard]] Splitting searchSplit(const CutPiece& piece, const SearchRules& rules);

/// Sheet area that boxes use up, laid in shelves across the largest sheet: whole sheets, of the last one the
/// length used. mm²; infinite if one goes on no sheet.
[[nodiscard]] double shelfArea(const std::vector<Vec2>& boxes, const SheetRoom& room);

} // namespace slab::plates
