#include "core/takeoff/takeoff.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {
namespace {

/// Greatest tilt from square of any cut of the panel, radians.
double worstBevel(const Panel& panel) {
    double worst = 0;
    const auto look = [&](const PanelLoop& loop) {
        for (const PanelEdge& e : loop.edges) worst = std::max(worst, std::abs(e.bevel));
        for (const PanelEdge& e : loop.extraInner) worst = std::max(worst, std::abs(e.bevel));
    };
    look(panel.boundary);
    for (const PanelLoop& hole : panel.holes) look(hole);
    return worst;
}

/// Turns that the grain or the printed face allows; empty = any.
std::vector<double> turnsOf(const std::string& turns) {
    constexpr double half = std::numbers::pi;
    if (turns == "any") return {};
    if (turns == "quarter") return {0, half / 2, half, 3 * half / 2};
    if (turns == "half") return {0, half};
    return {0};
}

} // namespace

NestProblem nestProblemFor(const std::vector<Panel>& panels, const StockSet& stock) {
    // Beyond this tilt a blade's width along the face has no useful meaning; the tilt itself is a finding
    // elsewhere.
    constexpr double steepest = 80 * std::numbers::pi / 180;
    constexpr double square = 1e-9; // radians
    NestProblem problem;
    for (const Panel& panel : panels) {
        const Sheet* sheet = stock.find(panel.stock);
        const double bevel = worstBevel(panel);
        NestPart part;
        part.id = panel.name;
        part.shape = panel.footprint;
        part.copies = static_cast<int>(panel.copyCount());
        part.spacing = stock.kerf / std::cos(std::min(bevel, steepest)) + stock.margin;
        part.stock = panel.stock;
        part.rotations = turnsOf(sheet ? sheet->turns : "any");
        // Turned over, a tilted cut would lean the other way and a groove be in the other face; with square
        // cuts both faces are alike.
        part.flip = sheet && sheet->flip && bevel <= square && panel.folds.empty();
        problem.parts.push_back(std::move(part));
    }
    for (const Sheet& s : stock.sheets) {
        NestSheet sheet;
        sheet.stock = s.name;
        sheet.width = s.width;
        sheet.length = s.length;
        sheet.trim = s.trim;
        sheet.onHand = s.onHand;
        sheet.price = s.price;
        problem.sheets.push_back(std::move(sheet));
    }
    return problem;
}

} // namespace slab
