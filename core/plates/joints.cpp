// What happens at each skin edge: by override, by rank, or by the near-flat rule.
#include "core/plates/shell.h"
#include "core/units/units.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::plates {

namespace {

constexpr double pi = std::numbers::pi;
constexpr double angleSlack = 1e-7; ///< radians: 135° exactly still covers

std::string degrees(double radians) {
    return printAngle(radians, 1);
}

/// |90° - θ| > 45°, and the same measured on the other side at a valley.
bool nearFlatOrSharp(double dihedral) {
    const double folded = dihedral > pi ? 2 * pi - dihedral : dihedral;
    return std::abs(pi / 2 - folded) > pi / 4 + angleSlack;
}

bool nearFlat(double dihedral) {
    return std::abs(pi - dihedral) < pi / 4 - angleSlack;
}

/// Half-space of f's side of the bisector of the outer faces, through the edge.
Half bisector(Shell& shell, const SkinEdge& edge, int f) {
    const auto& skin = shell.body.skin;
    const Vec3& a = skin.vertices[at(edge.a)];
    const Vec3 along = (skin.vertices[at(edge.b)] - a).normalized();
    const Vec3 left = shell.face(edge.left).plane.normal.cross(along);
    const Vec3 right = -shell.face(edge.right).plane.normal.cross(along);
    Vec3 away = (right - left).normalized();
    if (f == edge.right) away = -away;
    return shell.planes.add({away, away.dot(a)});
}

/// First match wins; a choice for the plates' own names goes before one for sides merged into them.
const EdgeJoint* overrideFor(const PlateRules& rules, const SkinFace& f, const SkinFace& g, bool& swapped) {
    for (const bool own : {true, false}) {
        const auto is = [own](const SkinFace& face, const std::string& pattern) {
            if (own) return matches(pattern, face.name);
            return matches(pattern, face.name) ||
                   std::any_of(face.aliases.begin(), face.aliases.end(),
                               [&](const std::string& alias) { return matches(pattern, alias); });
        };
        for (const EdgeJoint& e : rules.edges) {
            swapped = is(f, e.b) && is(g, e.a);
            if (swapped || (is(f, e.a) && is(g, e.b))) return &e;
        }
        if (f.aliases.empty() && g.aliases.empty()) break;
    }
    return nullptr;
}

void setMitrePlane(Shell& shell, Bond& bond, const SkinEdge& edge) {
    const double tf = shell.thickness(bond.f), tg = shell.thickness(bond.g);
    const double s = std::sin(bond.dihedral), c = std::cos(bond.dihedral);
    const double bf = tg + tf * c, bg = tf + tg * c; // times 1 / sin θ
    const bool equal = std::abs(tf - tg) < 1e-9;
    const bool steep =
        std::abs(bf) > tf * std::abs(s) * (1 + 1e-9) || std::abs(bg) > tg * std::abs(s) * (1 + 1e-9);
    if (!equal && steep) {
        bond.step = std::abs(tf - tg);
        bond.apart = true;
    }
    if (nearFlat(bond.dihedral)) bond.apart = true;
    bond.plane = equal || bond.step > 0 ? bisector(shell, edge, bond.f) : lesserRatio(shell, bond.f, bond.g);
    if (!equal && bond.step == 0 && bond.valley) bond.plane = bond.plane.other();
    bond.hasPlane = true;
    shell.pairOfPlane.emplace(bond.plane.plane, std::pair(bond.f, bond.g));
}

void decideFree(Shell& shell, Bond& bond) {
    const std::string f = shell.face(bond.f).name, g = shell.face(bond.g).name;
    const int rf = shell.rank(bond.f), rg = shell.rank(bond.g);
    bond.kind = shell.rules.fallback;
    if (bond.kind == JointKind::cover || bond.kind == JointKind::open) {
        bond.open = bond.kind == JointKind::open;
        if (rf == rg) {
            if (!bond.open) bond.kind = JointKind::mitre;
            bond.why = "equal rank: mitred";
        } else if (nearFlatOrSharp(bond.dihedral)) {
            if (!bond.open) bond.kind = JointKind::mitre;
            bond.why = (nearFlat(bond.dihedral) ? "near flat (" : "sharp (") + degrees(bond.dihedral) +
                       "): mitred instead of covered";
        } else {
            bond.covers = rf < rg ? bond.f : bond.g;
            bond.why = rf < rg ? f + " ranks above " + g : g + " ranks above " + f;
        }
        if (bond.open) bond.why = "all joints left open";
    } else {
        bond.why = bond.kind == JointKind::fold ? "all joints folded" : "all joints mitred";
    }
}

void decideForced(Bond& bond, const EdgeJoint& chosen, bool swapped) {
    bond.forced = true;
    bond.kind = chosen.joint;
    bond.covers = -1;
    bond.why = "chosen for this edge";
    if (chosen.joint == JointKind::cover) {
        bond.covers = swapped ? bond.g : bond.f;
        if (bond.dihedral > pi - 1e-6 && bond.dihedral < pi + 1e-6) bond.covers = -1; // nothing to run past
    }
}

void decide(Shell& shell, Bond& bond) {
    const auto& edges = shell.body.skin.edges;
    const SkinEdge& edge = edges[at(bond.edges.front())];
    bond.dihedral = edge.dihedral;
    bond.valley = edge.dihedral > pi;
    const std::string f = shell.face(bond.f).name, g = shell.face(bond.g).name;
    if (!shell.present(bond.f) || !shell.present(bond.g)) {
        bond.kind = JointKind::open;
        bond.open = true;
        bond.why = (shell.present(bond.f) ? g : f) + " is left out";
        return;
    }
    bool swapped = false;
    decideFree(shell, bond);
    if (const EdgeJoint* chosen = overrideFor(shell.rules, shell.face(bond.f), shell.face(bond.g), swapped)) {
        if (chosen->joint == JointKind::open) {
            bond.forced = bond.open = true;
            bond.kind = JointKind::open;
            bond.why = "left open on purpose";
        } else {
            decideForced(bond, *chosen, swapped);
        }
    }
    if (bond.covers < 0) setMitrePlane(shell, bond, edge);
}

double lengthOf(const Skin& skin, int edge) {
    const SkinEdge& e = skin.edges[at(edge)];
    return (skin.vertices[at(e.a)] - skin.vertices[at(e.b)]).norm();
}

} // namespace

