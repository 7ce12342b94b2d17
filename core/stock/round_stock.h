#pragma once
// Round stock: pipe, tubing and tubs, by published sizes and as the document lists them.
#include "core/stock/stock.h"

namespace slab {

/// A round part as figures.
struct RoundSize {
    std::string name;            ///< "4 in pipe", "110 mm drain pipe", or what the builder named it
    double outside = 0;          ///< diameter, mm
    double wall = 0, length = 0; ///< mm; 0 = not known
    double price = 0;            ///< each
    int onHand = 0;
    bool published = false; ///< of a table below, not of the document
    bool operator==(const RoundSize&) const = default;
};

/// Drain and sewer pipe by outside diameter, millimetres; the names say which.
struct DrainSize {
    const char* nominal;
    double outside;
};
/// Plastic drain pipe, nominal outside diameters of EN 1329-1, EN 1401-1 and ISO 265, mm.
[[nodiscard]] const std::vector<DrainSize>& drainSizes();
/// Gravity sewer pipe (ASTM D3034), mm.
[[nodiscard]] const std::vector<DrainSize>& sewerSizes();

/// All published sizes, rising.
[[nodiscard]] const std::vector<RoundSize>& publishedRounds();

/// The document's own round stock, and how far off a round form may be.
struct RoundStockSet {
    std::vector<RoundSize> rounds;
    double match = 0; ///< mm
    std::vector<Finding> findings;
    bool operator==(const RoundStockSet&) const = default;
};
inline constexpr double defaultMatch = 3; ///< mm

/// Reads the formulas of stock.rounds and stock.match; one that cannot be used gives a finding and is left
/// out.
[[nodiscard]] RoundStockSet resolveRoundStock(const Project& project, const Scope& scope);

} // namespace slab
