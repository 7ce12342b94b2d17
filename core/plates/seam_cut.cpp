// Clipping at a line by following the rings from crossing to crossing. Corners on the line count as beyond
// it, as if the line were moved by next to nothing into the part that is kept: so no case is special.
#include "core/plates/seam_cut.h"
#include "core/base/index.h"
#include <algorithm>
#include <cmath>
#include <numeric>

namespace slab::plates {

namespace {

constexpr double onLine = 1e-7;   ///< mm
constexpr double noLength = 1e-9; ///< mm: shorter edges are none

TracedRing tracedRing(const Ring& ring, int loop) {
    TracedRing out{ring, {}};
    for (std::size_t i = 0; i < ring.size(); ++i) out.sources.push_back({loop, static_cast<int>(i)});
    return out;
}

/// Where a ring passes the line, on its way out of the kept part or back into it.
struct Crossing {
    bool leaves = false;
    double t = 0;     ///< along the line, in the direction that has the kept part on its left
    double slope = 0; ///< of t, per mm into the kept part
    Vec2 point = Vec2::Zero();
    std::size_t ring = 0, edge = 0;
};

class Clipper {
public:
    Clipper(const TracedPolygon& polygon, const CutLine& line, bool above, int seam)
        : m_line(line), m_side(above ? 1 : -1), m_seam(seam) {
        m_rings.push_back(&polygon.outer);
        for (const TracedRing& hole : polygon.holes) m_rings.push_back(&hole);
        m_along = above ? Vec2(line.normal.y(), -line.normal.x()) : line.along();
    }

    std::vector<TracedPolygon> clip() {
        std::vector<std::size_t> whole;
        for (std::size_t r = 0; r < m_rings.size(); ++r) look(r, whole);
        pairUp();
        std::vector<TracedPolygon> out;
        if (!whole.empty() && whole.front() == 0) out.push_back({*m_rings[0], {}});
        std::vector<char> done(m_crossings.size(), 0);
        for (std::size_t c = 0; c < m_crossings.size(); ++c)
            if (!m_crossings[c].leaves && !done[c]) {
                TracedRing ring = follow(c, done);
                if (ring.points.size() >= 3 && std::abs(signedArea(ring.points)) > 1e-12)
                    out.push_back({std::move(ring), {}});
            }
        for (const std::size_t r : whole) {
            if (r == 0) continue;
            const Vec2& p = m_rings[r]->points.front();
            for (TracedPolygon& part : out)
                if (out.size() == 1 || slab::contains(part.outer.points, p, 1e-9)) {
                    part.holes.push_back(*m_rings[r]);
                    break;
                }
        }
        return out;
    }

private:
    /// Sided distance from the line; exactly 0 on it.
    [[nodiscard]] double depth(const Vec2& p) const {
        const double d = m_line.beyond(p);
        return std::abs(d) <= onLine ? 0 : m_side * d;
    }
    [[nodiscard]] double along(const Vec2& p) const { return m_along.dot(p); }

    void look(std::size_t r, std::vector<std::size_t>& whole) {
        const Ring& ring = m_rings[r]->points;
        const std::size_t n = ring.size();
        bool all = true;
        for (std::size_t i = 0; i < n; ++i) {
            const Vec2 &a = ring[i], &b = ring[(i + 1) % n];
            const double da = depth(a), db = depth(b);
            all = all && da > 0;
            if (da == 0 && db == 0 && along(b) > along(a)) m_flush.push_back({along(a), along(b), r, i});
            if ((da > 0) == (db > 0)) continue;
            Crossing c;
            c.leaves = da > 0;
            // In the ring's own order, so that both sides of the line get the same point.
            c.point = da == 0 ? a : db == 0 ? b : Vec2(a + (b - a) * (da / (da - db)));
            c.t = along(c.point);
            const Vec2& kept = c.leaves ? a : b;
            c.slope = (along(kept) - c.t) / std::max(da, db);
            c.ring = r;
            c.edge = i;
            m_crossings.push_back(c);
        }
        if (all) whole.push_back(r);
    }

