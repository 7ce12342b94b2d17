#include "core/board/mechanism_edits.h"
#include "core/board/formula_text.h"
#include "core/board/mechanism_figures.h"
#include "core/board/outline_parts.h"
#include "core/plates/openings.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace detail {

bool StartFigures::inches() const {
    return scope.unit == Unit::in || scope.unit == Unit::ft;
}

double StartFigures::rounded(double mm) const {
    constexpr double small = 80; // mm
    const double to = inches() ? (mm < small ? 25.4 / 16 : 25.4 / 2) : mm < small ? 1.0 : 10.0;
    return std::max(to, std::floor(mm / to + 1e-9) * to);
}

Text StartFigures::size(double mm) const {
    return written(rounded(mm), scope.unit == Unit::none ? Unit::mm : scope.unit);
}

Text StartFigures::length(double mm) const {
    return written(rounded(mm / scope.scale), scope.unit == Unit::none ? Unit::mm : scope.unit);
}

Text StartFigures::place(double mm) const {
    return subjectText(mm, scope, start.step);
}

Text StartFigures::height(const Plate& deck) const {
    const double z = deck.frame.origin.z();
    std::vector<Text> heights;
    const auto form = std::find_if(project.forms.begin(), project.forms.end(), [&](const Form& one) {
        return deck.form == one.name || deck.form == one.name + " port" ||
               deck.form == one.name + " starboard";
    });
    if (form != project.forms.end()) {
        if (const auto* s = std::get_if<ProfileShape>(&form->shape))
            for (const OutlinePoint& p : s->outline) heights.push_back(p.z);
        if (const auto* s = std::get_if<TaperShape>(&form->shape)) heights = {s->top_z, s->base_z};
        if (const auto* s = std::get_if<FacetShape>(&form->shape))
            for (const OutlinePoint& p : s->corners) heights.push_back(p.z);
        if (std::holds_alternative<PlateShape>(form->shape)) heights.emplace_back();
        const bool turned = !form->at.roll.empty() || !form->at.pitch.empty();
        for (Text& text : heights) text = turned ? Text() : added(form->at.z, text);
    }
    for (const Text& text : heights) {
        const auto value = evaluate(text, scope, Space::subject, Kind::length);
        if (!text.empty() && value && std::abs(value->value - z) < 1e-6) return text;
    }
    return subjectText(z, scope); // exactly: rings lie flat on it
}

const Plate* StartFigures::plate() const {
    if (!e.plates || !e.body) return nullptr;
    for (const Plate& plate : e.plates->plates)
        if (plate.name == start.spot.on) return takesOpenings(plate, *e.body) ? &plate : nullptr;
    return nullptr;
}

std::optional<double> StartFigures::fact(const std::string& mechanism, const std::string& key) const {
    if (e.mechanisms)
        for (const MechanismFact& fact : e.mechanisms->facts)
            if (fact.mechanism == mechanism && fact.key == key) return fact.value;
    return {};
}

Vec3 StartFigures::placed(const Placement& at) const {
    const auto read = [&](const Text& text) {
        const auto value = evaluate(text.empty() ? "0" : text, scope, Space::subject, Kind::length);
        return value ? value->value : 0;
    };
    return {read(at.x), read(at.y), read(at.z)};
}

const Turntable* StartFigures::table() const {
    for (const Turntable& table : project.mechanisms.turntables) {
        const auto outside = fact(table.name, "ring_outside");
        if (table.off || !outside) continue;
        if (start.spot.on.starts_with(table.name + "/")) return &table;
        const Vec3 off = start.spot.at - placed(table.at);
        if (off.head<2>().norm() <= *outside / 2 && off.z() > -1) return &table;
    }
    return nullptr;
}

std::string StartFigures::wood() const {
    for (const SheetStock& sheet : project.stock.sheets)
        if (sheet.kind == "plywood" || sheet.kind == "hardboard") return sheet.name;
    if (!project.materials.fallback.empty() || project.stock.sheets.empty())
        return project.materials.fallback;
    return project.stock.sheets.front().name;
}

Expected<Edit> StartFigures::put(const std::string& name, const std::function<void(Project&)>& change) const {
    return formEdit(project, "Add " + name, [change](const Project& p) -> Expected<Project> {
        Project next = p;
        change(next);
        return next;
    });
}

} // namespace detail

