#include "core/base/csv.h"
#include "core/takeoff/takeoff.h"
#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>
#include <utility>

namespace slab {
namespace {

std::string money(double value) {
    return csvNumber(value, 2);
}

bool isCone(const RoundLine& line) {
    return std::abs(line.top - line.outside) > 0.05;
}

void nameNearest(RoundLine& line) {
    if (isCone(line)) return;
    double best = std::max(2.0, 0.03 * line.outside); // mm
    const auto look = [&](const std::vector<PipeSize>& sizes, const char* kind) {
        for (const PipeSize& size : sizes) {
            const double outside = size.outside * 25.4, off = std::abs(outside - line.outside);
            if (off > best) continue;
            best = off;
            line.nearest = std::string(size.nominal) + " in " + kind;
            line.nearestOutside = outside;
        }
    };
    look(pipeSizes(), "pipe, schedule 40");
    look(conduitSizes(), "metallic tubing");
}

std::string itemOf(const RoundLine& line) {
    std::string item = !line.part.empty() ? line.part : isCone(line) ? "cone" : "pipe";
    item += " for ";
    for (std::size_t i = 0; i < line.forms.size(); ++i) item += (i == 0 ? "" : ", ") + line.forms[i];
    return item;
}

std::string sizeOf(const RoundLine& line, const UnitStyle& units) {
    std::string size = printThickness(line.outside, units);
    if (isCone(line)) size += " to " + printThickness(line.top, units);
    size += " outside";
    if (line.wall > 0) size += " x " + printThickness(line.wall, units) + " wall";
    size += " x " + printLength(line.length, units) + " long";
    if (!line.nearest.empty())
        size += "; nearest " + line.nearest + ", " + printThickness(line.nearestOutside, units) + " outside";
    return size;
}

} // namespace

namespace {

/// Feet, inches and fractions in marks that any spreadsheet shows: 2⅜″ is 2-3/8".
std::string inPlainMarks(std::string text) {
    constexpr std::array<std::pair<std::string_view, std::string_view>, 10> marks{{{"′", "'"},
                                                                                   {"″", "\""},
                                                                                   {"½", "-1/2"},
                                                                                   {"¼", "-1/4"},
                                                                                   {"¾", "-3/4"},
                                                                                   {"⅛", "-1/8"},
                                                                                   {"⅜", "-3/8"},
                                                                                   {"⅝", "-5/8"},
                                                                                   {"⅞", "-7/8"},
                                                                                   {"⌀", "diameter "}}};
    for (const auto& [mark, plain] : marks)
        for (std::size_t at = text.find(mark); at != std::string::npos; at = text.find(mark, at)) {
            const bool alone = plain[0] == '-' && (at == 0 || text[at - 1] < '0' || text[at - 1] > '9');
            text.replace(at, mark.size(), plain.substr(alone ? 1 : 0));
        }
    return text;
}

/// "countersunk screw, length" of 17 mm is a countersunk screw, 17 mm long.
std::pair<std::string, std::string> itemAndSize(const HardwareLine& line, const UnitStyle& units) {
    constexpr std::array<std::pair<std::string_view, std::string_view>, 4> kinds{{{", length", " long"},
                                                                                  {", outside", " outside"},
                                                                                  {", diameter", " across"},
                                                                                  {", thickness", " thick"}}};
    std::string item = line.item, size = line.size > 0 ? printFine(line.size, units) : std::string();
    for (const auto& [tail, words] : kinds)
        if (line.size > 0 && item.ends_with(tail)) {
            item.resize(item.size() - tail.size());
            size += words;
            break;
        }
    return {inPlainMarks(item + " for " + line.mechanism), size};
}

} // namespace

std::vector<RoundLine> roundLines(const std::vector<RoundPart>& rounds) {
    constexpr double same = 0.05; // mm
    std::vector<RoundLine> lines;
    for (const RoundPart& round : rounds) {
        RoundLine line;
        line.part = round.part;
        line.outside = 2 * round.radius;
        line.top = 2 * round.topRadius;
        line.length = (round.top - round.base).norm();
        line.wall = round.wall;
        const auto alike = std::find_if(lines.begin(), lines.end(), [&](const RoundLine& other) {
            return other.part == line.part && std::abs(other.outside - line.outside) < same &&
                   std::abs(other.top - line.top) < same && std::abs(other.length - line.length) < same &&
                   std::abs(other.wall - line.wall) < same;
        });
        if (alike != lines.end()) {
            alike->forms.push_back(round.name);
            continue;
        }
        line.forms = {round.name};
        nameNearest(line);
        lines.push_back(std::move(line));
    }
    return lines;
}

std::string shoppingListCsv(const Totals& totals, const StockSet& stock, const UnitStyle& style,
                            const std::vector<RoundLine>& rounds, const std::vector<HardwareLine>& hardware) {
    UnitStyle units = style;
    units.typographic = false; // spreadsheets open a list without knowing its encoding
    const std::string coin = stock.currency.empty() ? "" : " (" + stock.currency + ")";
    std::string out = "Item,Size,Need,On hand,Buy," + csvField("Unit price" + coin) + "," +
                      csvField("Cost" + coin) + "\r\n";
    for (const StockLine& line : totals.stock) {
        std::string size;
        if (const Sheet* sheet = stock.find(line.stock))
            size = printLength(sheet->width, units) + " x " + printLength(sheet->length, units) + " x " +
                   printThickness(sheet->thickness, units);
        out += csvField(line.stock) + "," + csvField(size) + "," + std::to_string(line.used) + "," +
               std::to_string(line.onHand) + "," + std::to_string(line.buy) + "," + money(line.price) + "," +
               money(line.cost) + "\r\n";
    }
    for (const BarLine& line : totals.timber) {
        const std::string count = std::to_string(line.bars.size());
        out += "timber for cleats," +
               csvField(printThickness(line.width, units) + " x " + printThickness(line.depth, units) +
                        " x " + printLength(line.barLength, units) + " long; " + std::to_string(line.pieces) +
                        (line.pieces == 1 ? " piece, " : " pieces, ") + printLength(line.withKerf, units) +
                        " with saw cuts") +
               "," + count + ",0," + count + "," + money(line.price) + "," + money(line.cost) + "\r\n";
    }
    for (const RoundLine& line : rounds) {
        const std::string count = std::to_string(line.forms.size());
        out += csvField(itemOf(line)) + "," + csvField(sizeOf(line, units)) + "," + count + ",0," + count +
               ",,\r\n";
    }
    for (const HardwareLine& line : hardware) {
        const std::string count = std::to_string(line.count);
        const auto [item, size] = itemAndSize(line, units);
        out += csvField(item) + "," + csvField(size) + "," + count + ",0," + count + ",,\r\n";
    }
    return out;
}

} // namespace slab
