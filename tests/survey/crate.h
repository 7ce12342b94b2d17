#pragma once
// A crate of sheets over a block that does not scale: where it begins to fit is a closed form.
#include "core/document/file.h"
#include "core/survey/survey.h"
#include "tests/evaluate/text_of.h"
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace slab::test {

/// Lengths in mm; the crate's at scale 1, all others as built.
struct Crate {
    double side = 1000, thickness = 12, clearance = 20;
    double length = 300, width = 300, height = 300,
           centre = 400; ///< of the block; its middle above the ground

    /// From here on the block keeps `gap` from every wall: half of the side, and all of it upward, less the
    /// sheet.
    [[nodiscard]] double scaleFor(double gap) const {
        return std::max({(length / 2 + gap + thickness) / (side / 2),
                         (width / 2 + gap + thickness) / (side / 2),
                         (centre + height / 2 + gap + thickness) / side});
    }
    /// Margin to the nearest wall, the floor among them.
    [[nodiscard]] double margin(double scale) const {
        const double half = scale * side / 2 - thickness;
        return std::min({half - length / 2, half - width / 2, scale * side - thickness - centre - height / 2,
                         centre - height / 2 - thickness}) -
               clearance;
    }
    [[nodiscard]] nlohmann::json document() const {
        const auto mm = [](double value) { return printExact(value, Unit::mm); };
        nlohmann::json d = nlohmann::json::parse(
            textOf(std::filesystem::path(SLABSIDE_SOURCE_DIR) / "tests/evaluate/findings/base.json"));
        d["dimensions"][0]["value"] = mm(side);
        d["donor"]["solids"][0].update(
            {{"z", mm(centre)}, {"size_x", mm(length)}, {"size_y", mm(width)}, {"size_z", mm(height)}});
        d["clearance"]["default"] = mm(clearance);
        d["stock"]["sheets"][0]["thickness"] = mm(thickness);
        return d;
    }
};

inline Project read(const nlohmann::json& document) {
    auto project = readProject(document.dump());
    if (!project) {
        ADD_FAILURE() << project.error().message << " at " << project.error().where;
        return {};
    }
    return *project;
}

inline const Constraint* find(const ScaleSurvey& survey, const std::string& key) {
    for (const Constraint& c : survey.constraints)
        if (c.key == key) return &c;
    return nullptr;
}

} // namespace slab::test
