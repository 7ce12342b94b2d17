#include "core/plates/folds.h"
#include "core/base/index.h"
#include <cmath>
#include <map>
#include <numbers>
#include <numeric>
#include <set>

namespace slab::plates {

namespace {

constexpr double shortest = 0.01; ///< mm: less of a common line is no fold

/// A fold edge of a plate, with its piece of the line on the face that is left whole.
struct FoldSide {
    int plate = 0, loop = 0, edge = 0;
    Vec3 from = Vec3::Zero(), to = Vec3::Zero();
};

std::array<double, 3> middleOf(const JointInfo& joint) {
    const Vec3 p = (joint.from + joint.to) / 2;
    return {p.x(), p.y(), p.z()};
}

bool isValley(const JointInfo& joint) {
    return joint.dihedral > std::numbers::pi;
}

void takeSides(const Plate& plate, int index, int loop, const std::map<int, int>& jointOfMark,
               const PlateSet& set, std::map<int, std::vector<FoldSide>>& out) {
    const PanelLoop& l = loopOf(plate, loop);
    for (std::size_t i = 0; i < l.edges.size(); ++i) {
        const PanelEdge& e = l.edges[i];
        const auto joint = jointOfMark.find(e.mark);
        if (e.role != EdgeRole::fold || joint == jointOfMark.end()) continue;
        const bool valley = isValley(set.joints[at(joint->second)]);
        if (valley && e.inner < 0) continue;
        const Ring& ring = valley ? l.inner : l.outer;
        const std::size_t k = valley ? at(e.inner) : i;
        const double w = valley ? -plate.thickness : 0;
        const auto body = [&](const Vec2& p) { return plate.frame.toBody(Vec3(p.x(), p.y(), w)); };
        out[joint->second].push_back(
            {index, loop, static_cast<int>(i), body(ring[k]), body(ring[(k + 1) % ring.size()])});
    }
}

std::map<int, std::vector<FoldSide>> foldSides(const PlateSet& set) {
    std::map<int, int> jointOfMark;
    for (std::size_t i = 0; i < set.joints.size(); ++i)
        if (set.joints[i].kind == JointKind::fold && set.joints[i].mark > 0)
            jointOfMark[set.joints[i].mark] = static_cast<int>(i);
    std::map<int, std::vector<FoldSide>> sides;
    if (jointOfMark.empty()) return sides;
    for (std::size_t p = 0; p < set.plates.size(); ++p)
        for (std::size_t l = 0; l <= set.plates[p].holes.size(); ++l)
            takeSides(set.plates[p], static_cast<int>(p), static_cast<int>(l), jointOfMark, set, sides);
    return sides;
}

/// What two sides have in common of the line; nothing if less than `shortest`.
std::optional<FoldLine> common(const FoldSide& a, const FoldSide& b, int joint, bool valley) {
    const Vec3 along = (a.to - a.from).normalized();
    const double reach = (a.to - a.from).norm();
    const double p = along.dot(b.from - a.from), q = along.dot(b.to - a.from);
    const double low = std::max(0.0, std::min(p, q)), high = std::min(reach, std::max(p, q));
    if (high - low < shortest) return {};
    return FoldLine{a.plate,
                    b.plate,
                    a.loop,
                    b.loop,
                    a.edge,
                    b.edge,
                    joint,
                    valley,
                    a.from + along * low,
                    a.from + along * high};
}

std::vector<FoldLine> foldLines(const PlateSet& set) {
    std::vector<FoldLine> lines;
    for (const auto& [joint, sides] : foldSides(set))
        for (std::size_t i = 0; i < sides.size(); ++i)
            for (std::size_t k = i + 1; k < sides.size(); ++k) {
                if (set.plates[at(sides[i].plate)].face == set.plates[at(sides[k].plate)].face) continue;
                if (auto line = common(sides[i], sides[k], joint, isValley(set.joints[at(joint)])))
                    lines.push_back(*line);
            }
    return lines;
}

std::string between(const PlateSet& set, const FoldLine& line) {
    return set.plates[at(line.a)].name + " and " + set.plates[at(line.b)].name;
}
std::string aboutEdge(const PlateSet& set, const FoldLine& line) {
    return "edge:" + set.plates[at(line.a)].name + "|" + set.plates[at(line.b)].name;
}

/// Drops folds between unlike sheets, with one finding for a pair of plates.
void dropUnlike(PlateSet& set, std::vector<FoldLine>& lines) {
    std::set<std::pair<int, int>> told;
    std::erase_if(lines, [&](const FoldLine& line) {
        const Plate& a = set.plates[at(line.a)];
        const Plate& b = set.plates[at(line.b)];
        if (a.stock == b.stock && std::abs(a.thickness - b.thickness) < 1e-9) return false;
        if (told.insert(std::minmax(line.a, line.b)).second)
            set.findings.push_back({Severity::stop,
                                    "fold-stock",
                                    "Fold between " + between(set, line) +
                                        ": they are of different stock, so the edge is mitred",
                                    {aboutEdge(set, line)},
                                    "Give both the same stock, or choose a mitre or a cover.",
                                    middleOf(set.joints[at(line.joint)])});
        return true;
    });
}

struct Groups {
    std::vector<int> parent;
    explicit Groups(std::size_t count) : parent(count) { std::iota(parent.begin(), parent.end(), 0); }
    int root(int i) {
        while (parent[at(i)] != i) i = parent[at(i)] = parent[at(parent[at(i)])];
        return i;
    }
};

/// One tree for all plates that hang together; those with a ring are dropped with a finding for each edge
/// that closes one.
std::vector<FoldTree> foldTrees(PlateSet& set, const std::vector<FoldLine>& lines) {
    Groups groups(set.plates.size());
    std::map<std::pair<int, int>, bool> joined; // pair -> valley
    std::vector<int> ringAt;
    for (const FoldLine& line : lines) {
        const auto pair = std::minmax(line.a, line.b);
        const auto known = joined.find(pair);
        if (known != joined.end() && known->second == line.valley) continue; // another piece of the same line
        joined.emplace(pair, line.valley);
        const int a = groups.root(line.a), b = groups.root(line.b);
        if (a != b) {
            groups.parent[at(a)] = b;
            continue;
        }
        ringAt.push_back(a);
        set.findings.push_back(
            {Severity::stop,
             "fold-loop",
             "The fold between " + between(set, line) +
                 " closes a ring of folds: one blank cannot fold all the way round, so its "
                 "plates stay single, with mitred edges",
             {aboutEdge(set, line)},
             "Choose another joint for one edge of the ring.",
             middleOf(set.joints[at(line.joint)])});
    }
    std::set<int> rings;
    for (const int r : ringAt) rings.insert(groups.root(r));
    std::map<int, FoldTree> trees;
    for (const FoldLine& line : lines)
        if (!rings.contains(groups.root(line.a))) trees[groups.root(line.a)].lines.push_back(line);
    std::vector<FoldTree> out;
    for (auto& [root, tree] : trees) {
        for (std::size_t p = 0; p < set.plates.size(); ++p)
            if (groups.root(static_cast<int>(p)) == root) tree.plates.push_back(static_cast<int>(p));
        std::sort(tree.plates.begin(), tree.plates.end(), [&](int l, int r) {
            const Plate &left = set.plates[at(l)], &right = set.plates[at(r)];
            return left.rank != right.rank ? left.rank < right.rank : left.name < right.name;
        });
        out.push_back(std::move(tree));
    }
    return out;
}

Finding clashFinding(const PlateSet& set, const FoldTree& tree, const FoldClash& clash) {
    const std::string a = set.plates[at(tree.plates[at(clash.a)])].name;
    const std::string b = set.plates[at(tree.plates[at(clash.b)])].name;
    const FoldLine& line = tree.lines[at(clash.line)];
    return {Severity::stop,
            "fold-overlap",
            "Laid flat as one blank, " + a + " and " + b +
                " would lie over or against each other, so its plates stay single, with mitred edges",
            {"plate:" + a, "plate:" + b, aboutEdge(set, line)},
            "Choose a mitre or a cover for the fold between " + between(set, line) +
                ": that makes two blanks.",
            std::array<double, 3>{clash.at.x(), clash.at.y(), clash.at.z()}};
}

/// A fold that was not made is a mitre.
void mitreTheRest(PlateSet& set, const std::set<int>& foldedMarks) {
    const auto mitre = [&](std::vector<PanelEdge>& edges) {
        for (PanelEdge& e : edges)
            if (e.role == EdgeRole::fold && !foldedMarks.contains(e.mark)) e.role = EdgeRole::mitre;
    };
    set.plates.ownEach([&](Plate& plate) {
        mitre(plate.boundary.edges);
        mitre(plate.boundary.extraInner);
        for (PanelLoop& hole : plate.holes) {
            mitre(hole.edges);
            mitre(hole.extraInner);
        }
    });
    for (JointInfo& joint : set.joints)
        if (joint.kind == JointKind::fold && joint.mark > 0 && !foldedMarks.contains(joint.mark))
            joint.why += "; it cannot be folded, so it is mitred";
}

} // namespace

const PanelLoop& loopOf(const Plate& plate, int loop) {
    return loop == 0 ? plate.boundary : plate.holes[at(loop - 1)];
}

void joinFolds(PlateSet& set) {
    const auto folds = [](const JointInfo& joint) { return joint.kind == JointKind::fold; };
    if (std::none_of(set.joints.begin(), set.joints.end(), folds)) return;
    std::vector<FoldLine> lines = foldLines(set);
    dropUnlike(set, lines);
    std::set<int> folded;
    for (const FoldTree& tree : foldTrees(set, lines)) {
        FoldClash clash;
        std::optional<Panel> blank = unfold(set, tree, clash);
        if (!blank) {
            set.findings.push_back(clashFinding(set, tree, clash));
            continue;
        }
        set.blanks.push_back(std::move(*blank));
        for (const FoldLine& line : tree.lines) folded.insert(set.joints[at(line.joint)].mark);
    }
    mitreTheRest(set, folded);
}

} // namespace slab::plates
