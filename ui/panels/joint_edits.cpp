#include "ui/panels/joint_edits.h"
#include <algorithm>
#include <set>

namespace slab::ui {

namespace {

bool isPair(const EdgeJoint& edge, const std::string& a, const std::string& b) {
    return (edge.a == a && edge.b == b) || (edge.a == b && edge.b == a);
}

std::string choiceWord(EdgeChoice choice, const std::string& plate, const std::string& neighbour) {
    switch (choice) {
    case EdgeChoice::thisCovers:
        return plate + " covers " + neighbour;
    case EdgeChoice::neighbourCovers:
        return neighbour + " covers " + plate;
    case EdgeChoice::mitre:
        return "Mitre " + plate + " and " + neighbour;
    case EdgeChoice::fold:
        return "Fold between " + plate + " and " + neighbour;
    case EdgeChoice::open:
        return "Leave open between " + plate + " and " + neighbour;
    }
    return {};
}

} // namespace

Edit chooseJoint(const std::string& plate, const std::string& neighbour, EdgeChoice choice) {
    return {choiceWord(choice, plate, neighbour), {}, [=](const Project& project) -> Expected<Project> {
                Project out = project;
                auto& edges = out.joints.edges;
                EdgeJoint joint;
                const auto old = std::find_if(edges.begin(), edges.end(), [&](const EdgeJoint& e) {
                    return isPair(e, plate, neighbour);
                });
                if (old != edges.end()) joint.extra = old->extra;
                std::erase_if(edges, [&](const EdgeJoint& e) { return isPair(e, plate, neighbour); });
                const bool other = choice == EdgeChoice::neighbourCovers;
                joint.a = other ? neighbour : plate;
                joint.b = other ? plate : neighbour;
                joint.joint = choice == EdgeChoice::mitre  ? JointKind::mitre
                              : choice == EdgeChoice::fold ? JointKind::fold
                              : choice == EdgeChoice::open ? JointKind::open
                                                           : JointKind::cover;
                // In front: a wider pattern further down does not hide it.
                edges.insert(edges.begin(), std::move(joint));
                return out;
            }};
}

bool hasOverride(const Project& project, const std::string& plate, const std::string& neighbour) {
    return std::any_of(project.joints.edges.begin(), project.joints.edges.end(),
                       [&](const EdgeJoint& e) { return isPair(e, plate, neighbour); });
}

Edit backToRule(const std::string& plate, const std::string& neighbour) {
    return {"Back to the rule for " + plate + " and " + neighbour,
            {},
            [=](const Project& project) -> Expected<Project> {
                if (!hasOverride(project, plate, neighbour))
                    return fail("no-such-place", "There is no choice of its own for this edge.",
                                plate + " | " + neighbour, "Choose a joint first.");
                Project out = project;
                std::erase_if(out.joints.edges,
                              [&](const EdgeJoint& e) { return isPair(e, plate, neighbour); });
                return out;
            }};
}

Edit markCut(const std::string& panel, const std::string& fingerprint, bool cut) {
    return {(cut ? "Mark cut: " : "Mark not cut: ") + panel,
            {},
            [=](const Project& project) -> Expected<Project> {
                Project out = project;
                std::erase_if(out.cut, [&](const CutPanel& c) { return c.panel == panel; });
                if (cut) out.cut.push_back({panel, fingerprint, {}});
                return out;
            }};
}

std::optional<std::string> cutFingerprint(const Project& project, const std::string& panel) {
    for (const auto& c : project.cut) {
        if (c.panel == panel) return c.fingerprint;
    }
    return std::nullopt;
}

Edit leaveOut(const std::string& plate) {
    return {"Leave out " + plate, {}, [=](const Project& project) -> Expected<Project> {
                Project out = project;
                std::erase_if(out.materials.plates,
                              [&](const PlateMaterial& p) { return p.plates == plate; });
                out.materials.plates.insert(out.materials.plates.begin(), {plate, {}});
                return out;
            }};
}

Edit bringBack(const std::string& plate) {
    return {
        "Bring back " + plate, {}, [=](const Project& project) -> Expected<Project> {
            Project out = project;
            auto& list = out.materials.plates;
            std::erase_if(list, [&](const PlateMaterial& p) { return p.plates == plate && p.stock.empty(); });
            const auto first = std::find_if(list.begin(), list.end(),
                                            [&](const PlateMaterial& p) { return matches(p.plates, plate); });
            // A wider pattern may still leave it out, and a default may be missing.
            if (first != list.end() && first->stock.empty()) {
                if (out.materials.fallback.empty())
                    return fail("no-material", "There is no default stock to make this plate from.", plate,
                                "Choose its material in the table of plates and materials.");
                list.insert(list.begin(), {plate, out.materials.fallback});
            }
            return out;
        }};
}

std::vector<std::string> leftOutPlates(const Body& body, const PlateSet& plates) {
    std::set<std::string, std::less<>> there;
    for (const auto& plate : plates.plates) there.insert(plate.name);
    std::vector<std::string> out;
    for (const auto& face : body.skin.faces) {
        if (!there.contains(face.name)) out.push_back(face.name);
    }
    for (const auto& plate : body.plates) {
        if (!there.contains(plate.name)) out.push_back(plate.name);
    }
    return out;
}

const JointInfo* jointAt(const PlateSet& plates, const std::string& plate, const std::string& neighbour,
                         const Vec3& middle) {
    const JointInfo* best = nullptr;
    double least = 1e300;
    for (const auto& joint : plates.joints) {
        const bool same =
            (joint.a == plate && joint.b == neighbour) || (joint.b == plate && joint.a == neighbour);
        if (!same) continue;
        const double away = ((joint.from + joint.to) / 2 - middle).norm();
        if (away < least) least = away, best = &joint;
    }
    return best;
}

} // namespace slab::ui
