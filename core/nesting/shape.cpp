#include "core/nesting/shape.h"
#include "core/nesting/simplify.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::nesting {
namespace {

constexpr double gridStep = 3e-6; // slab::offset and slab::unite round to 1e-6 mm; grow by more than that

bool usable(const NestPart& part) {
    if (part.copies < 1 || part.shape.outer.size() < 3) return false;
    const auto sound = [](const Ring& ring) {
        return std::all_of(ring.begin(), ring.end(),
                           [](const Vec2& p) { return p.allFinite() && p.cwiseAbs().maxCoeff() < 1e9; });
    };
    return sound(part.shape.outer) && std::all_of(part.shape.holes.begin(), part.shape.holes.end(), sound) &&
           std::isfinite(part.spacing) && part.spacing >= 0 && part.spacing < 1e6;
}

constexpr double addedShare = 1e-3;      // area that simplifying may add
constexpr std::size_t plainCorners = 12; // outlines of so few corners are taken as they are
constexpr double mostShare = 8e-3;       // … when there are still more than mostPieces
constexpr double fastShare = 0.033;
constexpr std::size_t plainPieces = 6, mostPieces = 40;

/// Grown outward; its hull grown when the offset comes apart.
Polygon grown(const Polygon& shape, double by) {
    std::vector<Polygon> out = offset(shape, by);
    if (out.size() == 1) return std::move(out.front());
    out = offset(Polygon{convexHull(shape.outer), {}}, by);
    return out.empty() ? Polygon{} : std::move(out.front());
}

/// Holes that no part of the problem can stand in only cost time.
Polygon withoutSmallHoles(Polygon shape, double leastArea) {
    std::erase_if(shape.holes, [&](const Ring& hole) { return std::abs(signedArea(hole)) < leastArea; });
    return shape;
}

/// Pieces of the outline grown by half the spacing; `rough` when they are too many for loose borders.
std::vector<ConvexPiece> piecesOf(const NestPart& part, const Detail& detail, double leastArea, bool& rough) {
    std::vector<ConvexPiece> pieces;
    Polygon shape = withoutSmallHoles(part.shape, leastArea);
    const double most = detail.fast ? fastShare : mostShare;
    const std::size_t enough = detail.fast ? plainPieces : mostPieces;
    for (double share = addedShare; share <= most; share *= 2) {
        Polygon outline = simplifiedOutward(shape, share, plainCorners);
        if (part.spacing > 0) outline = grown(outline, part.spacing / 2 + gridStep);
        pieces = convexPieces(outline);
        rough = pieces.size() > plainPieces;
        if (rough && detail.fast) shape.holes.clear();
        if (rough && part.spacing <= 0) pieces = convexPieces(grown(outline, gridStep));
        if (pieces.size() <= enough) break; // finely curved outlines may be rounded off a little more
    }
    return pieces;
}

std::vector<double> anglesOf(const NestPart& part, int freeTurns) {
    std::vector<double> angles = part.rotations.empty() ? freeAngles(part.shape, freeTurns) : part.rotations;
    std::erase_if(angles, [](double a) { return !std::isfinite(a); });
    return angles;
}

void addOriented(Library& library, const NestPart& part, int index, const Detail& detail, double leastArea) {
    bool rough = false;
    const std::vector<ConvexPiece> pieces = piecesOf(part, detail, leastArea, rough);
    if (pieces.empty()) return;
    std::vector<Pt> corners;
    for (const Vec2& p : part.shape.outer) corners.push_back({p.x(), p.y()});
    const double hull = pieceArea(hullPiece(corners)), own = area(part.shape);
    for (const double angle : anglesOf(part, detail.freeTurns))
        for (int flip = 0; flip < (part.flip ? 2 : 1); ++flip) {
            const auto [c, s] = cosSin(angle);
            Oriented o;
            o.part = index;
            o.rotation = angle;
            o.flipped = flip == 1;
            o.rough = rough;
            for (const auto& piece : pieces) {
                o.pieces.push_back(turned(piece, c, s, o.flipped));
                for (const Pt& p : o.pieces.back().points) o.reach.add(p);
            }
            for (const Pt& p : corners) {
                const double y = o.flipped ? -p.y : p.y;
                o.box.add(Pt{c * p.x - s * y, s * p.x + c * y});
            }
            o.area = own;
            o.weight = std::sqrt(std::sqrt(hull));
            library.byPart[static_cast<std::size_t>(index)].push_back(
                static_cast<int>(library.oriented.size()));
            library.oriented.push_back(std::move(o));
        }
}

double sizeOf(const NestProblem& problem) {
    double size = problem.strip;
    for (const NestSheet& s : problem.sheets) size = std::max({size, s.width, s.length});
    return std::isfinite(size) && size > 0 ? size : 1;
}

} // namespace

std::pair<double, double> cosSin(double radians) {
    const auto snapped = [](double v) { return std::abs(v) < 1e-15 ? 0.0 : v; };
    return {snapped(std::cos(radians)), snapped(std::sin(radians))};
}

std::vector<double> freeAngles(const Polygon& shape, int most) {
    std::vector<std::pair<double, double>> edges; // length, direction folded to [0, quarter turn)
    const double quarter = std::numbers::pi / 2;
    const Ring hull = convexHull(shape.outer);
    for (std::size_t i = 0; i < hull.size(); ++i) {
        const Vec2 d = hull[(i + 1) % hull.size()] - hull[i];
        double direction = std::fmod(std::atan2(d.y(), d.x()) + 4 * quarter, quarter);
        if (quarter - direction < 1e-7 || direction < 1e-7) direction = 0;
        const auto same = std::find_if(edges.begin(), edges.end(),
                                       [&](const auto& e) { return std::abs(e.second - direction) < 1e-7; });
        if (same == edges.end())
            edges.emplace_back(d.norm(), direction);
        else
            same->first += d.norm();
    }
    std::sort(edges.begin(), edges.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
    std::vector<double> angles;
    for (const auto& [length, direction] : edges)
        for (int k = 0; k < 4; ++k)
            if (static_cast<int>(angles.size()) < most) angles.push_back(k * quarter - direction);
    if (angles.empty()) angles.push_back(0);
    return angles;
}

Library makeLibrary(const NestProblem& problem, const Detail& detail) {
    Library library;
    library.size = sizeOf(problem);
    library.eps = 1e-12 * library.size;
    library.byPart.resize(problem.parts.size());
    double least = std::numeric_limits<double>::infinity();
    for (const NestPart& part : problem.parts)
        if (usable(part)) least = std::min(least, area(part.shape));
    for (std::size_t i = 0; i < problem.parts.size(); ++i)
        if (usable(problem.parts[i]))
            addOriented(library, problem.parts[i], static_cast<int>(i), detail, least);
    return library;
}

} // namespace slab::nesting
