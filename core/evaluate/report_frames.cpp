// Frames and curved edges in the report.
#include "core/evaluate/report_parts.h"
#include <cstdio>
#include <nlohmann/json.hpp>

namespace slab {

namespace {

using FrameJson = nlohmann::ordered_json;

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
                                     {"lap_mm", c.height},
                                     {"point_mm", {c.at.x(), c.at.y(), c.at.z()}}});
        list.push_back({{"name", f.name},
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
    std::string out = "\nFrames\n";
    for (const FrameFact& f : e.frames->frames)
        out += "  " + f.name + ": " + std::to_string(f.parts) + (f.parts == 1 ? " board\n" : " boards\n");
    for (const FrameCrossing& c : e.frames->crossings)
        out += "  " + c.a + " goes over " + c.b + ", half lap of " + printLength(c.height, printedUnits(e)) +
               "\n";
    return out;
}

std::string curvesText(const Evaluation& e) {
    if (!e.body || e.body->curves.empty()) return {};
    std::string out = "\nCurves\n";
    for (const CurveFit& c : e.body->curves)
        out += "  " + c.form + "/" + c.side + ": " + std::to_string(c.facets) +
               (c.facets == 1 ? " facet" : " facets") + ", off by up to " +
               printFine(c.deviation, printedUnits(e)) + "\n";
    return out;
}

} // namespace slab