    /// Along the line the inside begins where a ring leaves the kept part and ends where one comes back.
    void pairUp() {
        std::vector<std::size_t> order(m_crossings.size());
        std::iota(order.begin(), order.end(), 0);
        std::stable_sort(order.begin(), order.end(), [&](std::size_t l, std::size_t r) {
            const Crossing &a = m_crossings[l], &b = m_crossings[r];
            return std::abs(a.t - b.t) > noLength ? a.t < b.t : a.slope < b.slope;
        });
        m_partner.assign(m_crossings.size(), 0);
        for (std::size_t i = 0; i + 1 < order.size(); i += 2) {
            m_partner[order[i]] = order[i + 1];
            m_partner[order[i + 1]] = order[i];
        }
    }

    static void add(TracedRing& ring, const Vec2& point, const EdgeSource& source) {
        if (!ring.points.empty() && (ring.points.back() - point).norm() <= noLength) {
            ring.sources.back() = source; // the edge before has no length
            return;
        }
        ring.points.push_back(point);
        ring.sources.push_back(source);
    }

    /// From where a ring comes back to where it leaves, and on along the line, until round.
    TracedRing follow(std::size_t start, std::vector<char>& done) {
        TracedRing out;
        std::size_t c = start;
        while (!done[c]) {
            done[c] = 1;
            const Crossing& back = m_crossings[c];
            const TracedRing& ring = *m_rings[back.ring];
            const std::size_t n = ring.points.size();
            add(out, back.point, ring.sources[back.edge]);
            std::size_t i = (back.edge + 1) % n;
            while (depth(ring.points[(i + 1) % n]) > 0) {
                add(out, ring.points[i], ring.sources[i]);
                i = (i + 1) % n;
            }
            add(out, ring.points[i], ring.sources[i]);
            const auto leaves = std::find_if(m_crossings.begin(), m_crossings.end(), [&](const Crossing& o) {
                return o.leaves && o.ring == back.ring && o.edge == i;
            });
            if (leaves == m_crossings.end()) break;
            const std::size_t next = m_partner[static_cast<std::size_t>(leaves - m_crossings.begin())];
            runAlong(out, leaves->point, m_crossings[next].point);
            c = next;
        }
        while (out.points.size() > 1 && (out.points.front() - out.points.back()).norm() <= noLength) {
            out.points.pop_back();
            out.sources.pop_back();
        }
        return out;
    }

    /// The seam from one point to the next; what was an edge there already stays that edge.
    void runAlong(TracedRing& out, const Vec2& from, const Vec2& to) const {
        double t = along(from);
        const double end = along(to);
        const auto at = [&](double s) { return Vec2(from + m_along * (s - along(from))); };
        std::vector<Flush> flush = m_flush;
        std::sort(flush.begin(), flush.end(), [](const Flush& a, const Flush& b) { return a.from < b.from; });
        for (const Flush& f : flush) {
            if (f.to <= t + noLength || f.from >= end - noLength) continue;
            if (f.from > t + noLength) add(out, at(t), {-1, m_seam});
            add(out, at(std::max(t, f.from)), m_rings[f.ring]->sources[f.edge]);
            t = std::min(f.to, end);
        }
        if (end > t + noLength) add(out, at(t), {-1, m_seam});
    }

