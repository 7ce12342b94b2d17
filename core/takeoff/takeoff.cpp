#include "core/takeoff/takeoff.h"
#include "core/plates/mass.h"
#include <algorithm>
#include <map>

namespace slab {
namespace {

double cutLengthOf(const PanelLoop& loop) {
    double sum = 0;
    for (std::size_t i = 0; i < loop.outer.size(); ++i)
        sum += (loop.outer[(i + 1) % loop.outer.size()] - loop.outer[i]).norm();
    for (const PanelEdge& e : loop.extraInner) sum += e.length;
    return sum;
}

/// Lines in the order of the stock, only those that the design or the layout uses.
std::vector<StockLine> linesOf(const PlateSet& plates, const StockSet& stock, const NestProblem& problem,
                               const NestResult& nested) {
    std::map<std::string, StockLine> lines;
    for (const NestLayout& layout : nested.layouts) {
        const NestSheet& sheet = problem.sheets[static_cast<std::size_t>(layout.sheet)];
        StockLine& line = lines[sheet.stock];
        ++line.used;
        if (!layout.onHand) {
            ++line.buy;
            line.cost += sheet.price;
        }
    }
    for (const NestPart& part : problem.parts) lines[part.stock].area += area(part.shape) * part.copies;
    for (const Plate& plate : plates.plates)
        if (stock.find(plate.stock)) lines[plate.stock].mass += massOf(plate, stock);
    std::vector<StockLine> out;
    for (const Sheet& sheet : stock.sheets) {
        const auto it = lines.find(sheet.name);
        if (it == lines.end()) continue;
        it->second.stock = sheet.name;
        it->second.onHand = sheet.onHand;
        it->second.price = sheet.price;
        out.push_back(it->second);
        lines.erase(it); // a name that stands twice is counted once
    }
    return out;
}

} // namespace

Totals takeOff(const PlateSet& plates, const std::vector<Panel>& panels, const StockSet& stock,
               const NestProblem& problem, const NestResult& nested) {
    Totals totals;
    totals.plates = static_cast<int>(std::count_if(plates.plates.begin(), plates.plates.end(),
                                                   [](const Plate& p) { return !p.stock.empty(); }));
    totals.panels = static_cast<int>(panels.size());
    totals.sheets = static_cast<int>(nested.layouts.size());
    totals.cost = nested.cost;
    totals.usedPercent = nested.density * 100;
    totals.stock = linesOf(plates, stock, problem, nested);
    for (const StockLine& line : totals.stock) {
        totals.buy += line.buy;
        totals.mass += line.mass;
        const Sheet* sheet = stock.find(line.stock);
        if (line.area > 0 && sheet && !(sheet->density > 0)) totals.unweighed.push_back(line.stock);
    }
    for (const Panel& panel : panels) {
        double length = cutLengthOf(panel.boundary);
        for (const PanelLoop& hole : panel.holes) length += cutLengthOf(hole);
        totals.cutLength += length * static_cast<double>(panel.copyCount());
    }
    for (const JointInfo& joint : plates.joints)
        if (joint.kind != JointKind::open) totals.jointLength += (joint.to - joint.from).norm();
    return totals;
}

std::vector<Finding> massFindings(const Totals& totals) {
    std::vector<Finding> findings;
    for (const std::string& sheet : totals.unweighed)
        findings.push_back(
            {Severity::note,
             "mass-unknown",
             "Sheet " + sheet + " has no density: what is cut from it is missing in every mass.",
             {"stock:" + sheet},
             "Type the density that its data sheet gives, in kg/m³.",
             {}});
    return findings;
}

void addTimber(Totals& totals, const CleatSet& cleats, double kerf) {
    totals.timber = barLines(cleats, kerf);
    for (const BarLine& line : totals.timber) {
        totals.cost += line.cost;
        totals.mass += line.mass;
    }
}

} // namespace slab