Half lesserRatio(Shell& shell, int f, int g) {
    const Plane& pf = shell.face(f).plane;
    const Plane& pg = shell.face(g).plane;
    const double tf = shell.thickness(f), tg = shell.thickness(g);
    const Vec3 n = pg.normal / tg - pf.normal / tf;
    const double length = n.norm();
    const Half half = shell.planes.add({n / length, (pg.offset / tg - pf.offset / tf) / length});
    shell.pairOfPlane.emplace(half.plane, std::pair(f, g));
    return half;
}

void decideJoints(Shell& shell) {
    const Skin& skin = shell.body.skin;
    shell.bondsOfFace.resize(skin.faces.size());
    shell.bondOfEdge.assign(skin.edges.size(), -1);
    for (std::size_t i = 0; i < skin.edges.size(); ++i) {
        const SkinEdge& e = skin.edges[i];
        if (skin.faces[at(e.left)].body != shell.bodyIndex || e.left == e.right) continue;
        shell.edgeAt[{e.a, e.b}] = shell.edgeAt[{e.b, e.a}] = static_cast<int>(i);
        auto& known = shell.bondsOf[std::minmax(e.left, e.right)];
        const bool valley = e.dihedral > pi;
        auto same = std::find_if(known.begin(), known.end(),
                                 [&](int b) { return shell.bonds[at(b)].valley == valley; });
        if (same == known.end()) {
            const int index = static_cast<int>(shell.bonds.size());
            Bond bond;
            bond.f = std::min(e.left, e.right);
            bond.g = std::max(e.left, e.right);
            bond.valley = valley;
            shell.bonds.push_back(bond);
            shell.bondsOfFace[at(bond.f)].push_back(index);
            shell.bondsOfFace[at(bond.g)].push_back(index);
            same = known.insert(known.end(), index);
        }
        shell.bonds[at(*same)].edges.push_back(static_cast<int>(i));
        shell.bondOfEdge[i] = *same;
    }
    for (Bond& bond : shell.bonds) {
        std::stable_sort(bond.edges.begin(), bond.edges.end(),
                         [&](int a, int b) { return lengthOf(skin, a) > lengthOf(skin, b) + 1e-9; });
        decide(shell, bond);
    }
}

Verdict verdict(Shell& shell, int f, int g, const Bond* bond) {
    if (bond) {
        if (!shell.present(f) || !shell.present(g)) return {};
        if (bond->covers >= 0)
            return {(bond->covers == g) != bond->valley ? Claim::always : Claim::never, {}};
        return {Claim::where, f == bond->f ? bond->plane.other() : bond->plane};
    }
    if (shell.rank(f) != shell.rank(g))
        return {shell.rank(g) < shell.rank(f) ? Claim::always : Claim::never, {}};
    const double turn = (shell.face(f).plane.normal - shell.face(g).plane.normal).norm();
    if (turn < 1e-9 && std::abs(shell.thickness(f) - shell.thickness(g)) < 1e-9)
        return {g < f ? Claim::always : Claim::never, {}};
    return {Claim::where, lesserRatio(shell, g, f)};
}

std::vector<Stretch> stretches(Shell& shell, int f, int g) {
    const auto found = shell.bondsOf.find(std::minmax(f, g));
    if (found == shell.bondsOf.end()) return {{}};
    if (found->second.size() == 1) return {{&shell.bonds[at(found->second.front())], {}}};
    const Skin& skin = shell.body.skin;
    struct Part {
        double from, to;
        int bond;
    };
    std::vector<Part> parts;
    const SkinEdge& first = skin.edges[at(shell.bonds[at(found->second.front())].edges.front())];
    const Vec3 along = (skin.vertices[at(first.b)] - skin.vertices[at(first.a)]).normalized();
    for (const int b : found->second)
        for (const int e : shell.bonds[at(b)].edges) {
            const double p = along.dot(skin.vertices[at(skin.edges[at(e)].a)]);
            const double q = along.dot(skin.vertices[at(skin.edges[at(e)].b)]);
            parts.push_back({std::min(p, q), std::max(p, q), b});
        }
    std::sort(parts.begin(), parts.end(), [](const Part& l, const Part& r) { return l.from < r.from; });
    std::vector<Stretch> out{{&shell.bonds[at(parts.front().bond)], {}}};
    for (std::size_t i = 1; i < parts.size(); ++i) {
        if (parts[i].bond == parts[i - 1].bond) continue;
        const Half before = shell.planes.add({along, (parts[i - 1].to + parts[i].from) / 2});
        out.back().within.push_back(before);
        out.push_back({&shell.bonds[at(parts[i].bond)], {before.other()}});
    }
    return out;
}

} // namespace slab::plates
