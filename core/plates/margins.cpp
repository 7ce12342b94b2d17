#include "core/plates/margins.h"
#include "core/plates/cuts.h"
#include "core/units/units.h"
#include <algorithm>
#include <cmath>
#include <limits>

namespace slab {

namespace {

/// Both faces count where both are there.
double between(const PanelLoop& a, const PanelLoop& b) {
    double least = std::numeric_limits<double>::infinity();
    if (!a.outer.empty() && !b.outer.empty()) least = plates::ringDistance(a.outer, b.outer);
    if (!a.inner.empty() && !b.inner.empty()) least = std::min(least, plates::ringDistance(a.inner, b.inner));
    return least;
}

class Margins {
public:
    Margins(const StockSet& stock, const std::vector<RoundPart>& rounds, const UnitStyle& units)
        : m_stock(stock), m_rounds(rounds), m_units(units) {}

    void look(const Plate& plate) {
        const Sheet* sheet = m_stock.find(plate.stock);
        const auto wanted = [&](const PanelLoop& hole) {
            const double outer = leastWidth(hole.outer);
            return leastWeb(sheet, plate.thickness,
                            hole.inner.size() < 3 ? outer : std::min(outer, leastWidth(hole.inner)));
        };
        std::vector<double> webs(plate.holes.size(), 0);
        for (std::size_t i = 0; i < plate.holes.size(); ++i) {
            const PanelLoop& hole = plate.holes[i];
            if (hole.opening.empty() || hole.outer.size() < 3) continue;
            const double here = webs[i] = wanted(hole), left = between(hole, plate.boundary);
            if (left < here - 1e-6) tell(plate, hole, left, here, nullptr);
            for (std::size_t k = 0; k < i; ++k) {
                const PanelLoop& other = plate.holes[k];
                if (other.opening.empty() || other.outer.size() < 3) continue;
                const double web = std::max(here, webs[k]), there = between(hole, other);
                if (there < web - 1e-6) tell(plate, hole, there, web, &other);
            }
        }
    }

    std::vector<Finding> findings;

private:
    [[nodiscard]] std::string kind(const std::string& name) const {
        const bool round =
            std::any_of(m_rounds.begin(), m_rounds.end(), [&](const RoundPart& r) { return r.name == name; });
        return (round ? "form:" : "opening:") + name;
    }

    void tell(const Plate& plate, const PanelLoop& hole, double left, double wanted, const PanelLoop* other) {
        const Vec3 p = plate.frame.toBody(hole.outer.front());
        Finding f{Severity::look,
                  other ? "openings-near" : "opening-near-edge",
                  {},
                  {},
                  {},
                  std::array<double, 3>{p.x(), p.y(), p.z()}};
        f.message = "Opening " + hole.opening + " leaves only " + printFine(left, m_units) + " to ";
        f.message += other ? "opening " + other->opening + " in " + plate.name : "the edge of " + plate.name;
        f.about = {kind(hole.opening), "plate:" + plate.name};
        if (other) f.about.push_back(kind(other->opening));
        f.remedy = "Keep " + printLength(wanted, m_units) + (other ? " between them" : " to the edge");
        f.remedy += other ? ", or make one opening of both." : ", or open it through the edge.";
        findings.push_back(std::move(f));
    }

    const StockSet& m_stock;
    const std::vector<RoundPart>& m_rounds;
    const UnitStyle& m_units;
};

} // namespace

double leastWeb(const Sheet* sheet, double thickness, double width) {
    constexpr double most = 40, least = 10;
    const double web = sheet && sheet->kind == "foam" ? most : std::min(3 * width, most);
    return std::max({web, least, thickness});
}

double leastWidth(const Ring& ring) {
    const Ring hull = convexHull(ring);
    double least = std::numeric_limits<double>::infinity();
    const std::size_t n = hull.size();
    if (n < 3) return 0;
    std::size_t far = 1; // the corner furthest from a side moves on with it (rotating calipers)
    for (std::size_t i = 0; i < n; ++i) {
        const Vec2 side = (hull[(i + 1) % n] - hull[i]).normalized();
        const auto off = [&](std::size_t k) { return cross2(side, hull[k % n] - hull[i]); };
        far = std::max(far, i + 1);
        while (off(far + 1) > off(far)) ++far;
        least = std::min(least, off(far));
    }
    return least;
}

std::vector<Finding> marginFindings(const PlateSet& plates, const StockSet& stock,
                                    const std::vector<RoundPart>& rounds, const UnitStyle& units) {
    Margins margins(stock, rounds, units);
    for (const Plate& plate : plates.plates) margins.look(plate);
    return std::move(margins.findings);
}

} // namespace slab
