#pragma once
// How findings of the fit speak: lengths, and what parts are that are no plates of a form.
#include "core/units/units.h"
#include <map>
#include <string>

namespace slab {

/// The mechanism or frame that a part belongs to.
struct PartOwner {
    std::string kind;  ///< "turntable", "trunnion", "linkage", "belt", "frame"
    std::string name;  ///< "bow belt"
    std::string about; ///< as findings point at it: "mechanism:bow belt"
    [[nodiscard]] std::string words() const { return kind + " " + name; }
    bool operator==(const PartOwner&) const = default;
};
using PartOwners = std::map<std::string, PartOwner>; ///< by Plate::form, and BoughtPart::owner

/// Lengths in findings: millimetres with one decimal unless told otherwise.
inline constexpr UnitStyle fitUnits{Unit::mm, 16, 1, true};

struct FitWords {
    UnitStyle units = fitUnits;
    PartOwners owners; ///< of all parts that are no plates of a form
    FitWords() = default;
    FitWords(const UnitStyle& style) : units(style) {} // a style alone says how to speak of plates
    FitWords(const UnitStyle& style, PartOwners of) : units(style), owners(std::move(of)) {}
    bool operator==(const FitWords&) const = default;
};

} // namespace slab
