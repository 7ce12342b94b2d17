#include "core/board/seam_edits.h"
#include "core/board/formula_text.h"
#include "core/board/outline_parts.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace {

const std::vector<std::string>& cutPlates(const Panel& panel) {
    return panel.cutFrom.empty() ? panel.plates : panel.cutFrom;
}

Vec2 longerSide(const Box2& box) {
    return box.size().x() >= box.size().y() ? Vec2(Vec2::UnitX()) : Vec2(Vec2::UnitY());
}

Vec2 turned(const Vec2& v, double angle) {
    const double c = std::cos(angle), s = std::sin(angle);
    return {c * v.x() - s * v.y(), s * v.x() + c * v.y()};
}

double turnBetween(double a, double b) {
    return std::abs(std::remainder(a - b, 2 * std::numbers::pi));
}

/// The entry that a placed cut was made from; the same line may be written from either side.
void findEntry(PanelSeam& seam, const std::vector<SeamChoice>& choices, const SeamCut& cut) {
    constexpr double near = 1e-6; // mm, rad
    for (std::size_t i = 0; i < choices.size(); ++i) {
        const SeamChoice& one = choices[i];
        if (std::none_of(cut.plates.begin(), cut.plates.end(),
                         [&](const std::string& plate) { return matches(one.plate, plate); }))
            continue;
        const bool same = std::abs(one.at - cut.at) < near && turnBetween(one.turn, cut.turn) < near;
        const bool other =
            std::abs(one.at + cut.at) < near && turnBetween(one.turn, cut.turn + std::numbers::pi) < near;
        if (!same && !other) continue;
        seam.entry = static_cast<int>(i);
        seam.sign = same ? 1 : -1;
        return;
    }
}

Seam newSeam(const std::string& plate, double at, double turn, const Scope& scope, double step) {
    const Unit unit = scope.unit == Unit::none ? Unit::mm : scope.unit;
    const bool inches = unit == Unit::in || unit == Unit::ft;
    Seam seam;
    seam.plate = plate;
    seam.at = detail::subjectText(at, scope, step);
    if (std::abs(turn) > 1e-9) seam.turn = printExact(turn * 180 / std::numbers::pi, Unit::none) + " deg";
    seam.strip = detail::written(inches ? 3 * 25.4 : usualStrip, unit);
    return seam;
}

} // namespace

Box2 wholeBox(const std::vector<Panel>& panels, const Panel& panel) {
    Box2 box = bounds(panel.boundary.outer);
    if (panel.cutFrom.empty()) return box;
    for (const Panel& other : panels)
        if (other.cutFrom == panel.cutFrom) box = united(box, bounds(other.boundary.outer));
    return box;
}

std::vector<PanelSeam> seamsOn(const Project& project, const Scope& scope, const std::vector<SeamCut>& cuts,
                               const std::vector<Panel>& panels, const Panel& panel) {
    std::vector<PanelSeam> out;
    std::vector<Finding> told; // by the pipeline
    const auto choices = resolveSeams(project, scope, told);
    const Vec2 along = longerSide(wholeBox(panels, panel));
    for (const SeamCut& cut : cuts) {
        if (cut.plates != cutPlates(panel)) continue;
        PanelSeam seam;
        seam.plate = cut.plates.empty() ? panel.name : cut.plates.front();
        seam.at = cut.at;
        seam.turn = cut.turn;
        seam.normal = turned(along, cut.turn);
        seam.lines = cut.lines;
        if (!cut.found) findEntry(seam, choices, cut);
        out.push_back(std::move(seam));
    }
    return out;
}

SeamLine seamThrough(const Box2& whole, const Vec2& onPanel) {
    const Vec2 along = longerSide(whole);
    return {along.dot(onPanel - (whole.min + whole.max) / 2), along};
}

Expected<Edit> moveSeam(const Project& project, const Scope& scope, const PanelSeam& seam, double by,
                        const MoveOptions& options) {
    const bool own = seam.entry >= 0;
    if (seam.entry >= static_cast<int>(project.seams.size()))
        return fail("no-such-place", "That seam is not in the document any more.",
                    "/seams/" + std::to_string(seam.entry), "Choose it again.");
    const auto index = static_cast<std::size_t>(std::max(seam.entry, 0));
    Seam changed;
    if (own) {
        changed = project.seams[index];
        auto text = shiftedLength(changed.at, by * seam.sign, scope, Space::subject, options.step);
        if (!text) return Unexpected(text.error());
        changed.at = std::move(*text);
    } else {
        changed = newSeam(seam.plate, seam.at + by, seam.turn, scope, options.step);
    }
    // From the document as it was: a drag makes its edit anew with every step.
    return Edit{"Move seam of " + seam.plate, options.gesture,
                [base = project, changed, own, index](const Project&) -> Expected<Project> {
                    Project next = base;
                    if (own)
                        next.seams[index] = changed;
                    else
                        next.seams.push_back(changed);
                    return next;
                }};
}

Expected<Edit> addSeam(const Project&, const Scope& scope, const Panel& panel, double at, double step) {
    const std::string& plate = cutPlates(panel).front();
    if (!panel.folds.empty())
        return fail("no-seam-here",
                    panel.name + " is one blank of several plates: no seam is cut through it.", plate,
                    "Choose a mitre or a cover at one of its folds first.");
    return Edit{"Add seam in " + plate,
                {},
                [seam = newSeam(plate, at, 0, scope, step)](const Project& p) -> Expected<Project> {
                    Project next = p;
                    next.seams.push_back(seam);
                    return next;
                }};
}

Expected<Edit> giveBackSeam(const Project& project, const PanelSeam& seam) {
    if (seam.entry < 0 || seam.entry >= static_cast<int>(project.seams.size()))
        return fail("no-such-place", "The program has found this seam: there is nothing to give back.",
                    seam.plate, "Drag it to have it elsewhere, or use a larger sheet.");
    return removeValue("/seams/" + std::to_string(seam.entry), "Give back seam of " + seam.plate);
}

} // namespace slab
