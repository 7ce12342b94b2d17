#include "core/body/closing.h"
#include "core/body/flank.h"
#include "core/body/pieces.h"
#include "core/body/skin.h"
#include "core/geometry/patchwork.h"
#include <algorithm>
#include <cmath>
#include <map>

namespace slab {

namespace {

using Loop = std::vector<int>;
constexpr double largest = 1e7; ///< mm; 10 km is no body

const Vec3& pointAt(const std::vector<Vec3>& points, int i) {
    return points[static_cast<std::size_t>(i)];
}

/// Corners in one place become one; loops lose the edges between them.
void weld(std::vector<Vec3>& corners, std::vector<RoughFace>& faces, double size) {
    std::vector<Vec3> kept;
    std::vector<int> to;
    for (const Vec3& c : corners) {
        const auto same = std::find_if(kept.begin(), kept.end(),
                                       [&](const Vec3& k) { return (k - c).norm() <= 1e-9 * size; });
        to.push_back(static_cast<int>(same - kept.begin()));
        if (same == kept.end()) kept.push_back(c);
    }
    for (RoughFace& face : faces) {
        Loop loop;
        for (int v : face.loop) {
            const int w = to[static_cast<std::size_t>(v)];
            if (loop.empty() || loop.back() != w) loop.push_back(w);
        }
        while (loop.size() > 1 && loop.front() == loop.back()) loop.pop_back();
        face.loop = std::move(loop);
    }
    std::erase_if(faces, [](const RoughFace& f) { return f.loop.size() < 3; });
    corners = std::move(kept);
}

/// Neighbours run along their shared edge in opposite directions.
void orient(std::vector<RoughFace>& faces) {
    std::map<std::pair<int, int>, std::vector<std::size_t>> users;
    const auto edge = [](const Loop& loop, std::size_t i) {
        return std::pair(loop[i], loop[(i + 1) % loop.size()]);
    };
    const auto sorted = [](std::pair<int, int> e) {
        return std::pair(std::min(e.first, e.second), std::max(e.first, e.second));
    };
    for (std::size_t f = 0; f < faces.size(); ++f)
        for (std::size_t i = 0; i < faces[f].loop.size(); ++i)
            users[sorted(edge(faces[f].loop, i))].push_back(f);
    std::vector<bool> done(faces.size(), false);
    for (std::size_t start = 0; start < faces.size(); ++start) {
        std::vector<std::size_t> open;
        if (!done[start]) open.push_back(start);
        done[start] = true;
        while (!open.empty()) {
            const std::size_t f = open.back();
            open.pop_back();
            for (std::size_t i = 0; i < faces[f].loop.size(); ++i) {
                const auto e = edge(faces[f].loop, i);
                const auto& both = users[sorted(e)];
                if (both.size() != 2) continue;
                const std::size_t other = both[0] == f ? both[1] : both[0];
                if (done[other]) continue;
                Loop& loop = faces[other].loop;
                for (std::size_t k = 0; k < loop.size(); ++k)
                    if (edge(loop, k) == e) {
                        std::reverse(loop.begin(), loop.end());
                        break;
                    }
                done[other] = true;
                open.push_back(other);
            }
        }
    }
}

/// Mean plane by Newell's method (M. Newell, in Sutherland et al. 1974): normal from the vector area.
Plane planeOf(const std::vector<Vec3>& corners, const Loop& loop) {
    Vec3 twice = Vec3::Zero(), mean = Vec3::Zero();
    for (std::size_t i = 0; i < loop.size(); ++i) {
        twice += (pointAt(corners, loop[i]) - pointAt(corners, loop[0]))
                     .cross(pointAt(corners, loop[(i + 1) % loop.size()]) - pointAt(corners, loop[0]));
        mean += pointAt(corners, loop[i]);
    }
    mean /= static_cast<double>(loop.size());
    const double length = twice.norm();
    if (length == 0) return {Vec3::Zero(), 0};
    Plane plane{twice / length, 0};
    for (int k = 0; k < 3; ++k) // an axis-parallel plane is kept exactly so
        if (std::abs(plane.normal[k]) < 1e-15) plane.normal[k] = 0;
    if (plane.normal.cwiseAbs().maxCoeff() > 1 - 1e-15) plane.normal = plane.normal.array().round().matrix();
    plane.offset = plane.normal.dot(loop.size() == 3 ? pointAt(corners, loop[0]) : mean);
    return plane;
}

double offOf(const std::vector<Vec3>& corners, const Loop& loop, const Plane& plane) {
    double off = 0;
    for (int v : loop) off = std::max(off, std::abs(plane.distance(pointAt(corners, v))));
    return off;
}

/// The face's corners in its mean plane, with the height over it as "half-width".
Corners asOutline(const std::vector<Vec3>& corners, const Loop& loop, const Plane& plane) {
    const Vec3 u = plane.normal.unitOrthogonal(), v = plane.normal.cross(u);
    Corners outline;
    for (int i : loop) {
        const Vec3& p = pointAt(corners, i);
        outline.push_back({{}, {}, {u.dot(p), v.dot(p)}, plane.distance(p)});
    }
    return outline;
}

struct Attempt {
    Made made;
    double worst = 0;
};

Expected<Attempt> attempt(const std::vector<Vec3>& corners, const std::vector<RoughFace>& faces,
                          double tolerance) {
    Attempt result;
    result.made.solid.vertices = corners;
    for (const RoughFace& face : faces) {
        const Plane plane = planeOf(corners, face.loop);
        if (plane.normal.isZero() || !isSimple(ringOf(asOutline(corners, face.loop, plane))))
            return fail("form-crosses", "side " + face.name + " crosses itself or has no area", {},
                        "Put its corners in order around it.");
        const double off = offOf(corners, face.loop, plane);
        if (face.loop.size() == 3 || off <= tolerance) {
            result.made.solid.faces.push_back({plane, {face.loop}, face.name});
            continue;
        }
        const Corners outline = asOutline(corners, face.loop, plane);
        const FlankSplit split = splitFlank(outline, tolerance);
        if (split.pieces.empty())
            return fail("form-twisted", "side " + face.name + " cannot be split into flat pieces", {},
                        "Move its corners nearer to one plane.");
        for (const auto& piece : split.pieces) {
            Loop loop;
            for (int i : piece) loop.push_back(face.loop[static_cast<std::size_t>(i)]);
            result.made.solid.faces.push_back({planeOf(corners, loop), {loop}, face.name});
        }
        if (split.pieces.size() > 1)
            result.made.splits.push_back({face.name, static_cast<int>(split.pieces.size()), off});
    }
    result.worst = settleVertices(result.made.solid);
    return result;
}

/// An edge that goes through, or touches, a face that it is no part of.
const PolyFace* crossing(const Polyhedron& solid, double size) {
    const double eps = 1e-9 * size;
    for (const PolyFace& a : solid.faces)
        for (const Loop& loop : a.loops)
            for (std::size_t i = 0; i < loop.size(); ++i) {
                const int v = loop[i], w = loop[(i + 1) % loop.size()];
                if (v > w) continue; // its twin has it
                const Vec3 &p = pointAt(solid.vertices, v), &q = pointAt(solid.vertices, w);
                for (const PolyFace& b : solid.faces) {
                    const double dp = b.plane.distance(p), dq = b.plane.distance(q);
                    if ((dp > eps && dq > eps) || (dp < -eps && dq < -eps)) continue;
                    if (std::abs(dp) <= eps && std::abs(dq) <= eps) continue;
                    const auto has = [&](int x) {
                        return std::any_of(b.loops.begin(), b.loops.end(), [&](const Loop& l) {
                            return std::find(l.begin(), l.end(), x) != l.end();
                        });
                    };
                    if (has(v) || has(w)) continue;
                    if (faceContains(solid, b, p + (q - p) * (dp / (dp - dq)), eps)) return &b;
                }
            }
    return nullptr;
}

Expected<void> checkSolid(const Polyhedron& solid, double size) {
    if (auto closed = checkClosed(solid, 1e-6 + 1e-9 * size); !closed) {
        const bool pinched = closed.error().code == "edge-contact";
        return fail(
            pinched ? "form-pinched" : "form-open",
            pinched ? "two parts of it meet along an edge only" : "its faces do not close around a solid", {},
            pinched ? "Give it width there, or make it two forms." : "Check that every edge has two faces.");
    }
    if (auto skin = makeSkin(solid); !skin)
        return fail("form-pinched", "two parts of it meet in a point only", {},
                    "Give it width there, or make it two forms.");
    if (volume(solid) <= 1e-9 * size * size * size)
        return fail("form-flat", "it has no volume", {}, "Give it length, width and height.");
    if (const PolyFace* face = crossing(solid, size))
        return fail("form-crosses", "its surface crosses itself at side " + face->name, {},
                    "Move its corners until no side goes through another.");
    return {};
}

Vec3 centreOf(const Polyhedron& solid, const PolyFace& face) {
    Vec3 sum = Vec3::Zero();
    for (int v : face.loops.front()) sum += pointAt(solid.vertices, v);
    return sum / static_cast<double>(face.loops.front().size());
}

/// Sides with one name become "#1", "#2", … along x, then y, then z.
void numberPieces(Polyhedron& solid) {
    std::map<std::string, std::vector<std::size_t>> byName;
    for (std::size_t f = 0; f < solid.faces.size(); ++f) byName[solid.faces[f].name].push_back(f);
    for (auto& [name, faces] : byName) {
        if (faces.size() < 2) continue;
        std::vector<Vec3> centres;
        for (const std::size_t f : faces) centres.push_back(centreOf(solid, solid.faces[f]));
        int number = 0;
        for (const std::size_t i : alongBody(centres))
            solid.faces[faces[i]].name = name + "#" + std::to_string(++number);
    }
}

} // namespace

Expected<Made> closeUp(std::vector<Vec3> corners, std::vector<RoughFace> faces) {
    Box3 box;
    if (!corners.empty()) box.min = box.max = corners.front();
    for (const Vec3& c : corners) {
        if (!c.allFinite() || c.cwiseAbs().maxCoeff() > largest)
            return fail("form-too-big", "a corner lies more than 10 km away", {},
                        "Check its lengths and units.");
        box.min = box.min.cwiseMin(c);
        box.max = box.max.cwiseMax(c);
    }
    const double size = box.size().norm();
    if (size < 1e-3)
        return fail("form-flat", "it is smaller than 1/1000 mm", {}, "Check its lengths and units.");
    weld(corners, faces, size);
    if (faces.size() < 4)
        return fail("form-flat", "it has no volume", {}, "Give it length, width and height.");
    orient(faces);
    Polyhedron rough{corners, {}};
    for (const RoughFace& f : faces) rough.faces.push_back({planeOf(corners, f.loop), {f.loop}, f.name});
    if (volume(rough) < 0)
        for (RoughFace& f : faces) std::reverse(f.loop.begin(), f.loop.end());

    // Corners that lean a little are settled onto flat sides; where more than three sides meet that may not
    // be possible, and the sides are split instead.
    Expected<Attempt> best = fail("form-open", "it has no faces");
    for (double tolerance : {1e-6 * size, 1e-11 * size, 0.0}) {
        best = attempt(corners, faces, tolerance);
        if (!best) return Unexpected(best.error());
        if (best->worst <= 1e-11 * size) break;
    }
    if (auto sound = checkSolid(best->made.solid, size); !sound) return Unexpected(sound.error());
    numberPieces(best->made.solid);
    return std::move(best->made);
}

} // namespace slab