    struct Flush {
        double from, to;
        std::size_t ring, edge;
    };
    CutLine m_line;
    double m_side;
    int m_seam;
    Vec2 m_along;
    std::vector<const TracedRing*> m_rings;
    std::vector<Crossing> m_crossings;
    std::vector<std::size_t> m_partner;
    std::vector<Flush> m_flush; ///< edges on the line with the kept part on their left
};

double common(const TracedPolygon& a, const TracedPolygon& b) {
    double sum = 0;
    for (const Polygon& p : intersect({{a.outer.points, {}}}, {{b.outer.points, {}}})) sum += slab::area(p);
    return sum;
}

/// The inside's parts to the outside's; what has none is lost.
void matchFaces(std::vector<TracedPolygon> outer, std::vector<TracedPolygon> inner, CutPieces& out) {
    const std::size_t first = out.pieces.size();
    for (TracedPolygon& o : outer) out.pieces.push_back({std::move(o), std::nullopt});
    for (TracedPolygon& i : inner) {
        CutPiece* best = nullptr;
        double most = 0;
        for (std::size_t k = first; k < out.pieces.size(); ++k) {
            const bool only = outer.size() == 1 && inner.size() == 1;
            const double here = only ? 1 : common(out.pieces[k].outer, i);
            if (here <= most) continue;
            most = here;
            best = &out.pieces[k];
        }
        if (!best) {
            out.lost += i.area();
        } else if (!best->inner) {
            best->inner = std::move(i);
        } else {
            if (best->inner->area() < i.area()) std::swap(*best->inner, i);
            out.lost += i.area();
        }
    }
}

} // namespace

double TracedPolygon::area() const {
    double sum = signedArea(outer.points);
    for (const TracedRing& hole : holes) sum += signedArea(hole.points);
    return sum;
}

TracedPolygon tracedFace(const Panel& panel, bool inside) {
    const auto ring = [inside](const PanelLoop& loop) -> const Ring& {
        return inside ? loop.inner : loop.outer;
    };
    TracedPolygon out{tracedRing(ring(panel.boundary), 0), {}};
    for (std::size_t h = 0; h < panel.holes.size(); ++h)
        if (ring(panel.holes[h]).size() >= 3)
            out.holes.push_back(tracedRing(ring(panel.holes[h]), static_cast<int>(h) + 1));
    return out;
}

std::vector<TracedPolygon> partOf(const TracedPolygon& polygon, const CutLine& line, bool above, int seam) {
    return Clipper(polygon, line, above, seam).clip();
}

CutPiece wholePiece(const Panel& panel) {
    CutPiece piece{tracedFace(panel, false), std::nullopt};
    if (panel.boundary.inner.size() >= 3) piece.inner = tracedFace(panel, true);
    for (const PanelCopy& copy : panel.copies)
        for (const Contact& c : copy.contacts)
            if (c.inside && !c.flat) piece.stands.insert(piece.stands.end(), c.rings.begin(), c.rings.end());
    return piece;
}

CutPieces cutPiece(const CutPiece& piece, const CutLine& line, int seam) {
    CutPieces out;
    for (const bool above : {false, true}) {
        std::vector<TracedPolygon> inner;
        if (piece.inner) inner = partOf(*piece.inner, line, above, seam);
        matchFaces(partOf(piece.outer, line, above, seam), std::move(inner), out);
    }
    if (out.pieces.size() < 2) return {{piece}, 0};
    for (CutPiece& part : out.pieces) part.stands = piece.stands;
    return out;
}

std::vector<std::pair<double, double>> crossings(const TracedPolygon& face, const CutLine& line) {
    std::vector<double> at;
    const Vec2 along = line.along();
    const auto look = [&](const Ring& ring) {
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const Vec2 &a = ring[i], &b = ring[(i + 1) % ring.size()];
            const double da = line.beyond(a), db = line.beyond(b);
            if ((da > 0) == (db > 0)) continue;
            at.push_back(along.dot(a + (b - a) * (da / (da - db))));
        }
    };
    look(face.outer.points);
    for (const TracedRing& hole : face.holes) look(hole.points);
    std::sort(at.begin(), at.end());
    std::vector<std::pair<double, double>> out;
    for (std::size_t i = 0; i + 1 < at.size(); i += 2)
        if (at[i + 1] - at[i] > noLength) out.emplace_back(at[i], at[i + 1]);
    return out;
}

} // namespace slab::plates
