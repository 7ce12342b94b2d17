#include "core/evaluate/trial_stage.h"
#include "core/plates/openings.h"
#include "core/trial/stuff.h"
#include <algorithm>
#include <array>

namespace slab {

namespace {

std::vector<trial::PlateOpening> openingsOf(const Project& project, const Evaluation& e) {
    std::vector<trial::PlateOpening> out;
    const std::vector<NumberedOpening> openings = readOpenings(project, *e.scope);
    for (std::size_t i = 0; i < e.plates->plates.size(); ++i) {
        const Plate& plate = e.plates->plates[i];
        if (!takesOpenings(plate, *e.body)) continue;
        for (FlatOpening& flat : openingsOn(plate, *e.body, openings)) {
            const std::string purpose = project.openings[static_cast<std::size_t>(flat.index)].purpose;
            out.push_back({i, std::move(flat), purpose});
        }
    }
    return out;
}

/// Faces of the skin that no plate closes.
void addBare(const Evaluation& e, std::vector<double>& areas, std::vector<Vec3>& middles) {
    const Skin& skin = e.body->skin;
    std::vector<bool> closed(skin.faces.size());
    for (const Plate& plate : e.plates->plates)
        if (plate.face >= 0 && static_cast<std::size_t>(plate.face) < closed.size())
            closed[static_cast<std::size_t>(plate.face)] = true;
    for (std::size_t i = 0; i < closed.size(); ++i) {
        if (closed[i] || skin.faces[i].loops.empty()) continue;
        Vec3 middle = Vec3::Zero(), twice = Vec3::Zero(); // vector area: holes run the other way round
        const auto& outer = skin.faces[i].loops.front();
        const auto at = [&](int v) -> const Vec3& { return skin.vertices[static_cast<std::size_t>(v)]; };
        for (const int v : outer) middle += at(v);
        for (const auto& loop : skin.faces[i].loops)
            for (std::size_t k = 0; k < loop.size(); ++k)
                twice += (at(loop[k]) - at(outer[0])).cross(at(loop[(k + 1) % loop.size()]) - at(outer[0]));
        areas.push_back(twice.norm() / 2);
        middles.push_back(middle / static_cast<double>(std::max<std::size_t>(outer.size(), 1)));
    }
}

/// Gaps that close on a finger: what comes so near in some pose, and not in all.
std::vector<trial::Gap> closingGaps(const MechanismSet& set) {
    constexpr double fingertip = 12, tooNarrow = 5; // mm, EN 71-1:2005+A8 A.14: 12 does not protect one
    std::vector<trial::Gap> out;
    const auto hazards = ride::gapHazards((fingertip + tooNarrow) / 2, true);
    const auto closes =
        std::find_if(hazards->begin(), hazards->end(), [](const auto& r) { return r.moving; });
    for (const SweptCheck& c : set.checks)
        if (!c.at.empty() && c.clearance >= 0 && c.clearance < fingertip)
            out.push_back(
                {c.moving + " and " + c.fixed, c.clearance, true,
                 std::string(closes->what) + ", " + c.pose + " (" + std::string(closes->section) + ")",
                 c.onFixed});
    return out;
}

/// The first pin in a slot, else the first hinge.
std::optional<trial::FloatLink> linkOf(const Project& project, const Scope& scope) {
    const Linkage* link = nullptr;
    for (const Linkage& l : project.mechanisms.linkages)
        if (!l.off && (!link || (link->joint == "hinge" && l.joint != "hinge"))) link = &l;
    if (!link) return std::nullopt;
    trial::FloatLink out{link->name, Vec3::Zero()};
    const std::array<const Text*, 3> place{&link->at.x, &link->at.y, &link->at.z};
    for (int k = 0; k < 3; ++k)
        if (const Text& text = *place[static_cast<std::size_t>(k)]; !text.empty())
            if (const auto q = evaluate(text, scope, Space::build, Kind::length)) out.at[k] = q->value;
    return out;
}

} // namespace

std::shared_ptr<const trial::Trial> TrialStage::tried(const Project& project, const Evaluation& e,
                                                      Effort effort) {
    const auto depth = effort >= Effort::verdict  ? trial::Depth::full
                       : effort == Effort::windy  ? trial::Depth::windy
                       : effort == Effort::survey ? trial::Depth::survey
                                                  : trial::Depth::live;
    Key key{e.body,       e.plates,         e.stock,  e.donor, e.mechanisms,           project.route,
            project.ride, project.openings, *e.scope, e.units, static_cast<int>(depth)};
    return m_tried.get(std::move(key), [&] {
        std::vector<Finding> found;
        const auto ride = trial::resolveRide(project, *e.scope, e.donor->chassis, found);
        const auto route = trial::resolveRoute(project, *e.scope, found);
        const auto bought = boughtParts(*e.mechanisms, *e.body);
        const auto openings = openingsOf(project, e);
        trial::Stuff stuff{*e.plates, *e.stock, bought,   *e.donor,
                           ride,      route,    openings, e.mechanisms->floating,
                           {},        {},       e.units};
        addBare(e, stuff.bare, stuff.bareAt);
        if (depth == trial::Depth::full) stuff.closing = closingGaps(*e.mechanisms);
        if (!e.mechanisms->floating.poses.empty()) stuff.link = linkOf(project, *e.scope);
        stuff.depth = depth;
        trial::Trial tried = trial::tryOut(std::move(stuff));
        tried.findings.insert(tried.findings.begin(), found.begin(), found.end());
        return tried;
    });
}

} // namespace slab
