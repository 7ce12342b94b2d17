#include "core/body/curved.h"
#include "core/body/facets.h"
#include "core/body/forms.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

/// The arc as a path with its breaks, whatever it was given by.
void follow(const Arc& arc, const Corners& corners, CurvePath& path, std::vector<double>& breaks) {
    path = arc.path;
    breaks = arc.breaks;
    if (!path.empty()) return;
    const Vec2 &a = corners[arc.edge].at, &b = corners[(arc.edge + 1) % corners.size()].at;
    const double direction = signedArea(ringOf(corners)) < 0 ? -1 : 1, length = (b - a).norm();
    Vec2 outward = Vec2::Zero();
    if (length > 0) outward = direction * Vec2(b.y() - a.y(), a.x() - b.x()) / length;
    path = arcPath(a, b, outward, arc.bulge);
    breaks.clear();
    for (int k = 0; k <= arc.facets; ++k) breaks.push_back(double(k) / arc.facets);
}

void addSides(FormReader& reader, const ProfileShape& shape, std::vector<CurvedSide>& sides) {
    const Corners corners = reader.outline(shape.outline, "outline", FormReader::Plane::xz);
    if (!reader.ok()) return;
    const auto arcs = reader.arcs(shape.curves, corners, FormReader::Plane::xz);
    for (std::size_t k = 0; reader.ok() && k < arcs.size(); ++k) {
        const Arc& arc = arcs[k];
        CurvedSide side;
        side.side = corners[arc.edge].side;
        side.curveIndex = k;
        follow(arc, corners, side.path, side.breaks);
        const Corner &a = corners[arc.edge], &b = corners[(arc.edge + 1) % corners.size()];
        const Vec2 chord = b.at - a.at;
        for (std::size_t i = 0; i < side.breaks.size(); ++i) {
            const bool end = i == 0 || i + 1 == side.breaks.size();
            const double t = (pointAt(side.path, side.breaks[i]) - a.at).dot(chord) /
                             std::max(chord.squaredNorm(), 1e-300);
            side.halves.push_back(!end && i - 1 < arc.halves.size() ? arc.halves[i - 1]
                                                                    : a.half + t * (b.half - a.half));
        }
        sides.push_back(std::move(side));
    }
}

void addSides(FormReader& reader, const TaperShape& shape, std::vector<CurvedSide>& sides) {
    const Corners base = reader.outline(shape.base, "base", FormReader::Plane::xy);
    const Corners top = reader.outline(shape.top, "top", FormReader::Plane::xy);
    const double baseZ = reader.length(shape.base_z, "base_z"), topZ = reader.length(shape.top_z, "top_z");
    if (!reader.ok() || base.size() != top.size()) return;
    const auto arcs = reader.arcs(shape.curves, base, FormReader::Plane::xy);
    if (!reader.ok()) return;
    const auto above = topArcs(arcs, base, top, reader.fits());
    for (std::size_t k = 0; k < arcs.size(); ++k) {
        CurvedSide side;
        side.side = base[arcs[k].edge].side;
        side.curveIndex = k;
        side.baseZ = baseZ;
        side.topZ = topZ;
        follow(arcs[k], base, side.path, side.breaks);
        std::vector<double> same;
        follow(above[k], top, side.top, same);
        sides.push_back(std::move(side));
    }
}

void addSides(FormReader&, const PlateShape&, std::vector<CurvedSide>&) {}
void addSides(FormReader&, const RoundShape&, std::vector<CurvedSide>&) {}
void addSides(FormReader&, const FacetShape&, std::vector<CurvedSide>&) {}

} // namespace

Vec3 CurvedSide::at(double t, double v) const {
    const Vec2 p = pointAt(path, t);
    Vec3 local;
    if (top.empty()) {
        const auto after = std::upper_bound(breaks.begin() + 1, breaks.end() - 1, t) - breaks.begin();
        const auto i = static_cast<std::size_t>(after - 1);
        const double share = (t - breaks[i]) / (breaks[i + 1] - breaks[i]);
        local = Vec3(p.x(), (2 * v - 1) * (halves[i] + share * (halves[i + 1] - halves[i])), p.y());
    } else {
        const Vec2 q = p + v * (pointAt(top, t) - p);
        local = Vec3(q.x(), q.y(), baseZ + v * (topZ - baseZ));
    }
    Vec3 placed = frame.toBody(local);
    if (mirrored) placed.y() = -placed.y();
    return placed;
}

std::vector<CurvedSide> curvedSides(const Project& project, const Scope& scope) {
    std::vector<CurvedSide> result;
    for (std::size_t i = 0; i < project.forms.size(); ++i) {
        const Form& form = project.forms[i];
        if (form.off) continue;
        std::vector<Finding> ignored;
        FormReader reader(form, i, scope, ignored);
        std::vector<CurvedSide> sides;
        std::visit([&](const auto& shape) { addSides(reader, shape, sides); }, form.shape);
        const Standing place = readPlacement(reader, form.at);
        if (!reader.ok()) continue;
        for (const bool other : {false, true})
            for (CurvedSide side : sides) {
                if (other && !form.mirror) break;
                side.form = handName(form, other);
                side.formIndex = i;
                side.frame = {place.translation, place.rotation};
                side.mirrored = other;
                result.push_back(std::move(side));
            }
    }
    return result;
}

std::vector<FlatMove> flatMoves(const Project& project, const Scope& scope) {
    std::vector<FlatMove> result;
    for (std::size_t i = 0; i < project.forms.size(); ++i) {
        const auto* shape = std::get_if<FacetShape>(&project.forms[i].shape);
        if (!shape || !shape->flatten || project.forms[i].off) continue;
        std::vector<Finding> ignored;
        FormReader reader(project.forms[i], i, scope, ignored);
        if (!makeFacet(reader, *shape) || !reader.ok()) continue;
        for (FlatMove move : reader.flats()) {
            move.form = project.forms[i].name;
            result.push_back(std::move(move));
        }
    }
    return result;
}

} // namespace slab
