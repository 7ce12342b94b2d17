#include "core/plates/checks.h"
#include "core/units/units.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::plates {

namespace {

constexpr double bladeLimit =
    std::numbers::pi / 4 + 1e-6; ///< 45° from square, common practice for saw blades
constexpr double almostFlat = 0.5 * std::numbers::pi / 180;

std::array<double, 3> placeOf(const Vec3& p) {
    return {p.x(), p.y(), p.z()};
}

Vec3 middleOf(const Shell& shell, const Bond& bond) {
    const SkinEdge& e = shell.body.skin.edges[at(bond.edges.front())];
    return (shell.body.skin.vertices[at(e.a)] + shell.body.skin.vertices[at(e.b)]) / 2;
}

void checkEdges(const Shell& shell, std::vector<Finding>& findings) {
    for (const Bond& bond : shell.bonds) {
        if (!shell.present(bond.f) || !shell.present(bond.g)) continue;
        const std::string f = shell.face(bond.f).name, g = shell.face(bond.g).name;
        const std::vector<std::string> about{"edge:" + f + "|" + g};
        if (bond.step > 0)
            findings.push_back({Severity::note, "inner-step",
                                f + " and " + g +
                                    " are cut on the bisector of their outer faces; inside, a step of " +
                                    printFine(bond.step, shell.rules.units) + " stays",
                                about, "Use equal thickness, or a fillet strip over the step.",
                                placeOf(middleOf(shell, bond))});
        const double turn = std::abs(std::numbers::pi - bond.dihedral);
        if (turn > 0 && turn < almostFlat && bond.step == 0 &&
            shell.rules.faces[at(bond.f)].stock == shell.rules.faces[at(bond.g)].stock)
            findings.push_back({Severity::note, "almost-flat",
                                f + " and " + g + " turn by less than 0.5° at their edge", about,
                                "Make the two sides one plane, and they become one plate.",
                                placeOf(middleOf(shell, bond))});
    }
}

/// A tilt that is told as 45.0° is within what a blade tilts: half of the last digit told, radians.
constexpr double asPrinted = 0.05 * std::numbers::pi / 180;

/// One entry for a joint whose two plates need the same tilt.
void checkBevels(const Plate& plate, std::vector<Finding>& findings) {
    const auto& ring = plate.boundary.outer;
    for (std::size_t i = 0; i < plate.boundary.edges.size(); ++i) {
        const PanelEdge& e = plate.boundary.edges[i];
        if (e.neighbour.empty() || std::abs(e.bevel) <= bladeLimit + asPrinted || e.length < 1) continue;
        const std::string tilt = printAngle(std::abs(e.bevel), 1) + " from square";
        const std::string limit = ", more than a blade tilts (45°)";
        const auto other = std::find_if(findings.begin(), findings.end(), [&](const Finding& f) {
            return f.code == "bevel-past-45" &&
                   f.message == e.neighbour + " needs " + tilt + " at " + plate.name + limit;
        });
        if (other != findings.end()) {
            other->message =
                e.neighbour + " and " + plate.name + " each need " + tilt + " where they meet" + limit;
            other->about.push_back("plate:" + plate.name);
            continue;
        }
        const Vec3 p = plate.frame.toBody(Vec2((ring[i] + ring[(i + 1) % ring.size()]) / 2));
        findings.push_back({Severity::look,
                            "bevel-past-45",
                            plate.name + " needs " + tilt + " at " + e.neighbour + limit,
                            {"plate:" + plate.name, "edge:" + plate.name + "|" + e.neighbour},
                            "Put a fillet strip inside, cut it square and fill, or choose another joint.",
                            placeOf(p)});
    }
}

} // namespace

void checkChoices(const Shell& shell, std::vector<Finding>& findings) {
    for (const int f : shell.faces) {
        const FaceChoice& choice = shell.rules.faces[at(f)];
        if (!choice.stock.empty() && !(choice.thickness > 0 && std::isfinite(choice.thickness)))
            findings.push_back({Severity::stop,
                                "plate-thickness",
                                shell.face(f).name + ": stock \"" + choice.stock + "\" has no thickness",
                                {"plate:" + shell.face(f).name, "stock:" + choice.stock},
                                "Enter the measured thickness of that sheet.",
                                {}});
    }
    checkEdges(shell, findings);
}

void checkPlates(PlateSet& set) {
    for (const Plate& plate : set.plates) {
        if (plate.boundary.outer.empty()) {
            set.findings.push_back({Severity::look,
                                    "plate-no-outer-face",
                                    "Nothing of the outside face of " + plate.name + " is left",
                                    {"plate:" + plate.name},
                                    "Rank it higher, or use thinner stock beside it.",
                                    {}});
            continue;
        }
        if (plate.boundary.inner.empty()) {
            const Vec3 p = plate.frame.toBody(plate.boundary.outer.front());
            set.findings.push_back({Severity::look,
                                    "thin-body",
                                    "Nothing of the inside face of " + plate.name +
                                        " is left: the body is thinner there than its plates",
                                    {"plate:" + plate.name},
                                    "Use thinner stock, or make the form larger there.",
                                    placeOf(p)});
        }
        checkBevels(plate, set.findings);
    }
}

} // namespace slab::plates
