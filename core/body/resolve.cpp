#include "core/body/curve_trouble.h"
#include "core/body/facets.h"
#include "core/body/forms.h"
#include "core/body/reader.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

bool checked(FormReader& reader, const Corners& corners, const std::string& field) {
    if (!reader.ok()) return false;
    const OutlineTrouble trouble = troubleOf(corners);
    if (trouble.code.empty()) return true;
    reader.report(Severity::stop, trouble.code, trouble.message,
                  corners.empty() ? field : field + "/" + std::to_string(trouble.corner), trouble.remedy);
    return false;
}

/// An outline with its curves, checked before and after.
Corners readOutline(FormReader& reader, const std::vector<OutlinePoint>& points,
                    const std::vector<Curve>& curves, FormReader::Plane plane) {
    const Corners plain = reader.outline(points, "outline", plane);
    if (!checked(reader, plain, "outline")) return {};
    const auto arcs = reader.arcs(curves, plain, plane);
    if (!reader.ok()) return {};
    Corners full = withArcs(plain, arcs);
    if (full.size() > 200)
        reader.report(Severity::stop, "outline-long", "the outline has more than 200 points with its facets",
                      "curves", "Use fewer facets.");
    else
        for (const CurveTrouble& trouble :
             {curveTroubleOf(full, plain, arcs, curves),
              plane == FormReader::Plane::xz ? halfTroubleOf(full, plain, arcs, curves) : CurveTrouble{}})
            if (!trouble.code.empty() && reader.ok())
                reader.report(Severity::stop, trouble.code, trouble.message, trouble.field, trouble.remedy);
    return full;
}

Expected<Made> makeSolid(FormReader& reader, const ProfileShape& shape) {
    const Corners outline = readOutline(reader, shape.outline, shape.curves, FormReader::Plane::xz);
    if (!reader.ok()) return fail("", "");
    return makeProfile(outline);
}

Expected<Made> makeSolid(FormReader& reader, const TaperShape& shape) {
    const Corners base = reader.outline(shape.base, "base", FormReader::Plane::xy);
    const Corners top = reader.outline(shape.top, "top", FormReader::Plane::xy);
    const double baseZ = reader.length(shape.base_z, "base_z"), topZ = reader.length(shape.top_z, "top_z");
    if (!reader.ok()) return fail("", "");
    if (base.size() != top.size())
        return fail("taper-corners", "base and top have a different number of corners", "top",
                    "Give both outlines as many corners; two may lie in one place.");
    if (std::abs(topZ - baseZ) < 1e-6)
        return fail("form-flat", "base and top lie at one height", "top_z", "Give the form a height.");
    // One end may come together in a point, a ridge or an outline with fewer corners.
    const bool point = isCollapsed(base), ridge = isCollapsed(top);
    if (point && ridge)
        return fail("form-flat", "base and top have no area", "base", "Give one of them an area.");
    if (!point && !checked(reader, withoutDoubles(base), "base")) return fail("", "");
    if (!ridge && !checked(reader, withoutDoubles(top), "top")) return fail("", "");
    const auto arcs = reader.arcs(shape.curves, base, FormReader::Plane::xy);
    if (!reader.ok()) return fail("", "");
    return makeTaper(withArcs(base, arcs), withArcs(top, topArcs(arcs, base, top, reader.fits())), baseZ,
                     topZ);
}

Expected<Made> makeSolid(FormReader& reader, const FacetShape& shape) {
    return makeFacet(reader, shape);
}

/// One note for sides that are alike, such as the two flanks.
void reportSplits(FormReader& reader, const std::vector<SideSplit>& splits) {
    for (std::size_t i = 0; i < splits.size(); ++i) {
        const SideSplit& s = splits[i];
        const auto alike = [&](const SideSplit& o) { return o.pieces == s.pieces && o.off == s.off; };
        if (std::find_if(splits.begin(), splits.end(), alike) !=
            splits.begin() + static_cast<std::ptrdiff_t>(i))
            continue;
        std::string sides = s.side;
        std::size_t count = 1;
        for (std::size_t k = i + 1; k < splits.size(); ++k)
            if (alike(splits[k])) {
                sides += " and " + splits[k].side;
                ++count;
            }
        reader.report(Severity::note, "side-split",
                      (count > 1 ? "sides " : "side ") + sides + (count > 1 ? " are" : " is") +
                          " not flat (corners up to " + reader.words(s.off) + " off one plane) and " +
                          (count > 1 ? "are" : "is") + " made of " + std::to_string(s.pieces) +
                          " flat pieces" + (count > 1 ? " each" : ""),
                      "", "Move the corners into one plane if it should be a single plate.");
    }
}

