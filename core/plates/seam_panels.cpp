#include "core/plates/seam_panels.h"
#include "core/base/index.h"
#include "core/plates/feet.h"
#include "core/plates/panel_figures.h"
#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <set>

namespace slab::plates {

namespace {

constexpr double leastGuide = 0.5; ///< mm
constexpr double seamSame = 1e-5;  ///< mm: ends of a seam on its two sides

/// Lowest, then leftmost corner first, as the outlines of plates begin.
void startLow(TracedRing& ring) {
    std::size_t first = 0;
    for (std::size_t i = 1; i < ring.points.size(); ++i) {
        const Vec2 d = ring.points[i] - ring.points[first];
        if (d.y() < -1e-6 || (std::abs(d.y()) <= 1e-6 && d.x() < 0)) first = i;
    }
    const auto by = static_cast<std::ptrdiff_t>(first);
    std::rotate(ring.points.begin(), ring.points.begin() + by, ring.points.end());
    std::rotate(ring.sources.begin(), ring.sources.begin() + by, ring.sources.end());
}

/// Where two pieces meet one across a seam, its edge gets a corner: every edge has one piece across.
void splitAtEnds(std::vector<TracedRing*>& rings, const std::map<int, CutLine>& lines) {
    std::map<int, std::set<double>> ends;
    const auto along = [&](int seam, const Vec2& p) { return lines.at(seam).along().dot(p); };
    const auto forSeams = [&](TracedRing& ring, const auto& use) {
        for (std::size_t i = 0; i < ring.points.size(); ++i)
            if (ring.sources[i].loop < 0)
                use(ring.sources[i].edge, ring.points[i], ring.points[(i + 1) % ring.points.size()]);
    };
    for (TracedRing* ring : rings)
        forSeams(*ring, [&](int seam, const Vec2& a, const Vec2& b) {
            ends[seam].insert({along(seam, a), along(seam, b)});
        });
    for (TracedRing* ring : rings) {
        TracedRing out;
        for (std::size_t i = 0; i < ring->points.size(); ++i) {
            const Vec2 a = ring->points[i], b = ring->points[(i + 1) % ring->points.size()];
            out.points.push_back(a);
            out.sources.push_back(ring->sources[i]);
            if (ring->sources[i].loop >= 0) continue;
            const int seam = ring->sources[i].edge;
            const double from = along(seam, a), to = along(seam, b);
            std::vector<double> between;
            for (const double t : ends.at(seam))
                if ((t - from) * (t - to) < 0 && std::min(std::abs(t - from), std::abs(t - to)) > seamSame &&
                    (between.empty() || t - between.back() > seamSame))
                    between.push_back(t);
            if (to < from) std::reverse(between.begin(), between.end());
            for (const double t : between) {
                out.points.push_back(a + (b - a) * ((t - from) / (to - from)));
                out.sources.push_back(ring->sources[i]);
            }
        }
        *ring = std::move(out);
    }
}

/// A stretch of a seam on the outside face with its two pieces.
struct SeamStretch {
    int seam = 0;
    double middle = 0; ///< along the line
    int low = -1, high = -1;
};

class Maker {
public:
    Maker(const Panel& panel, Splitting split) : m_panel(panel), m_pieces(std::move(split.pieces)) {
        for (const MadeCut& cut : split.cuts) m_lines.emplace(cut.seam, cut.line);
        for (const bool inside : {false, true}) {
            std::vector<TracedRing*> rings;
            for (CutPiece& p : m_pieces) {
                if (!inside) rings.push_back(&p.outer.outer);
                if (inside && p.inner) rings.push_back(&p.inner->outer);
            }
            for (TracedRing* ring : rings) startLow(*ring);
            splitAtEnds(rings, m_lines);
        }
        for (std::size_t p = 0; p < m_pieces.size(); ++p) findStretches(static_cast<int>(p));
    }

