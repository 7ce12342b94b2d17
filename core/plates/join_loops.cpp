// The outlines of a blank: the loops of its plates on either face, joined where they are folded.
#include "core/base/index.h"
#include "core/plates/folds.h"
#include <cmath>
#include <map>
#include <tuple>

namespace slab::plates {

namespace {

constexpr double nothing = 1e-6; ///< mm: ends of two fold edges this near are one corner

/// An edge of the loops of one face, from its first point to that of the next.
struct Strand {
    Vec2 from = Vec2::Zero();
    int next = -1, prev = -1;
    int part = -1, loop = -1, edge = -1; ///< edge of that ring
    int fold = -1,
        end = 0; ///< a bridge over a fold's groove: 0 or 1; 2 or 3 from the end of the fold line on
    bool gone = false;
};
using Key = std::tuple<int, int, int, int>;

Key keyOf(const Strand& s) {
    return s.fold >= 0 ? Key{-1, s.fold, s.end, 0} : Key{s.part, s.loop, s.edge, 1};
}

struct Loop {
    std::vector<Strand> strands;
    Ring ring;
    double area = 0;
};

class Face {
public:
    Face(const PlateSet& set, const FoldTree& tree, const Panel& panel, bool outside, bool byCorners)
        : m_set(&set), m_tree(&tree), m_panel(&panel), m_outside(outside), m_byCorners(byCorners) {
        for (std::size_t p = 0; p < tree.plates.size(); ++p) {
            const Plate& plate = set.plates[at(tree.plates[p])];
            for (int l = 0; l <= static_cast<int>(plate.holes.size()); ++l) addLoop(static_cast<int>(p), l);
        }
        for (std::size_t f = 0; f < tree.lines.size(); ++f) join(static_cast<int>(f));
    }

    [[nodiscard]] std::vector<Loop> loops() const {
        std::vector<char> seen(m_strands.size(), 0);
        std::vector<Loop> out;
        for (std::size_t i = 0; i < m_strands.size(); ++i) {
            if (seen[i] || m_strands[i].gone) continue;
            Loop loop;
            for (int s = static_cast<int>(i); !seen[at(s)]; s = m_strands[at(s)].next) {
                seen[at(s)] = 1;
                const Strand& strand = m_strands[at(s)];
                const Vec2 to = m_strands[at(strand.next)].from;
                if (strand.edge < 0 && (to - strand.from).norm() < nothing) continue;
                loop.strands.push_back(strand);
            }
            startLow(loop);
            for (const Strand& s : loop.strands) loop.ring.push_back(s.from);
            loop.area = signedArea(loop.ring);
            out.push_back(std::move(loop));
        }
        return out;
    }

private:
    [[nodiscard]] const Ring& ringOf(int part, int loop) const {
        const PanelLoop& l = loopOf(m_set->plates[at(m_tree->plates[at(part)])], loop);
        return m_outside ? l.outer : l.inner;
    }
    void addLoop(int part, int loop) {
        const Ring& ring = ringOf(part, loop);
        const int first = static_cast<int>(m_strands.size()), count = static_cast<int>(ring.size());
        m_first[{part, loop}] = first;
        for (int i = 0; i < count; ++i) {
            Strand s;
            s.from = placed(m_panel->parts[at(part)], ring[at(i)]);
            s.prev = first + (i + count - 1) % count;
            s.next = first + (i + 1) % count;
            s.part = part;
            s.loop = loop;
            s.edge = i;
            m_strands.push_back(s);
        }
    }
    int add(const Vec2& from, int prev, int next) {
        Strand s;
        s.from = from;
        s.prev = prev;
        s.next = next;
        m_strands.push_back(s);
        return static_cast<int>(m_strands.size()) - 1;
    }
    void link(int from, int to) {
        m_strands[at(from)].next = to;
        m_strands[at(to)].prev = from;
    }
    /// The strand to be taken out for a fold: the edge itself, or, where nothing of it is left on this face,
    /// a strand without length at the corner nearest to the fold. -1 = the plate has no such face.
    int strandFor(int part, int loop, int edge, const PanelFold& fold) {
        const Ring& ring = ringOf(part, loop);
        if (ring.empty()) return -1;
        const int first = m_first.at({part, loop});
        const PanelLoop& l = loopOf(m_set->plates[at(m_tree->plates[at(part)])], loop);
        const int k = m_outside ? edge : l.edges[at(edge)].inner;
        if (k >= 0 && !m_strands[at(first + k)].gone) return first + k;
        const Vec2 middle = (fold.from + fold.to) / 2;
        int best = -1;
        for (int i = 0; i < static_cast<int>(ring.size()); ++i) {
            if (m_strands[at(first + i)].gone) continue;
            const double d = (m_strands[at(first + i)].from - middle).norm();
            if (best < 0 || d < (m_strands[at(best)].from - middle).norm()) best = first + i;
        }
        if (best < 0) return -1;
        const int before = m_strands[at(best)].prev;
        const int point = add(m_strands[at(best)].from, before, best);
        link(before, point);
        link(point, best);
        return point;
    }
    void join(int f) {
        const FoldLine& line = m_tree->lines[at(f)];
        const PanelFold& fold = m_panel->folds[at(f)];
        const auto part = [&](int plate) {
            const auto& all = m_tree->plates;
            return static_cast<int>(std::find(all.begin(), all.end(), plate) - all.begin());
        };
        const int x = strandFor(part(line.a), line.loopA, line.edgeA, fold);
        const int y = strandFor(part(line.b), line.loopB, line.edgeB, fold);
        if (x < 0 || y < 0) return;
        const Strand sx = m_strands[at(x)], sy = m_strands[at(y)];
        bridge(f, 0, sx.from, sx.prev, sy.next);
        bridge(f, 1, sy.from, sy.prev, sx.next);
        m_strands[at(x)].gone = m_strands[at(y)].gone = true;
    }
    /// Straight over the groove's mouth, or by way of the end of the fold line where that takes in less.
    void bridge(int f, int end, const Vec2& from, int before, int after) {
        const PanelFold& fold = m_panel->folds[at(f)];
        const Vec2 to = m_strands[at(after)].from, middle = (from + to) / 2;
        const Vec2 corner = (fold.from - middle).norm() < (fold.to - middle).norm() ? fold.from : fold.to;
        before = addBridge(f, end, from, before, after);
        if (m_byCorners && cross2(to - from, corner - from) > nothing * (to - from).norm())
            addBridge(f, end + 2, corner, before, after);
    }
    int addBridge(int fold, int end, const Vec2& from, int before, int after) {
        const int made = add(from, before, after);
        m_strands[at(made)].fold = fold;
        m_strands[at(made)].end = end;
        link(before, made);
        link(made, after);
        return made;
    }
    /// At the lowest, then leftmost corner, like a plate's own outlines.
    static void startLow(Loop& loop) {
        std::size_t first = 0;
        for (std::size_t i = 1; i < loop.strands.size(); ++i) {
            const Vec2 d = loop.strands[i].from - loop.strands[first].from;
            if (d.y() < -1e-6 || (std::abs(d.y()) <= 1e-6 && d.x() < 0)) first = i;
        }
        std::rotate(loop.strands.begin(), loop.strands.begin() + static_cast<std::ptrdiff_t>(first),
                    loop.strands.end());
    }

