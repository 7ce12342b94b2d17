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

const EdgeJoint* overrideFor(const PlateRules& rules, const std::string& f, const std::string& g,
                             bool& swapped) {
    for (const EdgeJoint& e : rules.edges) {
        swapped = matches(e.b, f) && matches(e.a, g);
        if (swapped || (matches(e.a, f) && matches(e.b, g))) return &e;
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
    if (const EdgeJoint* chosen = overrideFor(shell.rules, f, g, swapped)) {
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
    for (std::size_t i = 0; i < skin.edges.size(); ++i) {
        const SkinEdge& e = skin.edges[i];
        if (skin.faces[at(e.left)].body != shell.bodyIndex || e.left == e.right) continue;
        const std::pair key = std::minmax(e.left, e.right);
        const auto [where, isNew] = shell.bondOf.try_emplace(key, static_cast<int>(shell.bonds.size()));
        if (isNew) {
            Bond bond;
            bond.f = key.first;
            bond.g = key.second;
            shell.bonds.push_back(bond);
            shell.bondsOfFace[at(key.first)].push_back(where->second);
            shell.bondsOfFace[at(key.second)].push_back(where->second);
        }
        shell.bonds[at(where->second)].edges.push_back(static_cast<int>(i));
    }
    for (Bond& bond : shell.bonds) {
        std::stable_sort(bond.edges.begin(), bond.edges.end(),
                         [&](int a, int b) { return lengthOf(skin, a) > lengthOf(skin, b) + 1e-9; });
        decide(shell, bond);
    }
}

Verdict verdict(Shell& shell, int f, int g) {
    if (const Bond* bond = shell.bond(f, g)) {
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

} // namespace slab::plates