    std::vector<Panel> make(int& mark) {
        std::vector<Panel> out;
        const int first = mark;
        const int each = static_cast<int>(m_stretches.size());
        for (std::size_t p = 0; p < m_pieces.size(); ++p) {
            m_now = p;
            m_mark = first;
            Panel panel = pieceOf();
            for (std::size_t c = 0; c < m_panel.copies.size(); ++c) {
                m_mark = first + static_cast<int>(c) * each;
                panel.copies.push_back(copyOf(panel, c));
            }
            setFigures(panel);
            out.push_back(std::move(panel));
        }
        mark += each * static_cast<int>(std::max<std::size_t>(m_panel.copies.size(), 1));
        return out;
    }

private:
    void findStretches(int piece) {
        const TracedRing& ring = m_pieces[at(piece)].outer.outer;
        for (std::size_t i = 0; i < ring.points.size(); ++i) {
            if (ring.sources[i].loop >= 0) continue;
            const int seam = ring.sources[i].edge;
            const Vec2 &a = ring.points[i], &b = ring.points[(i + 1) % ring.points.size()];
            const Vec2 along = m_lines.at(seam).along();
            const double middle = along.dot(a + b) / 2;
            auto known = std::find_if(m_stretches.begin(), m_stretches.end(), [&](const SeamStretch& s) {
                return s.seam == seam && std::abs(s.middle - middle) < 10 * seamSame;
            });
            if (known == m_stretches.end()) known = m_stretches.insert(known, {seam, middle, -1, -1});
            // Outlines run counter-clockwise: with the line's direction below it, against it above.
            (along.dot(b - a) > 0 ? known->low : known->high) = piece;
        }
    }

    /// The stretch that an edge of the present piece is one side of; -1 = nothing is across.
    [[nodiscard]] int stretchAt(const EdgeSource& source, const Vec2& a, const Vec2& b) const {
        const double middle = m_lines.at(source.edge).along().dot(a + b) / 2;
        for (std::size_t s = 0; s < m_stretches.size(); ++s) {
            const SeamStretch& stretch = m_stretches[s];
            const bool here =
                stretch.low == static_cast<int>(m_now) || stretch.high == static_cast<int>(m_now);
            if (here && stretch.seam == source.edge && std::abs(stretch.middle - middle) < 10 * seamSame &&
                stretch.low >= 0 && stretch.high >= 0)
                return static_cast<int>(s);
        }
        return -1;
    }

    [[nodiscard]] const PanelLoop& loop(int l) const {
        return l == 0 ? m_panel.boundary : m_panel.holes[at(l - 1)];
    }
    [[nodiscard]] std::string nameOf(const std::string& whole, int piece) const {
        return whole + "/" + pieceLetter(at(piece));
    }

    [[nodiscard]] PanelEdge seamEdge(int stretch) const {
        PanelEdge e;
        if (stretch < 0) return e;
        const SeamStretch& s = m_stretches[at(stretch)];
        e.role = EdgeRole::seam;
        e.neighbour = nameOf(m_panel.name, s.low == static_cast<int>(m_now) ? s.high : s.low);
        e.dihedral = std::numbers::pi;
        e.mark = m_mark + stretch;
        return e;
    }

    /// Edge of the panel that has this place on the inside face; one with no place outside comes back as
    /// such.
    [[nodiscard]] PanelEdge innerEdge(const EdgeSource& source) const {
        const PanelLoop& from = loop(source.loop);
        for (const auto* edges : {&from.edges, &from.extraInner})
            for (const PanelEdge& e : *edges)
                if (e.inner == source.edge) return e;
        return {};
    }

    /// Place on the inside ring that belongs to an edge of the outside one; -1 = none is left.
    int partner(const TracedRing& inner, const EdgeSource& source, const Vec2& middle,
                std::vector<char>& used) const {
        int best = -1;
        double least = 1e300;
        const int wanted = source.loop < 0 ? source.edge : loop(source.loop).edges[at(source.edge)].inner;
        if (wanted < 0) return -1;
        for (std::size_t k = 0; k < inner.sources.size(); ++k) {
            if (used[k] || inner.sources[k].loop != source.loop || inner.sources[k].edge != wanted) continue;
            const Vec2 here = (inner.points[k] + inner.points[(k + 1) % inner.points.size()]) / 2;
            const double off = (here - middle).norm();
            if (off >= least) continue;
            least = off;
            best = static_cast<int>(k);
        }
        if (best >= 0) used[at(best)] = 1;
        return best;
    }

