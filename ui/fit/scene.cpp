#include "ui/fit/scene.h"
#include "core/mechanisms/shown.h"
#include "ui/fit/section.h"
#include "ui/session/follow.h"
#include <algorithm>
#include <bit>
#include <map>
#include <numbers>
#include <set>

namespace slab::ui {

namespace {

constexpr double creaseCosine = 0.966; // 15°: facets of round holes and pipes show no lines

std::uint64_t mixed(std::uint64_t hash, std::uint64_t value) {
    hash ^= value + 0x9e3779b97f4a7c15ULL + (hash << 6) + (hash >> 2);
    return hash * 0xff51afd7ed558ccdULL;
}

std::uint64_t mixed(std::uint64_t hash, double value) {
    return mixed(hash, std::bit_cast<std::uint64_t>(value));
}

void grow(Box3& box, const Box3& by, bool& any) {
    box = any ? united(box, by) : by;
    any = true;
}

Plane planeOf(const SectionCut& section) {
    Vec3 normal = Vec3::Zero();
    normal[section.axis] = section.keepBelow ? 1 : -1;
    return {normal, section.keepBelow ? section.at : -section.at};
}

/// Cone or cylinder as a closed solid of flat sides.
Polyhedron roundSolid(const RoundPart& part) {
    constexpr int sides = 32;
    Polyhedron out;
    const Vec3 axis = (part.top - part.base).normalized();
    const Vec3 any = std::abs(axis.z()) < 0.9 ? Vec3::UnitZ() : Vec3::UnitX();
    const Vec3 u = any.cross(axis).normalized(), v = axis.cross(u);
    for (const bool top : {false, true}) {
        for (int i = 0; i < sides; ++i) {
            const double angle = 2 * std::numbers::pi * i / sides;
            const double r = top ? part.topRadius : part.radius;
            out.vertices.push_back((top ? part.top : part.base) +
                                   (u * std::cos(angle) + v * std::sin(angle)) * r);
        }
    }
    std::vector<int> base, lid;
    for (int i = 0; i < sides; ++i) {
        const int k = (i + 1) % sides;
        base.insert(base.begin(), i);
        lid.push_back(sides + i);
        const auto at = [&](int index) { return out.vertices[static_cast<std::size_t>(index)]; };
        const Vec3 normal = (at(k) - at(i)).cross(at(sides + i) - at(i)).normalized();
        out.faces.push_back({{normal, normal.dot(at(i))}, {{i, k, sides + k, sides + i}}, "side"});
    }
    out.faces.push_back({{-axis, -axis.dot(part.base)}, {base}, "base"});
    out.faces.push_back({{axis, axis.dot(part.top)}, {lid}, "top"});
    return out;
}

} // namespace

std::uint64_t hashOf(const Polyhedron& solid) {
    std::uint64_t hash = mixed(0, solid.vertices.size());
    for (const auto& v : solid.vertices) hash = mixed(mixed(mixed(hash, v.x()), v.y()), v.z());
    for (const auto& face : solid.faces) {
        hash = mixed(hash, face.loops.size());
        for (const auto& loop : face.loops) {
            for (const int v : loop) hash = mixed(hash, static_cast<std::uint64_t>(v));
        }
    }
    return hash;
}

SceneMesh meshOf(const Polyhedron& solid, bool rounded) {
    SceneMesh mesh;
    std::map<std::pair<int, int>, const PolyFace*> first;
    const auto at = [&](int i) { return solid.vertices[static_cast<std::size_t>(i)]; };
    for (const auto& face : solid.faces) {
        const auto triangles = triangulateFace(solid, face);
        mesh.triangles.insert(mesh.triangles.end(), triangles.begin(), triangles.end());
        for (const auto& loop : face.loops) {
            for (std::size_t i = 0; i < loop.size() && !rounded; ++i) {
                const auto [a, b] = std::minmax(loop[i], loop[(i + 1) % loop.size()]);
                const auto [it, fresh] = first.try_emplace({a, b}, &face);
                if (fresh) continue;
                const bool crease = it->second->plane.normal.dot(face.plane.normal) < creaseCosine;
                if (crease) mesh.lines.insert(mesh.lines.end(), {at(a), at(b)});
                first.erase(it);
            }
        }
    }
    // Borders of an open shell have one face only.
    for (const auto& [edge, face] : first)
        mesh.lines.insert(mesh.lines.end(), {at(edge.first), at(edge.second)});
    return mesh;
}

bool onlySkin(const Evaluation& evaluation) {
    return evaluation.body && !evaluation.body->skin.faces.empty() &&
           (!evaluation.plates || evaluation.plates->plates.empty());
}

Box3 shellBounds(const Evaluation& evaluation) {
    Box3 out;
    bool any = false;
    if (onlySkin(evaluation))
        for (const auto& v : evaluation.body->skin.vertices) grow(out, {v, v}, any);
    if (!evaluation.plates) return out;
    for (const auto& plate : evaluation.plates->plates) {
        if (!plate.solid.vertices.empty()) grow(out, bounds(plate.solid), any);
    }
    return out;
}

Vec3 apartShift(const Plate& plate, double apart) {
    return plate.frame.axes.col(2) * apart;
}

const SceneBuilder::Kept& SceneBuilder::meshFor(const std::string& id, const Polyhedron& solid,
                                                const std::optional<SectionCut>& section, bool rounded) {
    std::uint64_t source = hashOf(solid);
    bool cut = false;
    if (section) {
        // A plane that misses the solid on the kept side changes nothing.
        const Plane plane = planeOf(*section);
        cut = std::any_of(solid.vertices.begin(), solid.vertices.end(),
                          [&](const Vec3& v) { return plane.distance(v) > 1e-9; });
        if (cut)
            source = mixed(mixed(source, section->at),
                           static_cast<std::uint64_t>(section->axis * 2 + section->keepBelow));
    }
    auto it = std::lower_bound(m_kept.begin(), m_kept.end(), id,
                               [](const auto& entry, const std::string& key) { return entry.first < key; });
    if (it == m_kept.end() || it->first != id) it = m_kept.insert(it, {id, {}});
    Kept& kept = it->second;
    if (!kept.mesh || kept.source != source) {
        kept.source = kept.hash = source;
        kept.mesh = std::make_shared<const SceneMesh>(
            meshOf(cut ? clipped(solid, planeOf(*section)) : solid, rounded));
        ++m_made;
    }
    return kept;
}

namespace {

/// Names of frames' boards and of cleats: they stand inside the shell.
std::set<std::string, std::less<>> insideParts(const Evaluation& evaluation) {
    std::set<std::string, std::less<>> names;
    if (evaluation.frames)
        for (const Plate& part : evaluation.frames->parts) names.insert(part.name);
    if (evaluation.cleats)
        for (const Plate& part : evaluation.cleats->parts) names.insert(part.name);
    return names;
}

void addOpeningLines(const Plate& plate, const std::string& opening, const Vec3& shift, Scene& scene) {
    for (const PanelLoop& hole : plate.holes) {
        if (hole.opening != opening) continue;
        for (std::size_t i = 0; i < hole.outer.size(); ++i)
            scene.edge.insert(scene.edge.end(),
                              {plate.frame.toBody(hole.outer[i]) + shift,
                               plate.frame.toBody(hole.outer[(i + 1) % hole.outer.size()]) + shift});
    }
}

bool isChosen(const Plate& plate, const SceneOptions& options) {
    if (options.alsoChosen.contains(plate.name)) return true;
    return options.chosenPlate.empty() ? isOfForm(plate.form, options.chosenForm)
                                       : plate.name == options.chosenPlate;
}

} // namespace

void SceneBuilder::addPlates(const Evaluation& evaluation, const SceneOptions& options, Scene& scene) {
    if (!evaluation.plates) return;
    const auto inside = insideParts(evaluation);
    for (const auto& plate : evaluation.plates->plates) {
        const bool within = inside.contains(plate.name);
        if (within && !options.frames) continue;
        const Kept& kept = meshFor(plate.name, plate.solid, options.section);
        SceneItem item{plate.name,
                       ItemKind::plate,
                       {},
                       kept.mesh,
                       kept.hash,
                       apartShift(plate, options.apart),
                       isChosen(plate, options),
                       FitState::fits,
                       within};
        if (!options.chosenOpening.empty()) addOpeningLines(plate, options.chosenOpening, item.shift, scene);
        if (const Sheet* sheet = evaluation.stock ? evaluation.stock->find(plate.stock) : nullptr)
            item.stockKind = sheet->kind;
        else if (plate.density > 0) // timber
            item.stockKind = "plywood";
        if (plate.name == options.chosenPlate && options.chosenEdge >= 0) {
            const Ring& outer = plate.boundary.outer;
            const auto i = static_cast<std::size_t>(options.chosenEdge);
            if (i < outer.size())
                scene.edge = {plate.frame.toBody(outer[i]) + item.shift,
                              plate.frame.toBody(outer[(i + 1) % outer.size()]) + item.shift};
        }
        scene.items.push_back(std::move(item));
    }
}

void SceneBuilder::addRounds(const Evaluation& evaluation, const SceneOptions& options, Scene& scene) {
    if (!evaluation.body) return;
    const auto rounds = evaluation.mechanisms ? shownRounds(*evaluation.mechanisms, evaluation.body->rounds)
                                              : evaluation.body->rounds;
    for (const auto& part : rounds) {
        if ((part.top - part.base).norm() < 1e-6 || std::max(part.radius, part.topRadius) <= 0) continue;
        const Kept& kept = meshFor("round/" + part.name, roundSolid(part), options.section);
        const bool chosen = part.name == options.chosenSolid || options.alsoChosen.contains(part.name);
        scene.items.push_back({part.name, ItemKind::round, "card", kept.mesh, kept.hash, Vec3::Zero(), chosen,
                               FitState::fits, false});
    }
}

void SceneBuilder::addMechanisms(const Evaluation& evaluation, const SceneOptions& options, Scene& scene) {
    if (!evaluation.mechanisms) return;
    for (const ShownSolid& part : shownSolids(*evaluation.mechanisms)) {
        const Kept& kept = meshFor("mechanism/" + part.name, part.solid, options.section);
        scene.items.push_back({part.name, ItemKind::round, "plastic", kept.mesh, kept.hash, Vec3::Zero(),
                               part.name == options.chosenSolid, FitState::fits, false});
    }
}

void SceneBuilder::addSkin(const Evaluation& evaluation, const SceneOptions& options, Scene& scene) {
    if (!onlySkin(evaluation)) return;
    const Skin& skin = evaluation.body->skin;
    for (int body = 0; body < skin.bodies; ++body) {
        const auto first = std::find_if(skin.faces.begin(), skin.faces.end(),
                                        [&](const SkinFace& face) { return face.body == body; });
        if (first == skin.faces.end()) continue;
        const Kept& kept = meshFor("skin/" + first->form, toPolyhedron(skin, body), options.section);
        scene.items.push_back({first->form,
                               ItemKind::round,
                               {},
                               kept.mesh,
                               kept.hash,
                               Vec3::Zero(),
                               isOfForm(first->form, options.chosenForm),
                               FitState::fits,
                               false});
    }
}

void SceneBuilder::addSolids(const Evaluation& evaluation, const SceneOptions& options, Scene& scene) {
    if (!evaluation.donor) return;
    for (const auto& solid : evaluation.donor->solids) {
        const bool rider = solid.group == "rider";
        if (rider ? !options.rider : !options.donor) continue;
        const bool rounded = solid.shape.kind == ConvexSolid::Kind::hull && solid.shape.radius > 0;
        const Kept& kept =
            meshFor("solid/" + solid.name, toPolyhedron(solid.shape, 24), std::nullopt, rounded);
        const ItemKind kind = solid.moving ? ItemKind::sweep : rider ? ItemKind::rider : ItemKind::donor;
        scene.items.push_back({solid.name,
                               kind,
                               {},
                               kept.mesh,
                               kept.hash,
                               Vec3::Zero(),
                               solid.name == options.chosenSolid,
                               FitState::fits,
                               false});
    }
}

Scene SceneBuilder::build(const Evaluation& evaluation, const SceneOptions& options) {
    Scene scene;
    addPlates(evaluation, options, scene);
    addRounds(evaluation, options, scene);
    addMechanisms(evaluation, options, scene);
    addSkin(evaluation, options, scene);
    scene.shell = shellBounds(evaluation);
    if (evaluation.trial) scene.marks = rideMarks(*evaluation.trial, options.marks);
    scene.marks.insert(scene.marks.end(), options.places.begin(), options.places.end());
    bool any = onlySkin(evaluation);
    if (any) scene.bounds = scene.shell;
    if (evaluation.plates) {
        for (const auto& plate : evaluation.plates->plates) {
            if (plate.solid.vertices.empty()) continue;
            const Box3 box = bounds(plate.solid);
            const Vec3 shift = apartShift(plate, options.apart);
            grow(scene.bounds, {box.min + shift, box.max + shift}, any);
        }
    }
    const std::size_t firstSolid = scene.items.size();
    addSolids(evaluation, options, scene);
    for (std::size_t i = firstSolid; i < scene.items.size(); ++i) {
        Box3 box;
        bool some = false;
        for (const auto& p : scene.items[i].mesh->triangles) grow(box, {p, p}, some);
        if (some) grow(scene.bounds, box, any);
    }
    if (!evaluation.fit) return scene;
    std::map<std::string, std::size_t, std::less<>> byId;
    for (std::size_t i = 0; i < scene.items.size(); ++i) byId.emplace(scene.items[i].id, i);
    for (const auto& pair : evaluation.fit->pairs) {
        if (pair.state == FitState::fits) continue;
        const auto solid = byId.find(pair.solid), plate = byId.find(pair.plate);
        if (solid == byId.end() || plate == byId.end()) continue;
        for (const auto at : {solid->second, plate->second})
            scene.items[at].state = std::max(scene.items[at].state, pair.state);
        scene.links.push_back({pair.solid, pair.plate, pair.onSolid,
                               pair.onPlate + scene.items[plate->second].shift, pair.state,
                               pair.state == FitState::hits ? std::string("hits")
                                                            : printLength(pair.clearance, options.units)});
    }
    return scene;
}

} // namespace slab::ui
