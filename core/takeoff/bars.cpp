#include "core/takeoff/bars.h"
#include "core/base/csv.h"
#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <numbers>
#include <tuple>

namespace slab {

namespace {

constexpr double slack = 1e-6; ///< mm: rounding in sums of lengths

using Filling = std::vector<std::vector<std::size_t>>; ///< by bar: indices of lengths

/// A piece takes its length and a saw cut; the last cut of a bar may fall beyond its end.
class BarPacker {
public:
    BarPacker(const std::vector<double>& lengths, double barLength, double kerf)
        : m_lengths(lengths), m_room(barLength + kerf), m_kerf(kerf) {}

    Filling pack() {
        Filling best = firstFit();
        double sum = 0;
        for (std::size_t i = 0; i < m_lengths.size(); ++i) sum += need(i);
        const auto least = static_cast<std::size_t>(std::ceil(sum / m_room - 1e-9));
        while (best.size() > std::max<std::size_t>(least, 1)) {
            m_most = best.size() - 1;
            m_steps = 20000;
            m_bars.clear();
            m_left.clear();
            if (!place(0)) break;
            best = m_bars;
        }
        return best;
    }

private:
    [[nodiscard]] double need(std::size_t piece) const { return m_lengths[piece] + m_kerf; }

    Filling firstFit() {
        Filling bars;
        std::vector<double> left;
        for (std::size_t i = 0; i < m_lengths.size(); ++i) {
            std::size_t bar = 0;
            while (bar < bars.size() && left[bar] + slack < need(i)) ++bar;
            if (bar == bars.size()) {
                bars.emplace_back();
                left.push_back(m_room);
            }
            bars[bar].push_back(i);
            left[bar] -= need(i);
        }
        return bars;
    }

    /// The pieces from this one on; bars with equal room are tried once.
    bool place(std::size_t piece) {
        if (piece == m_lengths.size()) return true;
        if (--m_steps < 0) return false;
        std::vector<double> tried;
        for (std::size_t bar = 0; bar < m_bars.size(); ++bar) {
            const double room = m_left[bar];
            const bool known =
                std::any_of(tried.begin(), tried.end(), [&](double t) { return std::abs(t - room) < slack; });
            if (known || room + slack < need(piece)) continue;
            tried.push_back(room);
            m_bars[bar].push_back(piece);
            m_left[bar] -= need(piece);
            if (place(piece + 1)) return true;
            m_bars[bar].pop_back();
            m_left[bar] = room;
        }
        if (m_bars.size() == m_most) return false;
        m_bars.push_back({piece});
        m_left.push_back(m_room - need(piece));
        if (place(piece + 1)) return true;
        m_bars.pop_back();
        m_left.pop_back();
        return false;
    }

    const std::vector<double>& m_lengths;
    double m_room, m_kerf;
    Filling m_bars;
    std::vector<double> m_left;
    std::size_t m_most = 0;
    int m_steps = 0;
};

} // namespace

std::vector<BarCut> cutBars(std::vector<double> lengths, double barLength, double kerf) {
    std::sort(lengths.begin(), lengths.end(), std::greater<>());
    std::vector<BarCut> out;
    std::vector<double> fitting;
    for (const double length : lengths)
        if (length > barLength + slack)
            out.push_back({{length}, 0});
        else
            fitting.push_back(length);
    for (const auto& bar : BarPacker(fitting, barLength, kerf).pack()) {
        BarCut cut;
        double used = 0;
        for (const std::size_t piece : bar) {
            cut.lengths.push_back(fitting[piece]);
            used += fitting[piece] + kerf;
        }
        cut.left = std::max(0.0, barLength - used);
        out.push_back(std::move(cut));
    }
    return out;
}

std::string piecesOf(const BarCut& bar, const UnitStyle& units) {
    std::string words;
    for (std::size_t i = 0; i < bar.lengths.size();) {
        const std::string length = printLength(bar.lengths[i], units);
        std::size_t next = i + 1;
        while (next < bar.lengths.size() && printLength(bar.lengths[next], units) == length) ++next;
        words += words.empty() ? "" : " + ";
        if (next > i + 1) words += std::to_string(next - i) + (units.typographic ? " × " : " x ");
        words += length;
        i = next;
    }
    return words;
}

std::vector<BarLine> barLines(const CleatSet& cleats, double kerf) {
    std::map<std::tuple<double, double, double, double>, BarLine> lines;
    std::map<std::string, const Plate*> byName;
    for (const Plate& part : cleats.parts) byName.emplace(part.name, &part);
    std::map<const BarLine*, std::vector<double>> lengths;
    for (const CleatLine& cleat : cleats.lines) {
        if (!cleat.stock.empty()) continue;
        BarLine& line = lines[{cleat.width, cleat.depth, cleat.barLength, cleat.price}];
        line.width = cleat.width;
        line.depth = cleat.depth;
        line.barLength = cleat.barLength;
        line.price = cleat.price;
        line.pieces += cleat.count;
        line.length += cleat.count * cleat.length;
        lengths[&line].insert(lengths[&line].end(), static_cast<std::size_t>(cleat.count), cleat.length);
        for (const std::string& name : cleat.plates) {
            const Plate& part = *byName.at(name);
            line.mass += part.volume * part.density / 1e9; // mm³ in a cubic metre
        }
    }
    std::vector<BarLine> out;
    for (auto& [key, line] : lines) {
        line.withKerf = line.length + line.pieces * kerf;
        line.bars = cutBars(lengths[&line], line.barLength, kerf);
        line.cost = line.price * static_cast<double>(line.bars.size());
        out.push_back(line);
    }
    return out;
}

std::string cleatListCsv(const CleatSet& cleats, const UnitStyle& style) {
    UnitStyle units = style;
    units.typographic = false; // spreadsheets open a list without knowing its encoding
    std::string out = "Rule,Kind,Count,Length,Section,Corner in degrees,Faces to plane,Cut from,Width "
                      "on,Depth on,Joint\r\n";
    for (const CleatLine& line : cleats.lines)
        out += csvField(line.rule) + (line.block ? ",block," : ",cleat,") + std::to_string(line.count) + "," +
               csvField(printLength(line.length, units)) + "," +
               csvField(printLength(line.width, units) + " x " + printThickness(line.depth, units)) + "," +
               csvNumber(line.angle * 180 / std::numbers::pi, 1) + "," + std::to_string(line.section.planed) +
               "," + csvField(line.stock.empty() ? "timber" : line.stock) + "," + csvField(line.a) + "," +
               csvField(line.b) + "," + (line.mark > 0 ? std::to_string(line.mark) : std::string()) + "\r\n";
    return out;
}

} // namespace slab