    PanelLoop boundaryOf(const CutPiece& piece) {
        PanelLoop out;
        out.outer = piece.outer.outer.points;
        const TracedRing none;
        const TracedRing& inner = piece.inner ? piece.inner->outer : none;
        out.inner = inner.points;
        std::vector<char> used(inner.points.size(), 0);
        for (std::size_t i = 0; i < out.outer.size(); ++i) {
            const EdgeSource& source = piece.outer.outer.sources[i];
            const Vec2 &a = out.outer[i], &b = out.outer[(i + 1) % out.outer.size()];
            PanelEdge e;
            if (source.loop < 0) {
                e = seamEdge(stretchAt(source, a, b));
            } else {
                e = loop(source.loop).edges[at(source.edge)];
                if (source.loop == 0) e.own = source.edge;
                if (source.loop > 0 && out.opening.empty()) out.opening = loop(source.loop).opening;
            }
            e.length = (b - a).norm();
            e.inner = partner(inner, source, (a + b) / 2, used);
            out.edges.push_back(std::move(e));
        }
        for (std::size_t k = 0; k < used.size(); ++k) {
            if (used[k]) continue;
            const EdgeSource& source = inner.sources[k];
            PanelEdge e = source.loop < 0 ? PanelEdge{} : innerEdge(source);
            e.length = (inner.points[(k + 1) % inner.points.size()] - inner.points[k]).norm();
            e.inner = static_cast<int>(k);
            out.extraInner.push_back(std::move(e));
        }
        if (out.opening.empty()) out.opening = m_panel.boundary.opening;
        return out;
    }

    /// Holes that no seam runs through; one that it cuts on the inside face alone keeps its outside ring.
    std::vector<PanelLoop> holesOf(const CutPiece& piece) {
        std::vector<PanelLoop> out;
        const auto has = [](const std::vector<TracedRing>& rings, int l) {
            return std::any_of(rings.begin(), rings.end(),
                               [&](const TracedRing& r) { return r.sources.front().loop == l; });
        };
        for (std::size_t h = 0; h < m_panel.holes.size(); ++h) {
            const int l = static_cast<int>(h) + 1;
            const bool outside = has(piece.outer.holes, l),
                       inside = piece.inner && has(piece.inner->holes, l);
            if (!outside && !inside) continue;
            PanelLoop hole = m_panel.holes[h];
            if (!outside) {
                hole.outer.clear();
                for (PanelEdge& e : hole.edges)
                    if (e.inner >= 0) hole.extraInner.push_back(e);
                hole.edges.clear();
            } else if (!inside && !hole.inner.empty()) {
                hole.inner.clear();
                hole.extraInner.clear();
                for (PanelEdge& e : hole.edges) e.inner = -1;
            }
            m_holes.push_back(h);
            out.push_back(std::move(hole));
        }
        return out;
    }

    Panel pieceOf() {
        const CutPiece& piece = m_pieces[m_now];
        const int p = static_cast<int>(m_now);
        m_holes.clear();
        Panel panel;
        panel.name = nameOf(m_panel.name, p);
        for (const std::string& plate : m_panel.plates) panel.plates.push_back(nameOf(plate, p));
        panel.cutFrom = m_panel.plates;
        if (!m_panel.mirrorOf.empty()) panel.mirrorOf = nameOf(m_panel.mirrorOf, p);
        panel.stock = m_panel.stock;
        panel.thickness = m_panel.thickness;
        panel.up = m_panel.up;
        panel.upWord = m_panel.upWord;
        panel.boundary = boundaryOf(piece);
        panel.holes = holesOf(piece);
        for (const GuideLine& guide : m_panel.guides) keepGuide(guide, panel);
        return panel;
    }

    /// The stretches of it that lie on the piece.
    void keepGuide(const GuideLine& guide, Panel& panel) const {
        const Ring& face = panel.boundary.outer;
        const Vec2 span = guide.to - guide.from;
        std::vector<double> ends{0, 1};
        for (std::size_t i = 0; i < face.size(); ++i) {
            const Vec2 edge = face[(i + 1) % face.size()] - face[i], away = face[i] - guide.from;
            const double turn = cross2(span, edge);
            if (std::abs(turn) < 1e-12) continue;
            const double s = cross2(away, edge) / turn, t = cross2(away, span) / turn;
            if (s > 0 && s < 1 && t >= 0 && t <= 1) ends.push_back(s);
        }
        std::sort(ends.begin(), ends.end());
        for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
            GuideLine part = guide;
            part.from = guide.from + ends[i] * span;
            part.to = guide.from + ends[i + 1] * span;
            if ((part.to - part.from).norm() > leastGuide &&
                contains(face, Vec2((part.from + part.to) / 2), 1e-6))
                panel.guides.push_back(std::move(part));
        }
    }

