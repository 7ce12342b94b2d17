// What of the shell no plate fills: claims that go round in a circle, and steps behind bisector cuts.
#include "core/plates/shell.h"
#include "core/plates/zones.h"
#include <algorithm>
#include <array>

namespace slab::plates {

namespace {

/// What is left of `cells` when all plates and the gaps found so far are taken away.
Cells unfilled(const Shell& shell, Cells cells) {
    if (cells.empty()) return cells;
    const Box3 all = bounds(cells);
    const auto take = [&](const Cells& solids) {
        for (const Cell& solid : solids) {
            if (cells.empty() || !boxesMeet(all, bounds(solid))) continue;
            const auto halves = halvesOf(solid);
            Cells rest;
            for (Cell& c : cells) {
                if (boxesMeet(bounds(c), bounds(solid)))
                    subtract(shell.planes, c, halves, rest);
                else
                    rest.push_back(std::move(c));
            }
            cells = std::move(rest);
        }
    };
    for (const int f : shell.faces) take(shell.plates[at(f)]);
    take(shell.gapCells);
    return cells;
}

bool record(Shell& shell, const Cells& cells, std::vector<std::string> names) {
    Misfit gap;
    gap.plates = std::move(names);
    Vec3 sum = Vec3::Zero();
    for (const Cell& c : cells) {
        const double v = volume(c);
        gap.volume += v;
        sum += v * middle(c);
    }
    if (gap.volume < 1e-6) return false;
    gap.at = sum / gap.volume;
    shell.gaps.push_back(std::move(gap));
    shell.gapCells.insert(shell.gapCells.end(), cells.begin(), cells.end());
    return true;
}

void findSteps(Shell& shell) {
    for (const Bond& bond : shell.bonds) {
        if (bond.step <= 0 || bond.valley) continue;
        const bool thicker = shell.thickness(bond.f) > shell.thickness(bond.g);
        const int f = thicker ? bond.f : bond.g, g = thicker ? bond.g : bond.f;
        const std::vector<Half> behind{bond.f == f ? bond.plane.other() : bond.plane, shell.inner[at(g)]};
        Cells cells;
        for (const Cell& c : fullZone(shell, f)) {
            Cell step = clipped(shell.planes, c, behind);
            if (!step.empty()) cells.push_back(std::move(step));
        }
        record(shell, unfilled(shell, std::move(cells)), {shell.face(f).name, shell.face(g).name});
    }
}

/// Half-spaces where `winner` beats `loser`; false if it never does.
bool beats(Shell& shell, int winner, int loser, const Vec3& near, std::vector<Half>& halves) {
    const Verdict v = verdict(shell, loser, winner, shell.bondNear(loser, winner, near));
    if (v.claim == Claim::where) halves.push_back(v.half);
    return v.claim != Claim::never;
}

/// A hand-set joint takes part, so the circle is the builder's choice and stays open.
bool anyForced(const Shell& shell, const std::array<int, 3>& f) {
    for (int i = 0; i < 3; ++i) {
        const Bond* bond = shell.bond(f[at(i)], f[at((i + 1) % 3)]);
        if (bond && bond->forced) return true;
    }
    return false;
}

/// Saddle corner of three faces: the one that meets both others alike (both convex or both valley) while
/// those meet each other the other way. There the solid is o ∪ (p ∩ q) or o ∩ (p ∪ q): p and q settle their
/// claim first, and the winner then meets o; so a circle of claims ends with o. -1 if the corner is no
/// saddle.
int oddFace(const Shell& shell, const std::array<int, 3>& f) {
    std::array<bool, 3> valley{}; // of the pair that leaves face i out
    for (int i = 0; i < 3; ++i) {
        const Bond* bond = shell.bond(f[at((i + 1) % 3)], f[at((i + 2) % 3)]);
        if (!bond) return -1;
        valley[at(i)] = bond->valley;
    }
    for (int i = 0; i < 3; ++i) {
        const bool others = valley[at((i + 1) % 3)];
        if (others == valley[at((i + 2) % 3)] && others != valley[at(i)]) return f[at(i)];
    }
    return -1;
}

/// The joints around a corner go in a circle: says where, how much stays open, and which choice to drop.
void tellCircle(Shell& shell, const std::array<int, 3>& f) {
    const Misfit& gap = shell.gaps.back();
    const Bond* drop = nullptr;
    for (int i = 0; i < 3; ++i) {
        const Bond* bond = shell.bond(f[at(i)], f[at((i + 1) % 3)]);
        if (bond && bond->forced) drop = bond;
    }
    if (!drop) return; // by the ranks alone: the gap itself is reported
    const std::string edge = shell.face(drop->f).name + "|" + shell.face(drop->g).name;
    const std::string text = printVolume(gap.volume, shell.rules.units);
    shell.findings.push_back(
        {Severity::look,
         "joint-cycle",
         "At the corner of " + gap.plates[0] + ", " + gap.plates[1] + " and " + gap.plates[2] +
             " each covers the next: " + text + " stay open",
         {"edge:" + edge, "plate:" + gap.plates[0], "plate:" + gap.plates[1], "plate:" + gap.plates[2]},
         "Drop the joint chosen between " + shell.face(drop->f).name + " and " + shell.face(drop->g).name +
             ", or fill the hole.",
         std::array<double, 3>{gap.at.x(), gap.at.y(), gap.at.z()}});
}

Vec3 middleOfCommonBox(const Shell& shell, const std::array<int, 3>& f) {
    Box3 common = bounds(shell.zones[at(f[0])]);
    for (const int i : {f[1], f[2]}) {
        const Box3 box = bounds(shell.zones[at(i)]);
        common.min = common.min.cwiseMax(box.min);
        common.max = common.max.cwiseMin(box.max);
    }
    return (common.min + common.max) / 2;
}

/// Common part of three zones inside `halves`.
Cells commonCells(const Shell& shell, const Cells& p, const Cells& q, const Cells& r,
                  const std::vector<Half>& halves) {
    Cells cells;
    for (const Cell& a : p)
        for (const Cell& b : q) {
            if (!boxesMeet(bounds(a), bounds(b))) continue;
            const Cell pair = clipped(shell.planes, clipped(shell.planes, a, halves), halvesOf(b));
            if (pair.empty()) continue;
            for (const Cell& c : r) {
                if (!boxesMeet(bounds(pair), bounds(c))) continue;
                Cell common = clipped(shell.planes, pair, halvesOf(c));
                if (!common.empty() && volume(common) > noiseVolume) cells.push_back(std::move(common));
            }
        }
    return cells;
}

void findCircle(Shell& shell, const std::array<int, 3>& f) {
    std::vector<Half> halves;
    const Vec3 near = middleOfCommonBox(shell, f);
    for (int i = 0; i < 3; ++i)
        if (!beats(shell, f[at(i)], f[at((i + 1) % 3)], near, halves)) return;
    Cells cells =
        commonCells(shell, shell.zones[at(f[0])], shell.zones[at(f[1])], shell.zones[at(f[2])], halves);
    cells = unfilled(shell, std::move(cells));
    if (cells.empty()) return;
    const int odd = oddFace(shell, f);
    if (odd >= 0 || !anyForced(shell, f)) {
        const int highest = *std::min_element(f.begin(), f.end(), [&](int a, int b) {
            return std::pair(shell.rank(a), a) < std::pair(shell.rank(b), b);
        });
        const int heir = odd >= 0 ? odd : highest;
        auto& home = shell.plates[at(heir)];
        home.insert(home.end(), cells.begin(), cells.end());
        return;
    }
    std::vector<std::string> names;
    for (const int i : f) names.push_back(shell.face(i).name);
    if (record(shell, cells, names)) tellCircle(shell, f);
}

bool anyApart(const Shell& shell, const std::array<int, 3>& f) {
    for (int i = 0; i < 3; ++i) {
        const Bond* bond = shell.bond(f[at(i)], f[at((i + 1) % 3)]);
        if (bond && bond->apart) return true;
    }
    return false;
}

/// Where zones are parted from each other, bisectors (lesser depth) and mitres (lesser depth / t) may hold
/// each one back behind the next: a small pocket at the corner that belongs to the steps.
void findPocket(Shell& shell, const std::array<int, 3>& f) {
    if (!anyApart(shell, f)) return;
    std::vector<Half> halves;
    const Vec3 near = middleOfCommonBox(shell, f);
    for (int i = 0; i < 3; ++i)
        if (!beats(shell, f[at(i)], f[at((i + 1) % 3)], near, halves)) return;
    const Cells cells =
        commonCells(shell, fullZone(shell, f[0]), fullZone(shell, f[1]), fullZone(shell, f[2]), halves);
    if (cells.empty()) return;
    record(shell, unfilled(shell, cells),
           {shell.face(f[0]).name, shell.face(f[1]).name, shell.face(f[2]).name});
}

/// Calls `visit` for both ways round of every three faces whose boxes meet.
template <class Visit>
void eachTriple(const std::vector<int>& faces, const std::vector<Box3>& boxes, const Job& job, Visit visit) {
    for (std::size_t i = 0; i < faces.size() && !job.stopped(); ++i)
        for (std::size_t j = i + 1; j < faces.size(); ++j) {
            if (!boxesMeet(boxes[at(faces[i])], boxes[at(faces[j])])) continue;
            for (std::size_t k = j + 1; k < faces.size(); ++k) {
                if (!boxesMeet(boxes[at(faces[i])], boxes[at(faces[k])]) ||
                    !boxesMeet(boxes[at(faces[j])], boxes[at(faces[k])]))
                    continue;
                visit(std::array<int, 3>{faces[i], faces[j], faces[k]});
                visit(std::array<int, 3>{faces[i], faces[k], faces[j]});
            }
        }
}

} // namespace

void findGaps(Shell& shell, const Job& job) {
    std::vector<int> faces;
    std::vector<Box3> boxes(shell.zones.size());
    for (const int f : shell.faces)
        if (!shell.zones[at(f)].empty()) {
            faces.push_back(f);
            boxes[at(f)] = bounds(shell.zones[at(f)]);
        }
    eachTriple(faces, boxes, job, [&](const auto& f) { findCircle(shell, f); });
    if (std::none_of(shell.bonds.begin(), shell.bonds.end(), [](const Bond& b) { return b.step > 0; }))
        return;
    findSteps(shell); // after the circles: what they leave is no step
    for (const int f : faces)
        if (!fullZone(shell, f).empty()) boxes[at(f)] = bounds(fullZone(shell, f));
    eachTriple(faces, boxes, job, [&](const auto& f) { findPocket(shell, f); });
}

} // namespace slab::plates
