// Cleats and the timber for them in the report.
#include "core/evaluate/report_parts.h"
#include <nlohmann/json.hpp>
#include <numbers>

namespace slab {

namespace {

using CleatJson = nlohmann::ordered_json;

std::string counted(std::size_t count, const char* one, const char* many) {
    return std::to_string(count) + " " + (count == 1 ? one : many);
}

std::string lineText(const CleatLine& line, const UnitStyle& units) {
    std::string out = "  " + line.rule + ": " + std::to_string(line.count) + " x " +
                      printLength(line.length, units) + " of " + printThickness(line.width, units) + " x " +
                      printThickness(line.depth, units) +
                      (line.stock.empty() ? "" : " cut from " + line.stock) + ", " + line.a + " to " + line.b;
    if (line.mark > 0) out += ", joint " + std::to_string(line.mark);
    if (line.section.planed > 0)
        out += ", " + counted(static_cast<std::size_t>(line.section.planed), "face", "faces") +
               " planed to a corner of " + printAngle(line.angle);
    if (line.pitch > 0) out += ", every " + printLength(line.pitch, units);
    return out + "\n";
}

std::string timberText(const BarLine& line, const UnitStyle& units) {
    std::string out =
        "  timber " + printThickness(line.width, units) + " x " + printThickness(line.depth, units) + ": " +
        counted(static_cast<std::size_t>(line.pieces), "piece", "pieces") + ", " +
        printLength(line.length, units) + ", with saw cuts " + printLength(line.withKerf, units) + ": buy " +
        counted(line.bars.size(), "bar", "bars") + " of " + printLength(line.barLength, units) + "\n";
    for (std::size_t i = 0; i < line.bars.size(); ++i)
        out += "    bar " + std::to_string(i + 1) + ": " + piecesOf(line.bars[i], units) + ", left " +
               printLength(line.bars[i].left, units) + "\n";
    return out;
}

} // namespace

CleatJson cleatsReport(const Evaluation& e) {
    CleatJson list = CleatJson::array();
    if (!e.cleats) return list;
    for (const CleatLine& line : e.cleats->lines) {
        CleatJson section = CleatJson::array();
        for (const Vec2& p : line.section.outline) section.push_back({p.x() + 0.0, p.y() + 0.0});
        list.push_back({{"rule", line.rule},
                        {"kind", line.block ? "block" : "cleat"},
                        {"between", {line.a, line.b}},
                        {"mark", line.mark},
                        {"material", line.stock.empty() ? CleatJson(nullptr) : CleatJson(line.stock)},
                        {"count", line.count},
                        {"length_mm", line.length},
                        {"width_mm", line.width},
                        {"depth_mm", line.depth},
                        {"corner_deg", line.angle * 180 / std::numbers::pi},
                        {"planed_faces", line.section.planed},
                        {"section_mm", std::move(section)},
                        {"glued_mm", {line.glueA, line.glueB}},
                        {"pitch_mm", line.pitch},
                        {"plates", line.plates}});
    }
    return list;
}

CleatJson timberReport(const Totals& totals) {
    CleatJson list = CleatJson::array();
    for (const BarLine& line : totals.timber) {
        CleatJson bars = CleatJson::array();
        for (const BarCut& bar : line.bars)
            bars.push_back({{"lengths_mm", bar.lengths}, {"left_mm", bar.left}});
        list.push_back({{"width_mm", line.width},
                        {"depth_mm", line.depth},
                        {"bar_length_mm", line.barLength},
                        {"pieces", line.pieces},
                        {"length_mm", line.length},
                        {"with_kerf_mm", line.withKerf},
                        {"buy", line.bars.size()},
                        {"price", line.price},
                        {"cost", line.cost},
                        {"mass_kg", line.mass},
                        {"bars", std::move(bars)}});
    }
    return list;
}

std::string cleatsText(const Evaluation& e) {
    if (!e.cleats || e.cleats->lines.empty()) return {};
    const UnitStyle& units = e.units;
    std::string out = "\nCleats\n";
    for (const CleatLine& line : e.cleats->lines) out += lineText(line, units);
    for (const BarLine& line : e.totals.timber) out += timberText(line, units);
    out += "  Saw and plane long bars before cutting them to length, with guard and push stick; follow the "
           "tool's manual and local rules.\n";
    return out;
}

} // namespace slab
