// A foot cut: between the square wall that was drawn and the face that it stands on lies a wedge, of which
// the part outside the wall is added and the part inside it taken away.
#include "core/plates/feet.h"
#include <algorithm>
#include <cmath>

namespace slab::plates {

namespace {

/// What ends the wedge at one corner of the outline.
struct End {
    Half drawn; ///< the next side as drawn
    Half cut;   ///< the same after its own foot is cut
};

class FootCutter {
public:
    FootCutter(PlaneTable& planes, const FreePlate& form, double thickness, std::vector<Foot>& feet)
        : m_planes(planes), m_form(form), m_thickness(thickness), m_feet(feet) {
        const Vec3 w = form.frame.axes.col(2);
        m_outer = planes.add({w, w.dot(form.frame.origin)});
        m_inner = planes.add({-w, thickness - w.dot(form.frame.origin)});
        for (Foot& foot : feet)
            foot.half = planes.add({-foot.face.normal, -foot.face.offset}); // stays on the face's outer side
    }

    void cut(Cells& cells) {
        for (const Foot& foot : m_feet) extend(foot, cells);
        for (const Foot& foot : m_feet) trim(foot, cells);
    }

private:
    [[nodiscard]] EdgeLine line(std::size_t ring, std::size_t edge) const {
        return edgeLine(m_form, m_thickness, ring, edge);
    }
    Half wall(std::size_t ring, std::size_t edge) {
        const EdgeLine e = line(ring, edge);
        return m_planes.add({e.out, e.out.dot(e.a)});
    }
    [[nodiscard]] const Foot* footOf(std::size_t ring, std::size_t edge) const {
        const auto same = [&](const Foot& f) { return f.ring == ring && f.edge == edge; };
        const auto found = std::find_if(m_feet.begin(), m_feet.end(), same);
        return found == m_feet.end() ? nullptr : &*found;
    }

    /// @param far  at the edge's second corner
    End endOf(const Foot& foot, bool far) {
        const Ring& points = ringOf(m_form, foot.ring);
        const std::size_t n = points.size(), next = (foot.edge + (far ? 1 : n - 1)) % n;
        const EdgeLine e = line(foot.ring, foot.edge), other = line(foot.ring, next);
        const Vec3 w = m_form.frame.axes.col(2);
        const double turn = (far ? e.along.cross(other.along) : other.along.cross(e.along)).dot(w);
        const Foot* beside = footOf(foot.ring, next);
        constexpr double straight = 0.02;
        if (std::abs(turn) < straight || (beside && beside->half == foot.half)) {
            const Vec3 way = far ? e.along : Vec3(-e.along);
            const Half square = m_planes.add({way, way.dot(far ? e.b : e.a)});
            return {square, square};
        }
        const Half drawn = wall(foot.ring, next), final = beside ? beside->half : drawn;
        if (turn > 0) return {drawn, final};
        return {drawn.other(), final.other()};
    }

    void extend(const Foot& foot, Cells& cells) {
        const Half square = wall(foot.ring, foot.edge);
        if (square == foot.half) return;
        const Box3 box = bounds(cells);
        const Vec3 room = Vec3::Constant(20 * m_thickness);
        const Cell wedge = clipped(
            m_planes, boxCell(m_planes, box.min - room, box.max + room),
            {m_outer, m_inner, square.other(), foot.half, endOf(foot, false).cut, endOf(foot, true).cut});
        if (wedge.empty() || volume(wedge) < noiseVolume) return;
        Cells added{wedge};
        for (const Cell& c : cells) { // a narrow notch may be filled already
            const auto halves = halvesOf(c);
            Cells rest;
            for (const Cell& a : added) subtract(m_planes, a, halves, rest);
            added = std::move(rest);
        }
        cells.insert(cells.end(), added.begin(), added.end());
    }

    /// The other side of a corner may have been extended or trimmed: all inside either is taken.
    void trim(const Foot& foot, Cells& cells) {
        const Half square = wall(foot.ring, foot.edge);
        if (square == foot.half) return;
        const End first = endOf(foot, false), second = endOf(foot, true);
        for (const Half& a : {first.drawn, first.cut})
            for (const Half& b : {second.drawn, second.cut}) {
                Cells rest;
                for (const Cell& c : cells)
                    subtract(m_planes, c, {m_outer, m_inner, square, foot.half.other(), a, b}, rest);
                cells = std::move(rest);
            }
    }

    PlaneTable& m_planes;
    const FreePlate& m_form;
    double m_thickness;
    std::vector<Foot>& m_feet;
    Half m_outer, m_inner;
};

} // namespace

void cutFeet(PlaneTable& planes, Cells& cells, const FreePlate& form, double thickness,
             std::vector<Foot>& feet) {
    if (cells.empty() || feet.empty()) return;
    FootCutter(planes, form, thickness, feet).cut(cells);
}

} // namespace slab::plates