/// What the curves' facets miss, once for each hand.
void addFits(FormReader& reader, const Form& form, ResolvedForms& result) {
    for (bool other : {false, true})
        for (CurveFit fit : reader.fits()) {
            if (other && !form.mirror) return;
            fit.form = handName(form, other);
            result.curves.push_back(std::move(fit));
        }
}

template <class S>
void addSolid(FormReader& reader, const Form& form, const S& shape, ResolvedForms& result) {
    auto made = makeSolid(reader, shape);
    const Standing place = readPlacement(reader, form.at);
    if (!reader.ok()) return;
    if (!made) {
        reader.report(made.error(), made.error().where);
        return;
    }
    reportSplits(reader, made->splits);
    addFits(reader, form, result);
    for (bool other : {false, true}) {
        if (other && !form.mirror) break;
        FormSolid solid;
        solid.form = handName(form, other);
        solid.standing = form.standing;
        solid.scales = !reader.usesBuild();
        solid.solid = moved(made->solid, place.rotation, place.translation);
        if (other) solid.solid = moved(solid.solid, Mat3::Identity(), Vec3::Zero(), true);
        result.solids.push_back(std::move(solid));
    }
}

void addShape(FormReader& reader, const Form& form, const ProfileShape& s, ResolvedForms& r) {
    addSolid(reader, form, s, r);
}
void addShape(FormReader& reader, const Form& form, const TaperShape& s, ResolvedForms& r) {
    addSolid(reader, form, s, r);
}
void addShape(FormReader& reader, const Form& form, const FacetShape& s, ResolvedForms& r) {
    addSolid(reader, form, s, r);
}

void addShape(FormReader& reader, const Form& form, const PlateShape& shape, ResolvedForms& result) {
    const Corners outline =
        counterClockwise(readOutline(reader, shape.outline, shape.curves, FormReader::Plane::xy));
    const Standing place = readPlacement(reader, form.at);
    if (!reader.ok()) return;
    addFits(reader, form, result);
    FreePlate plate;
    plate.form = handName(form, false);
    plate.name = plate.form + "/plate";
    plate.frame = {place.translation, place.rotation};
    plate.outline.outer = ringOf(outline);
    result.plates.push_back(plate);
    if (!form.mirror) return;
    // Reflected in y = 0; u is turned round so that the frame stays right-handed and w still points outward.
    plate.form = handName(form, true);
    plate.name = plate.form + "/plate";
    plate.frame.origin.y() = -plate.frame.origin.y();
    plate.frame.axes.row(1) = -plate.frame.axes.row(1);
    plate.frame.axes.col(0) = -plate.frame.axes.col(0);
    for (Vec2& p : plate.outline.outer) p.x() = -p.x();
    plate.outline.outer = reversed(std::move(plate.outline.outer));
    result.plates.push_back(std::move(plate));
}

void addShape(FormReader& reader, const Form& form, const RoundShape& shape, ResolvedForms& result) {
    RoundPart part;
    part.radius = reader.length(shape.diameter, "diameter") / 2;
    part.topRadius =
        shape.top_diameter.empty() ? part.radius : reader.length(shape.top_diameter, "top_diameter") / 2;
    const double length = reader.length(shape.length, "length");
    part.wall = reader.length(shape.wall, "wall", Space::build);
    part.gap = reader.length(shape.gap, "gap", Space::build);
    const Standing place = readPlacement(reader, form.at);
    if (!reader.ok()) return;
    if (part.radius < 0 || part.topRadius < 0 || part.radius + part.topRadius <= 0)
        reader.report(Severity::stop, "round-size", "the diameter is not greater than zero", "diameter",
                      "Type a diameter.");
    if (length == 0)
        reader.report(Severity::stop, "round-size", "the length is zero", "length", "Type a length.");
    if (part.wall < 0 || part.gap < 0)
        reader.report(Severity::stop, "round-size", "wall and gap cannot be less than zero",
                      part.wall < 0 ? "wall" : "gap", "Type a positive length, or leave it empty.");
    if (!reader.ok()) return;
    part.cuts = shape.cuts;
    part.part = shape.part;
    part.base = place.translation;
    part.top = place.translation + place.rotation.col(2) * length;
    part.name = handName(form, false);
    result.rounds.push_back(part);
    if (!form.mirror) return;
    part.name = handName(form, true);
    part.base.y() = -part.base.y();
    part.top.y() = -part.top.y();
    result.rounds.push_back(std::move(part));
}

} // namespace

ResolvedForms resolveForms(const Project& project, const Scope& scope) {
    ResolvedForms result;
    result.units.unit = scope.unit;
    result.scale = scope.scale;
    for (std::size_t i = 0; i < project.forms.size(); ++i) {
        const Form& form = project.forms[i];
        if (form.off) continue;
        FormReader reader(form, i, scope, result.findings);
        std::visit([&](const auto& shape) { addShape(reader, form, shape, result); }, form.shape);
    }
    return result;
}

} // namespace slab
