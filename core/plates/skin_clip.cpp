#include "core/plates/skin_clip.h"
#include <algorithm>
#include <cmath>

namespace slab::plates {

namespace {

/// Even-odd test of a point on the face's plane against all its loops.
bool faceHolds(const Shell& shell, int face, const Vec3& p) {
    int drop = 0;
    shell.face(face).plane.normal.cwiseAbs().maxCoeff(&drop);
    const int u = (drop + 1) % 3, v = (drop + 2) % 3;
    bool in = false;
    for (const auto& loop : shell.face(face).loops)
        for (std::size_t i = 0, j = loop.size() - 1; i < loop.size(); j = i++) {
            const Vec3& a = shell.body.skin.vertices[at(loop[i])];
            const Vec3& b = shell.body.skin.vertices[at(loop[j])];
            if ((a[v] > p[v]) == (b[v] > p[v])) continue;
            if (p[u] < (b[u] - a[u]) * (p[v] - a[v]) / (b[v] - a[v]) + a[u]) in = !in;
        }
    return in;
}

/// Part of a segment strictly inside a convex flat polygon?
bool runsThrough(const Cell& cell, const Cell::Facet& section, const Vec3& normal, const Vec3& a,
                 const Vec3& b, double slack) {
    double from = 0, to = 1;
    for (int i = 0; i < section.count; ++i) {
        const Vec3& p = cell.vertices[at(cell.corners[at(section.begin + i)])];
        const Vec3 edge = cell.vertices[at(cell.corners[at(section.begin + (i + 1) % section.count)])] - p;
        const double length = edge.norm();
        if (length < slack) continue;
        const Vec3 out = edge.cross(normal) / length;
        const double da = out.dot(a - p) + slack, db = out.dot(b - p) + slack;
        if (da >= 0 && db >= 0) return false;
        if (da > 0) from = std::max(from, da / (da - db));
        if (db > 0) to = std::min(to, da / (da - db));
        if (from >= to) return false;
    }
    return true;
}

/// Does the face's region run through the inside of the cell? `half` cuts the cell on the face's plane.
bool crosses(const Shell& shell, const Cell& cell, int face, double slack) {
    const Half half = shell.skin[at(face)];
    const Cell part = clipped(shell.planes, cell, half);
    if (part.empty()) return false;
    const Cell::Facet& section = part.facets.back();
    if (section.half != half) return false;
    const Vec3 normal = shell.planes.outward(half);
    const auto& vertices = shell.body.skin.vertices;
    for (const auto& loop : shell.face(face).loops)
        for (std::size_t i = 0; i < loop.size(); ++i)
            if (runsThrough(part, section, normal, vertices[at(loop[i])],
                            vertices[at(loop[(i + 1) % loop.size()])], slack))
                return true;
    Vec3 centre = Vec3::Zero();
    for (int i = 0; i < section.count; ++i) centre += part.vertices[at(part.corners[at(section.begin + i)])];
    return faceHolds(shell, face, centre / section.count);
}

} // namespace

bool insideSkin(const Shell& shell, const Vec3& point) {
    const Vec3 ray = Vec3(0.5773, 0.4217, 0.6991).normalized();
    bool in = false;
    for (const int f : shell.faces) {
        const Plane& plane = shell.face(f).plane;
        const double slope = plane.normal.dot(ray);
        if (std::abs(slope) < 1e-12) continue;
        const double t = plane.depth(point) / slope;
        if (t > 0 && faceHolds(shell, f, point + t * ray)) in = !in;
    }
    return in;
}

Cells insideSkin(Shell& shell, Cells cells, int ownFace) {
    const double slack = shell.planes.eps() * 100;
    Cells open = std::move(cells), in;
    while (!open.empty()) {
        Cell cell = std::move(open.back());
        open.pop_back();
        const Box3 box = bounds(cell);
        bool cut = false;
        for (const int h : shell.faces) {
            if (h == ownFace || !boxesMeet(box, shell.boxOfFace[at(h)])) continue;
            if (sideOf(shell.planes, cell, shell.skin[at(h)]) != 0 || !crosses(shell, cell, h, slack))
                continue;
            for (const Half& half : {shell.skin[at(h)], shell.skin[at(h)].other()}) {
                Cell part = clipped(shell.planes, cell, half);
                if (!part.empty() && volume(part) > noiseVolume) open.push_back(std::move(part));
            }
            cut = true;
            break;
        }
        if (!cut && insideSkin(shell, middle(cell))) in.push_back(std::move(cell));
    }
    std::reverse(in.begin(), in.end());
    return in;
}

} // namespace slab::plates
