#pragma once
// One line that a panel might be cut along, and what it would give.
#include "core/plates/seam_search.h"
#include <array>

namespace slab::plates {

constexpr int searchedParts = 4; ///< parts up to which every place is looked at

/// A line that might be cut, with what it would give.
struct Trial {
    CutLine line;
    bool fitsLow = false, fitsHigh = false;
    int parts = 0;     ///< that the line itself makes
    int expected = 0;  ///< as many as the boxes of both sides need
    double breach = 0; ///< of the wanted distances, mm
    double sheets = 0; ///< mm²
    double clear = 0;  ///< mm
    double length = 0; ///< mm
    double off = 0;    ///< from the middle, mm
    [[nodiscard]] std::array<double, 6> rank() const {
        return {static_cast<double>(expected),
                std::round(breach * 100),
                std::round(sheets),
                -std::round(clear),
                std::round(length * 10),
                off};
    }
    [[nodiscard]] int least() const { return std::max(parts, (fitsLow ? 1 : 2) + (fitsHigh ? 1 : 2)); }
};

/// What is asked of a piece again and again.
struct Facts {
    const CutPiece& piece;
    Ring cloud, corners;
    explicit Facts(const CutPiece& p);
};
[[nodiscard]] LineRoom roomAt(const Facts& facts, const CutLine& line);

/// Places along one axis of a frame that are worth a look, rising.
[[nodiscard]] std::vector<double> placesAlong(const Facts& facts, const Vec2& axis, const SearchRules& rules);

/// A piece as it lies for a sheet: turned by -angle.
struct LaidPiece {
    const Facts& facts;
    const SearchRules& rules;
    double angle = 0; ///< radians
};
/// Fills in what the trial's line gives. @return false if the line cannot do with so many parts
bool weigh(const LaidPiece& laid, int parts, Trial& t);

} // namespace slab::plates
