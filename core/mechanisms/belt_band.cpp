#include "core/mechanisms/belt_strips.h"
#include <algorithm>
#include <cmath>

namespace slab {
namespace {

/// A corner of the faceted belt: how far along the middle line, and where it is on lines beside that.
struct Station {
    double along = 0; ///< mm
    Vec2 at = Vec2::Zero();
    Vec2 out = Vec2::Zero(); ///< goes with 1 mm to the outside
    [[nodiscard]] Vec2 point(double beside) const { return at + beside * out; }
};

/// Round the whole belt once, from the start of run 0 to its start again.
std::vector<Station> stationsOf(const BeltPath& path, double step) {
    std::vector<Station> all;
    double along = 0;
    for (std::size_t i = 0; i < path.runs.size(); ++i) {
        const BeltPath::Run& run = path.runs[i];
        const Vec2 way = run.to - run.from;
        const Vec2 out = Vec2(way.y(), -way.x()).normalized();
        all.push_back({along, run.from, out});
        along += way.norm();
        all.push_back({along, run.to, out});
        const BeltPath::Arc& arc = path.arcs[(i + 1) % path.arcs.size()];
        const int parts = static_cast<int>(std::ceil(std::abs(arc.sweep) / step - 1e-12));
        for (int k = 0; k < parts; ++k) { // where the tangents at both ends of each part meet
            const double angle = arc.from + arc.sweep * (k + 0.5) / parts;
            const double more = 1 / std::cos(arc.sweep / parts / 2);
            const Vec2 away = more * Vec2(std::cos(angle), std::sin(angle));
            all.push_back({along + arc.radius * std::abs(arc.sweep) * (k + 0.5) / parts,
                           arc.centre + arc.radius * away, arc.sweep < 0 ? Vec2(-away) : away});
        }
        along += arc.radius * std::abs(arc.sweep);
    }
    Station last = all.front();
    last.along = along;
    all.push_back(last);
    return all;
}

Station between(const Station& a, const Station& b, double along) {
    const double t = b.along > a.along ? (along - a.along) / (b.along - a.along) : 0;
    return {along, a.at + t * (b.at - a.at), a.out + t * (b.out - a.out)};
}

/// Those of a stretch, its ends included; it may run over the start.
std::vector<Station> cut(const std::vector<Station>& all, double from, double to) {
    const double round = all.back().along;
    std::vector<Station> out;
    const auto add = [&](const Station& s) {
        if (out.empty() || (s.at - out.back().at).norm() > 1e-6) out.push_back(s);
    };
    for (double shift = 0; shift <= round; shift += round)
        for (std::size_t i = 1; i < all.size(); ++i) {
            const double a = all[i - 1].along + shift, b = all[i].along + shift;
            if (b < from || a > to) continue;
            add(a < from ? between(all[i - 1], all[i], from - shift) : all[i - 1]);
            add(b > to ? between(all[i - 1], all[i], to - shift) : all[i]);
        }
    return out;
}

} // namespace

BeltBand beltBand(const BeltPath& path, const BeltStretch& stretch, const Frame& place, double step) {
    const std::vector<Station> all = stationsOf(path, step);
    const double round = all.back().along;
    const std::vector<Station> line = cut(all, stretch.from * round, stretch.to * round);
    BeltBand band;
    Polyhedron& solid = band.solid;
    // Four corners a station: inside and outside, on either side across.
    for (const Station& s : line)
        for (const double beside : {stretch.inside, stretch.outside})
            for (const double w : {-stretch.width / 2, stretch.width / 2}) {
                const Vec2 p = s.point(beside);
                solid.vertices.push_back(place.toBody(Vec3(p.x(), p.y(), w)));
            }
    // Seen along +w the belt runs counter-clockwise when w = u × v; a left-handed view is turned round.
    const bool right = place.axes.determinant() > 0;
    const auto face = [&](std::vector<int> loop) {
        if (!right) std::reverse(loop.begin(), loop.end());
        const auto at = [&](std::size_t i) { return solid.vertices[static_cast<std::size_t>(loop[i])]; };
        PolyFace f;
        f.plane.normal = (at(1) - at(0)).cross(at(2) - at(0)).normalized();
        f.plane.offset = f.plane.normal.dot(at(0));
        f.loops = {std::move(loop)};
        solid.faces.push_back(std::move(f));
    };
    const int count = static_cast<int>(line.size());
    for (int i = 0; i + 1 < count; ++i) {
        const int a = 4 * i, b = a + 4;
        face({a, a + 1, b + 1, b});         // inside
        face({a + 2, b + 2, b + 3, a + 3}); // outside
        face({a, b, b + 2, a + 2});         // low w
        face({a + 1, a + 3, b + 3, b + 1}); // high w
        ConvexSolid piece;
        for (int k = a; k < b + 4; ++k) piece.points.push_back(solid.vertices[static_cast<std::size_t>(k)]);
        band.pieces.push_back(std::move(piece));
    }
    face({0, 2, 3, 1});
    const int e = 4 * (count - 1);
    face({e, e + 1, e + 3, e + 2});
    return band;
}

} // namespace slab