    const PlateSet* m_set;
    const FoldTree* m_tree;
    const Panel* m_panel;
    bool m_outside, m_byCorners;
    std::vector<Strand> m_strands;
    std::map<std::pair<int, int>, int> m_first;
};

PanelEdge unfolded(PanelEdge e) {
    if (e.role == EdgeRole::fold) e.role = EdgeRole::mitre; // what a fold leaves over of its edge
    return e;
}

struct Labels {
    const PlateSet& set;
    const FoldTree& tree;

    [[nodiscard]] const PanelLoop& loop(const Strand& s) const {
        return loopOf(set.plates[at(tree.plates[at(s.part)])], s.loop);
    }
    /// A bridge along the fold line is what one plate's edge has more than the other's; any other closes the
    /// mouth of a groove.
    [[nodiscard]] PanelEdge bridge(const Strand& s, const Vec2& to, bool whole, const Panel& panel) const {
        PanelEdge e;
        const FoldLine& line = tree.lines[at(s.fold)];
        const auto partOf = [&](int plate) {
            return static_cast<int>(std::find(tree.plates.begin(), tree.plates.end(), plate) -
                                    tree.plates.begin());
        };
        e.part = partOf(line.a);
        if (!whole) return e;
        const PanelLoop& a = loopOf(set.plates[at(line.a)], line.loopA);
        const PanelPart& part = panel.parts[at(e.part)];
        const Vec2 along = placed(part, a.outer[(at(line.edgeA) + 1) % a.outer.size()]) -
                           placed(part, a.outer[at(line.edgeA)]);
        const bool ofA = along.dot(to - s.from) > 0;
        const PanelLoop& owner = ofA ? a : loopOf(set.plates[at(line.b)], line.loopB);
        const int edge = ofA ? line.edgeA : line.edgeB;
        e = unfolded(owner.edges[at(edge)]);
        if (!ofA) e.part = partOf(line.b);
        if (ofA ? line.loopA == 0 : line.loopB == 0) e.own = edge;
        return e;
    }
    [[nodiscard]] PanelEdge outer(const Strand& s, const Vec2& to, const Panel& panel) const {
        if (s.fold >= 0) return bridge(s, to, !tree.lines[at(s.fold)].valley, panel);
        PanelEdge e = unfolded(loop(s).edges[at(s.edge)]);
        e.part = s.part;
        e.own = s.loop == 0 ? s.edge : -1;
        return e;
    }
    [[nodiscard]] PanelEdge inner(const Strand& s, const Vec2& to, const Panel& panel) const {
        if (s.fold >= 0) return bridge(s, to, tree.lines[at(s.fold)].valley, panel);
        PanelEdge e;
        for (const auto* edges : {&loop(s).edges, &loop(s).extraInner})
            for (const PanelEdge& other : *edges)
                if (other.inner == s.edge) e = unfolded(other);
        e.part = s.part;
        return e;
    }
    /// The opening that all edges of a loop belong to, if there is one.
    [[nodiscard]] std::string opening(const Loop& l) const {
        std::string name;
        for (const Strand& s : l.strands) {
            if (s.fold >= 0) continue;
            const std::string& own = loop(s).opening;
            if (own.empty() || (!name.empty() && own != name)) return {};
            name = own;
        }
        return name;
    }
};

/// The strand on the inside face that goes with one on the outside.
Key partner(const Labels& labels, const Strand& s) {
    if (s.fold >= 0) return keyOf(s);
    return {s.part, s.loop, labels.loop(s).edges[at(s.edge)].inner, 1};
}

using Places = std::map<Key, std::pair<int, int>>; ///< strand -> loop, place in it

PanelLoop panelLoop(const Labels& labels, const Loop& outer, const std::vector<Loop>& inners,
                    const Places& places, const Panel& panel) {
    PanelLoop out;
    out.outer = outer.ring;
    out.opening = labels.opening(outer);
    std::map<int, int> votes;
    for (const Strand& s : outer.strands)
        if (const auto found = places.find(partner(labels, s)); found != places.end())
            ++votes[found->second.first];
    int loop = -1;
    for (const auto& [candidate, count] : votes)
        if ((inners[at(candidate)].area < 0) == (outer.area < 0) && (loop < 0 || count > votes[loop]))
            loop = candidate;
    if (loop >= 0) out.inner = inners[at(loop)].ring;
    std::vector<char> used(out.inner.size(), 0);
    for (std::size_t i = 0; i < outer.strands.size(); ++i) {
        const Vec2& to = outer.ring[(i + 1) % outer.ring.size()];
        PanelEdge e = labels.outer(outer.strands[i], to, panel);
        e.length = (to - outer.ring[i]).norm();
        const auto found = places.find(partner(labels, outer.strands[i]));
        e.inner = found != places.end() && found->second.first == loop ? found->second.second : -1;
        if (e.inner >= 0) used[at(e.inner)] = 1;
        out.edges.push_back(std::move(e));
    }
    for (std::size_t k = 0; k < used.size(); ++k) {
        if (used[k]) continue;
        PanelEdge e = labels.inner(inners[at(loop)].strands[k], out.inner[(k + 1) % out.inner.size()], panel);
        e.inner = static_cast<int>(k);
        e.length = 0; // of the outer outline, where it has no edge
        out.extraInner.push_back(std::move(e));
    }
    return out;
}

} // namespace

bool joinLoops(const PlateSet& set, const FoldTree& tree, Panel& panel, bool byCorners) {
    const std::vector<Loop> outers = Face(set, tree, panel, true, byCorners).loops();
    const std::vector<Loop> inners = Face(set, tree, panel, false, byCorners).loops();
    panel.holes.clear();
    Places places;
    for (std::size_t l = 0; l < inners.size(); ++l)
        for (std::size_t k = 0; k < inners[l].strands.size(); ++k)
            places[keyOf(inners[l].strands[k])] = {static_cast<int>(l), static_cast<int>(k)};
    const Labels labels{set, tree};
    bool found = false;
    for (const Loop& outer : outers) {
        if (outer.ring.size() < 3) continue;
        PanelLoop loop = panelLoop(labels, outer, inners, places, panel);
        if (outer.area < 0) {
            panel.holes.push_back(std::move(loop));
            continue;
        }
        if (found) return false;
        found = true;
        panel.boundary = std::move(loop);
    }
    return found;
}

} // namespace slab::plates