namespace {

bool isLevelThere(const Plate& plate, const Body& body, const Vec2& at) {
    if (!takesOpenings(plate, body) || plate.frame.axes.col(2).z() < detail::levelCosine) return false;
    const Vec3 there(at.x(), at.y(), plate.frame.origin.z());
    return contains(plate.boundary.outer, plate.frame.toPlane(there), 1e-6);
}

/// A body from which nothing is cut yet.
tl::unexpected<Error> noPlate(const Project& project) {
    if (!project.materials.fallback.empty() || !project.materials.plates.empty())
        return fail("no-plate", "The body has no plate that it could stand on.", {},
                    "Choose a sheet for its plates under Plates and materials.");
    return fail("no-sheet", "The body has no sheet yet, so no plate that it could stand on.", {},
                project.stock.sheets.empty()
                    ? "Add a sheet under Stock, then choose it under Plates and materials."
                    : "Choose a default sheet under Plates and materials.");
}

} // namespace

const std::vector<MechanismWords>& mechanismWords() {
    static const std::vector<MechanismWords> words{
        {MechanismKind::turntable, "turntable", "A drum between rings, that turns on a deck.",
         "Click the deck that it stands on"},
        {MechanismKind::trunnion, "trunnion", "A tube that elevates about a level pivot.",
         "Click the deck or the turntable that it stands on, or the plate that its tube goes through"},
        {MechanismKind::linkage, "linkage", "Joins the shell to the donor and lets it float.",
         "Click where its hinge line runs across"},
        {MechanismKind::belt, "belt",
         "A strip round wheels: the chosen round forms, or two at the ends of the body.",
         "Click the side of the body that it runs along"}};
    return words;
}

MechanismSpot spotSeen(const Evaluation& evaluation, BoardView view, const Vec2& at) {
    const Vec3 middle = evaluation.body
                            ? Vec3((evaluation.body->bounds.min + evaluation.body->bounds.max) / 2)
                            : Vec3(Vec3::Zero());
    MechanismSpot spot;
    spot.at = view == BoardView::side    ? Vec3(at.x(), middle.y(), at.y())
              : view == BoardView::front ? Vec3(middle.x(), at.x(), at.y())
                                         : Vec3(at.x(), at.y(), middle.z());
    if (!evaluation.plates || !evaluation.body) return spot;
    std::optional<double> best; // in plan the highest, else the nearest
    for (const Plate& plate : evaluation.plates->plates) {
        if (!isLevelThere(plate, *evaluation.body, spot.at.head<2>())) continue;
        const double z = plate.frame.origin.z();
        const double off = view == BoardView::plan ? -z : std::abs(z - at.y());
        if (best && off >= *best) continue;
        best = off;
        spot.on = plate.name;
    }
    if (view == BoardView::plan && best) spot.at.z() = -*best;
    return spot;
}

std::string newestMechanism(const Project& project, MechanismKind kind) {
    const Mechanisms& m = project.mechanisms;
    const auto last = [](const char* list, std::size_t count) {
        return count == 0 ? std::string()
                          : std::string("/mechanisms/") + list + "/" + std::to_string(count - 1);
    };
    return kind == MechanismKind::turntable  ? last("turntables", m.turntables.size())
           : kind == MechanismKind::trunnion ? last("trunnions", m.trunnions.size())
           : kind == MechanismKind::linkage  ? last("linkages", m.linkages.size())
                                             : last("belts", m.belts.size());
}

Expected<Edit> addMechanism(const Project& project, const Scope& scope, const Evaluation& evaluation,
                            const MechanismStart& start) {
    if (!evaluation.body || project.forms.empty())
        return fail("no-body", "There is no body yet that it could stand on.", {}, "Add a form first.");
    if (!evaluation.plates || evaluation.plates->plates.empty()) return noPlate(project);
    const detail::StartFigures figures{project, scope, evaluation, start};
    switch (start.kind) {
    case MechanismKind::turntable:
        return detail::newTurntable(figures);
    case MechanismKind::trunnion:
        return detail::newTrunnion(figures);
    case MechanismKind::linkage:
        return detail::newLinkage(figures);
    case MechanismKind::belt:
        return detail::newBelt(figures);
    }
    return fail("no-body", "Nothing was chosen to put in.", {}, "Choose a kind of mechanism.");
}

} // namespace slab