    PanelCopy copyOf(const Panel& panel, std::size_t c) const {
        const PanelCopy& whole = m_panel.copies[c];
        const std::string plate = m_panel.plates[c];
        PanelCopy copy{nameOf(plate, static_cast<int>(m_now)), {}, whole.rests, {}};
        const TracedRing& ring = m_pieces[m_now].outer.outer;
        std::vector<EdgeMeeting> meetings;
        for (std::size_t i = 0; i < ring.points.size(); ++i) {
            const EdgeSource& source = ring.sources[i];
            if (source.loop >= 0) {
                const auto& loops = whole.loops;
                const bool told =
                    at(source.loop) < loops.size() && at(source.edge) < loops[at(source.loop)].size();
                meetings.push_back(told ? loops[at(source.loop)][at(source.edge)] : EdgeMeeting{});
                continue;
            }
            const int s = stretchAt(source, ring.points[i], ring.points[(i + 1) % ring.points.size()]);
            if (s < 0) {
                meetings.emplace_back();
                continue;
            }
            const SeamStretch& stretch = m_stretches[at(s)];
            const int other = stretch.low == static_cast<int>(m_now) ? stretch.high : stretch.low;
            meetings.push_back({nameOf(plate, other), EdgeRole::seam, m_mark + s});
        }
        copy.loops.push_back(std::move(meetings));
        for (const std::size_t h : m_holes)
            copy.loops.push_back(h + 1 < whole.loops.size() && panel.holes.size() == m_holes.size()
                                     ? whole.loops[h + 1]
                                     : std::vector<EdgeMeeting>{});
        for (const Contact& contact : whole.contacts) keepContact(contact, copy);
        return copy;
    }

    void keepContact(const Contact& contact, PanelCopy& copy) const {
        const CutPiece& piece = m_pieces[m_now];
        if (contact.inside && !piece.inner) return;
        const TracedPolygon& traced = contact.inside ? *piece.inner : piece.outer;
        Polygon face{traced.outer.points, {}};
        for (const TracedRing& hole : traced.holes) face.holes.push_back(hole.points);
        std::vector<Polygon> solid, gaps;
        for (const Ring& ring : contact.rings)
            (signedArea(ring) > 0 ? solid : gaps)
                .push_back({signedArea(ring) > 0 ? ring : reversed(ring), {}});
        if (!gaps.empty()) solid = subtract(solid, gaps);
        double all = 0, here = 0;
        for (const Polygon& part : solid) all += area(part);
        const std::vector<Polygon> left = intersect(solid, {face});
        for (const Polygon& part : left) here += area(part);
        if (here < leastContact) return;
        Contact kept = contact;
        kept.on = copy.plate;
        if (here < all - leastContact) {
            kept.rings.clear();
            for (const Polygon& part : left) {
                kept.rings.push_back(part.outer);
                kept.rings.insert(kept.rings.end(), part.holes.begin(), part.holes.end());
            }
        }
        copy.contacts.push_back(std::move(kept));
    }

    const Panel& m_panel;
    std::vector<CutPiece> m_pieces;
    std::map<int, CutLine> m_lines;
    std::vector<SeamStretch> m_stretches;
    std::vector<std::size_t> m_holes; ///< of the present piece
    std::size_t m_now = 0;
    int m_mark = 0;
};

} // namespace

std::string pieceLetter(std::size_t index) {
    std::string letters(1, static_cast<char>('a' + index % 26));
    return index < 26 ? letters : pieceLetter(index / 26 - 1) + letters;
}

void orderPieces(std::vector<CutPiece>& pieces, const Panel& panel) {
    const Vec2 size = slab::bounds(panel.boundary.outer).size();
    const int main = size.x() >= size.y() ? 0 : 1;
    const auto middle = [](const CutPiece& p) {
        Polygon face{p.outer.outer.points, {}};
        return centroid(face);
    };
    std::stable_sort(pieces.begin(), pieces.end(), [&](const CutPiece& a, const CutPiece& b) {
        const Vec2 d = middle(a) - middle(b);
        return std::abs(d[main]) > 0.01 ? d[main] < 0 : d[1 - main] < 0;
    });
}

std::vector<Panel> piecePanels(const Panel& panel, Splitting split, int& mark) {
    return Maker(panel, std::move(split)).make(mark);
}

} // namespace slab::plates
