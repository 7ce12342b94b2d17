// Frames and curved edges in the report.
#include "core/evaluate/report_parts.h"
#include "core/frames/way_words.h"
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
double beforeLap(const FrameCrossing& c, bool ofA) {
    const double before = ofA ? c.beforeA : c.beforeB;
    return before < 1e-6 ? 0 : before;
}
std::string depthWords(const FrameCrossing& c, bool ofA, const UnitStyle& units) {
    const double before = beforeLap(c, ofA), depth = ofA ? c.depthA : c.depthB;
    return printLength(depth, units) + " deep" +
           (before >= 0.5 ? " (" + printLength(before, units) + " of it before the lap)" : std::string());
}

/// Where a slot is open: a's along the lap, b's the other way.
std::string slotSide(const FrameCrossing& c, bool ofB = false) {
    return sideWords(ofB ? Vec3(-c.along) : c.along);
}

std::string listed(const std::vector<std::string>& names) {
    std::string out;
    for (std::size_t i = 0; i < names.size(); ++i)
        out += (i == 0 ? "" : i + 1 < names.size() ? ", " : " and ") + names[i];
    return out;
}

std::string boardOr(const std::string& board, const std::string& frame) {
    return board.empty() ? frame : shortBoard(board);
}

/// Turns of one frame's boards.
FrameJson boardsJson(const FrameSet& set, const std::string& frame) {
    FrameJson boards = FrameJson::array();
    for (std::size_t i = 0; i < set.order.size(); ++i) {
        const FrameStep& step = set.order[i];
        if (step.frame != frame) continue;
        boards.push_back({{"name", step.board},
                          {"goes_in", i + 1},
                          {"from", sideWords(step.from)},
                          {"from_direction", {step.from.x(), step.from.y(), step.from.z()}},
                          {"onto", step.onto}});
    }
    std::sort(boards.begin(), boards.end(), [](const FrameJson& a, const FrameJson& b) {
        return a["goes_in"].get<int>() < b["goes_in"].get<int>();
    });
    return boards;
}

FrameJson crossingJson(const FrameCrossing& c, bool isA, const std::string& frame) {
    return {{"board", isA ? c.boardA : c.boardB},
            {"with", isA ? c.b : c.a},
            {"with_board", isA ? c.boardB : c.boardA},
            {"slot", "from " + slotSide(c, !isA)},
            {"slot_width_mm", isA ? c.slotA : c.slotB},
            {"slot_depth_mm", isA ? c.depthA : c.depthB},
            {"before_lap_mm", beforeLap(c, isA)},
            {"angle_deg", c.angle * 180 / std::numbers::pi},
            {"lap_mm", c.height},
            {"shared_by", c.sharing},
            {"apart_mm", c.apart},
            {"cut_through_mm", cutThrough(c, frame)},
            {"point_mm", {c.at.x(), c.at.y(), c.at.z()}}};
}

/// "1. rib", "3. keel: from above, onto rib and rib#2".
std::string stepText(std::size_t index, const FrameStep& step) {
    std::string out = "    " + std::to_string(index + 1) + ". " + shortBoard(step.board) + ": ";
    if (step.onto.empty())
        return out + (index == 0 ? "stands first" : "set at its place, from " + sideWords(step.from)) + "\n";
    out += "from " + sideWords(step.from) + ", onto ";
    for (std::size_t i = 0; i < step.onto.size(); ++i)
        out += (i == 0 ? "" : i + 1 == step.onto.size() ? " and " : ", ") + shortBoard(step.onto[i]);
    return out + "\n";
}

} // namespace

