#pragma once
#include "core/base/finding.h"
#include "core/document/project.h"

namespace slab {

/// A sheet as figures.
struct Sheet {
    std::string name, kind;
    double width = 0, length = 0, thickness = 0; ///< mm
    double trim = 0;                             ///< border not used, mm
    double price = 0;
    int onHand = 0;
    double density = 0; ///< kg/m³
    bool measured = false, flip = false;
    std::string turns = "any";
    bool operator==(const Sheet&) const = default;
};
struct StockSet {
    std::vector<Sheet> sheets;
    double kerf = 0, margin = 0; ///< mm
    std::string currency;
    std::vector<Finding> findings;
    [[nodiscard]] const Sheet* find(const std::string& name) const;
    bool operator==(const StockSet&) const = default;
};
/// Reads the stock's formulas; a sheet that cannot be used gives a finding and is left out.
[[nodiscard]] StockSet resolveStock(const Project& project, const Scope& scope);

/// Generic starting points for a new sheet, sizes and densities with their source.
struct SheetIdea {
    std::string name, kind, width, length, thickness, density, source;
};
[[nodiscard]] const std::vector<SheetIdea>& sheetIdeas();
/// Published pipe and lumber sizes (ASTM D1785, PS 20), inches.
struct PipeSize { const char* nominal; double outside, wall; };
[[nodiscard]] const std::vector<PipeSize>& pipeSizes();
/// Electrical metallic tubing (ANSI C80.3), inches; a wall of 0 is not known.
[[nodiscard]] const std::vector<PipeSize>& conduitSizes();
struct LumberSize { const char* nominal; double thickness, width; };
[[nodiscard]] const std::vector<LumberSize>& lumberSizes();

} // namespace slab
