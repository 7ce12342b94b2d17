// Frames and curved edges in the report.
#include "core/evaluate/report_parts.h"
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <nlohmann/json.hpp>
#include <numbers>

namespace slab {

namespace {

using FrameJson = nlohmann::ordered_json;

/// Heights over which this frame is cut through beside its lap.
FrameJson cutThrough(const FrameCrossing& c, const std::string& frame) {
    FrameJson list = FrameJson::array();
    for (const FrameCrossing::Through& t : c.through)
        if (t.frame == frame) list.push_back(t.height);
    return list;
}

/// Of a slot's depth: how far it runs from the board's own edge to where the lap begins, since the board is
/// taller there than the other, or the other has another stretch there that passes through.
double beforeLap(const FrameCrossing& c, double depth) {
    const double before = depth - c.height / 2;
    return before < 1e-6 ? 0 : before;
}
std::string depthWords(const FrameCrossing& c, double depth, const UnitStyle& units) {
    const double before = beforeLap(c, depth);
    return printLength(depth, units) + " deep" +
           (before >= 0.5 ? " (" + printLength(before, units) + " of it before the lap)" : std::string());
}

UnitStyle printedUnits(const Evaluation& e) {
    UnitStyle units = e.units;
    units.typographic = false;
    return units;
}

} // namespace

FrameJson framesReport(const Evaluation& e) {
    FrameJson list = FrameJson::array();
    if (!e.frames) return list;
    for (const FrameFact& f : e.frames->frames) {
        FrameJson crossings = FrameJson::array();
        for (const FrameCrossing& c : e.frames->crossings)
            if (c.a == f.name || c.b == f.name)
                crossings.push_back({{"with", c.a == f.name ? c.b : c.a},
                                     {"slot", c.a == f.name ? "from above" : "from below"},
                                     {"slot_width_mm", c.a == f.name ? c.slotA : c.slotB},
                                     {"slot_depth_mm", c.a == f.name ? c.depthA : c.depthB},
                                     {"before_lap_mm", beforeLap(c, c.a == f.name ? c.depthA : c.depthB)},
                                     {"angle_deg", c.angle * 180 / std::numbers::pi},
                                     {"lap_mm", c.height},
                                     {"cut_through_mm", cutThrough(c, f.name)},
                                     {"point_mm", {c.at.x(), c.at.y(), c.at.z()}}});
        const auto& order = e.frames->order;
        const auto turn = std::find(order.begin(), order.end(), f.name);
        list.push_back(
            {{"name", f.name},
             {"goes_in", turn == order.end() ? FrameJson(nullptr) : FrameJson(turn - order.begin() + 1)},
             {"parts", f.parts},
             {"section_mm2", f.section},
             {"area_mm2", f.area},
             {"crossings", std::move(crossings)}});
    }
    return list;
}

FrameJson curvesReport(const Evaluation& e) {
    FrameJson list = FrameJson::array();
    if (!e.body) return list;
    for (const CurveFit& c : e.body->curves)
        list.push_back({{"form", c.form},
                        {"side", c.side},
                        {"facets", c.facets},
                        {"greatest_deviation_mm", c.deviation}});
    return list;
}

std::string framesText(const Evaluation& e) {
    if (!e.frames || e.frames->frames.empty()) return {};
    const auto& order = e.frames->order;
    std::string out = "\nFrames\n";
    for (const FrameFact& f : e.frames->frames)
        out +=
            "  " + f.name + ": " +
            (std::find(order.begin(), order.end(), f.name) == order.end() ? std::string("left out, ") : "") +
            std::to_string(f.parts) + (f.parts == 1 ? " board\n" : " boards\n");
    const UnitStyle units = printedUnits(e);
    for (const FrameCrossing& c : e.frames->crossings) {
        out += "  " + c.b + " slides down onto " + c.a + ": half lap of " + printLength(c.height, units) +
               "; slot in " + c.a + " " + printThickness(c.slotA, units) + " wide, " +
               depthWords(c, c.depthA, units) + " from above, in " + c.b + " " +
               printThickness(c.slotB, units) + " wide, " + depthWords(c, c.depthB, units) + " from below";
        if (std::cos(c.angle) > 1e-6)
            out += "; they cross at " + printAngle(c.angle) +
                   ", so the slots are cut square and that much wider";
        out += "\n";
        for (const FrameCrossing::Through& t : c.through)
            out += "  " + t.frame + " is cut through over " + printLength(t.height, units) + " where " +
                   (t.frame == c.a ? c.b : c.a) + " bars the way: glue corner blocks there\n";
    }
    if (!e.frames->crossings.empty()) {
        out += "  Put them together in this order:";
        for (std::size_t i = 0; i < e.frames->order.size(); ++i)
            out += (i == 0 ? " " : ", ") + e.frames->order[i];
        out += "; each slides down onto those before it\n";
    }
    return out;
}

std::string curvesText(const Evaluation& e) {
    if (!e.body || e.body->curves.empty()) return {};
    struct Form {
        std::string name, side; ///< of the first curve
        int curves = 0;
    };
    std::vector<std::pair<std::string, std::vector<Form>>> alike; // by facets and what they are off, as told
    for (const CurveFit& c : e.body->curves) {
        const std::string words = std::to_string(c.facets) + (c.facets == 1 ? " facet" : " facets") +
                                  ", off by up to " + printFine(c.deviation, printedUnits(e));
        auto at = std::find_if(alike.begin(), alike.end(), [&](const auto& a) { return a.first == words; });
        if (at == alike.end()) at = alike.insert(at, {words, {}});
        std::vector<Form>& forms = at->second;
        if (forms.empty() || forms.back().name != c.form) forms.push_back({c.form, c.side, 0});
        ++forms.back().curves;
    }
    std::string out = "\nCurves\n";
    for (const auto& [words, forms] : alike) {
        int curves = 0;
        for (std::size_t i = 0; i < forms.size(); ++i) {
            const Form& f = forms[i];
            curves += f.curves;
            out += i == 0 ? "  " : i + 1 < forms.size() ? ", " : " and ";
            out +=
                f.curves == 1 ? f.name + "/" + f.side : f.name + " (" + std::to_string(f.curves) + " curves)";
        }
        out += std::string(curves == 1 ? ": " : ": each ") + words + "\n";
    }
    return out;
}

} // namespace slab