FrameJson framesReport(const Evaluation& e) {
    FrameJson list = FrameJson::array();
    if (!e.frames) return list;
    for (const FrameFact& f : e.frames->frames) {
        FrameJson crossings = FrameJson::array();
        for (const FrameCrossing& c : e.frames->crossings)
            if (c.a == f.name || c.b == f.name) crossings.push_back(crossingJson(c, c.a == f.name, f.name));
        list.push_back({{"name", f.name},
                        {"parts", f.parts},
                        {"left_out", f.leftOut},
                        {"boards", boardsJson(*e.frames, f.name)},
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

namespace {

/// ": rib 585 mm x 585 mm, rib#2 23 mm x 223 mm".
std::string boardSizes(const Evaluation& e, const std::string& frame) {
    std::string out;
    for (const Plate& plate : e.frames->parts) {
        if (plate.form != "frames/" + frame || plate.boundary.outer.empty()) continue;
        const Vec2 size = bounds(plate.boundary.outer).size();
        out += (out.empty() ? ": " : ", ") + shortBoard(plate.name) + " " + printLength(size.x(), e.units) +
               " × " + printLength(size.y(), e.units);
    }
    return out;
}

std::string crossingText(const FrameCrossing& c, const UnitStyle& units) {
    const std::string a = boardOr(c.boardA, c.a), b = boardOr(c.boardB, c.b);
    if (c.apart > 1e-6) return {}; // told with those that lie between them
    std::string out = "  " + a + " and " + b + ": ";
    out += c.sharing.empty()
               ? "half lap of " + printLength(c.height, units)
               : "lap where " + std::to_string(c.sharing.size()) + " share " + printLength(c.height, units) +
                     " (" + listed(c.sharing) + ", the lowest first), each an equal part";
    out += "; slot in " + a + " " + printThickness(c.slotA, units) + " wide, " + depthWords(c, true, units) +
           " from " + slotSide(c) + ", in " + b + " " + printThickness(c.slotB, units) + " wide, " +
           depthWords(c, false, units) + " from " + slotSide(c, true);
    if (std::cos(c.angle) > 1e-6)
        out += "; they cross at " + printAngle(c.angle) + ", so the slots are cut square and that much wider";
    out += "\n";
    for (const FrameCrossing::Through& t : c.through)
        out += "  " + t.frame + " is cut through over " + printLength(t.height, units) + " where " +
               (t.frame == c.a ? c.b : c.a) + " bars the way: glue corner blocks there\n";
    return out;
}

} // namespace

std::string framesText(const Evaluation& e) {
    if (!e.frames || e.frames->frames.empty()) return {};
    std::string out = "\nFrames\n";
    for (const FrameFact& f : e.frames->frames) {
        out += "  " + f.name + ": " + std::to_string(f.parts) + (f.parts == 1 ? " board" : " boards");
        if (f.leftOut > 0) out += ", " + std::to_string(f.leftOut) + " left out";
        if (f.parts > 1) out += boardSizes(e, f.name);
        out += "\n";
    }
    const UnitStyle& units = e.units;
    for (const FrameCrossing& c : e.frames->crossings) out += crossingText(c, units);
    if (e.frames->crossings.empty()) return out;
    out += "  Put them together in this order, each straight to its place:\n";
    for (std::size_t i = 0; i < e.frames->order.size(); ++i) out += stepText(i, e.frames->order[i]);
    return out;
}

namespace {

/// "body/apron, body/rear apron", or "front, top and rear of front wheel port and front wheel starboard".
std::string curveNames(const std::vector<std::pair<std::string, std::vector<std::string>>>& forms) {
    std::vector<std::pair<std::vector<std::string>, std::vector<std::string>>> bySides; // sides, forms
    for (const auto& [form, sides] : forms) {
        const auto at =
            std::find_if(bySides.begin(), bySides.end(), [&](const auto& b) { return b.first == sides; });
        if (at == bySides.end())
            bySides.push_back({sides, {form}});
        else
            at->second.push_back(form);
    }
    std::string out;
    for (const auto& [sides, of] : bySides) {
        out += out.empty() ? "" : "; ";
        if (sides.size() > 1 && of.size() > 1) {
            out += listed(sides) + " of " + listed(of);
            continue;
        }
        std::vector<std::string> names;
        for (const std::string& form : of)
            for (const std::string& side : sides) names.push_back(form + "/" + side);
        out += listed(names);
    }
    return out;
}

} // namespace

std::string curvesText(const Evaluation& e) {
    if (!e.body || e.body->curves.empty()) return {};
    using Sides = std::pair<std::string, std::vector<std::string>>; // of a form
    std::vector<std::pair<std::string, std::vector<Sides>>> alike; // by facets and what they are off, as told
    for (const CurveFit& c : e.body->curves) {
        const std::string words = std::to_string(c.facets) + (c.facets == 1 ? " facet" : " facets") +
                                  ", off by up to " + printFine(c.deviation, e.units);
        auto at = std::find_if(alike.begin(), alike.end(), [&](const auto& a) { return a.first == words; });
        if (at == alike.end()) at = alike.insert(at, {words, {}});
        if (at->second.empty() || at->second.back().first != c.form) at->second.push_back({c.form, {}});
        at->second.back().second.push_back(c.side);
    }
    std::string out = "\nCurves\n";
    for (const auto& [words, forms] : alike) {
        const bool one = forms.size() == 1 && forms.front().second.size() == 1;
        out += "  " + curveNames(forms) + (one ? ": " : ": each ") + words + "\n";
    }
    return out;
}

} // namespace slab
