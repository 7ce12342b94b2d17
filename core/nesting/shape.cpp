#include "core/nesting/shape.h"
#include "core/base/parallel.h"
#include "core/nesting/simplify.h"
#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

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
constexpr std::array plainHole{0.1, 0.2, 0.3}; // share of a hole that its plain shape loses
constexpr double largeHole = 0.025;            // of the square of the largest sheet's longer side
constexpr std::size_t plainPieces = 6, framePieces = 8, mostPieces = 40;

/// Grown outward; its hull grown when the offset comes apart.
Polygon grown(const Polygon& shape, double by) {
    std::vector<Polygon> out = offset(shape, by);
    if (out.size() == 1) return std::move(out.front());
    out = offset(Polygon{convexHull(shape.outer), {}}, by);
    return out.empty() ? Polygon{} : std::move(out.front());
}

/// What a hole must offer for a part to stand in it.
struct Least {
    double area = std::numeric_limits<double>::infinity(); ///< of any part, mm²
    double width =
        std::numeric_limits<double>::infinity(); ///< of any part's outline, in its narrowest direction
    double hole = 0; ///< area of a hole that is worth its time in a fast answer, mm²
};

double narrowest(const Ring& ring) {
    const Ring hull = convexHull(ring);
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < hull.size(); ++i) {
        const Vec2 along = (hull[(i + 1) % hull.size()] - hull[i]).normalized();
        double across = 0;
        for (const Vec2& p : hull) across = std::max(across, std::abs(cross2(along, p - hull[i])));
        least = std::min(least, across);
    }
    return least;
}

/// Holes that no part of the problem can stand in only cost time.
Polygon withoutSmallHoles(Polygon shape, const Least& least, double spacing) {
    std::erase_if(shape.holes, [&](const Ring& hole) {
        return std::abs(signedArea(hole)) < least.area || narrowest(hole) < least.width + spacing;
    });
    return shape;
}

/// For an answer in milliseconds: one large hole at most, as a plain shape inside it.
/// @param lost  share of the hole that its plain shape may lose
Polygon withOneHole(Polygon shape, double leastArea, double lost) {
    const auto size = [](const Ring& ring) { return std::abs(signedArea(ring)); };
    const auto largest = std::max_element(shape.holes.begin(), shape.holes.end(),
                                          [&](const Ring& a, const Ring& b) { return size(a) < size(b); });
    if (largest == shape.holes.end()) return shape;
    if (size(*largest) < leastArea) return {std::move(shape.outer), {}};
    double budget = size(*largest) * lost;
    Ring plain = simplifiedOutward(*largest, budget);
    if (!isSimple(plain)) plain = *largest;
    return {std::move(shape.outer), {std::move(plain)}};
}

/// Pieces of the outline, grown by half the spacing; simplified until they are few enough.
std::vector<ConvexPiece> simplePieces(const Polygon& shape, double spacing, double most, std::size_t enough) {
    std::vector<ConvexPiece> pieces;
    for (double share = addedShare; share <= most; share *= 2) {
        Polygon outline = simplifiedOutward(shape, share, plainCorners);
        if (spacing > 0) outline = grown(outline, spacing / 2 + gridStep);
        pieces = convexPieces(outline);
        if (pieces.size() > plainPieces && spacing <= 0) pieces = convexPieces(grown(outline, gridStep));
        if (pieces.size() <= enough) break; // finely curved outlines may be rounded off a little more
    }
    return pieces;
}

/// A part's outline as pieces, grown by half the spacing.
struct Cover {
    std::vector<ConvexPiece> pieces, filled; ///< as in Oriented, not turned
    std::vector<Ring> holes;                 ///< that `pieces` keep
};

std::vector<ConvexPiece> filledPieces(const Ring& outer, double spacing, const Detail& detail) {
    return detail.fast ? simplePieces({outer, {}}, spacing, fastShare, plainPieces)
                       : simplePieces({outer, {}}, spacing, mostShare, mostPieces);
}

Cover coverOf(const NestPart& part, const Detail& detail, const Least& least) {
    Polygon shape = withoutSmallHoles(part.shape, least, part.spacing);
    Cover cover;
    if (!shape.holes.empty()) cover.filled = filledPieces(shape.outer, part.spacing, detail);
    if (!detail.fast) {
        cover.pieces = simplePieces(shape, part.spacing, mostShare, mostPieces);
        cover.holes = std::move(shape.holes);
        return cover;
    }
    for (const double lost : plainHole) {
        Polygon frame = withOneHole(shape, least.hole, lost);
        if (frame.holes.empty()) break;
        cover.pieces = simplePieces(frame, part.spacing, fastShare, framePieces);
        if (cover.pieces.size() > framePieces) continue;
        cover.holes = std::move(frame.holes);
        return cover;
    }
    cover.pieces = shape.holes.empty() ? filledPieces(shape.outer, part.spacing, detail)
                                       : std::exchange(cover.filled, {});
    return cover;
}

/// A part as round as this is laid in one position only: turning it gains nothing and costs a no-fit polygon
/// each.
bool isRound(const Ring& outer) {
    constexpr double near = 0.99; // least radius by greatest; a regular polygon of 24 sides
    constexpr std::size_t fewest = 24;
    const Ring hull = convexHull(outer);
    if (hull.size() < fewest) return false;
    Extent box;
    for (const Vec2& p : hull) box.add(Pt{p.x(), p.y()});
    const Vec2 middle((box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2);
    double least = std::numeric_limits<double>::infinity(), most = 0;
    for (std::size_t i = 0; i < hull.size(); ++i) {
        const Vec2 side = hull[(i + 1) % hull.size()] - hull[i];
        least = std::min(least, std::abs(cross2(side, middle - hull[i])) / side.norm());
        most = std::max(most, (hull[i] - middle).norm());
    }
    return least >= near * most;
}

std::vector<double> anglesOf(const NestPart& part, int freeTurns) {
    std::vector<double> angles = part.rotations.empty() ? freeAngles(part.shape, freeTurns) : part.rotations;
    std::erase_if(angles, [](double a) { return !std::isfinite(a); });
    if (angles.size() > 1 && isRound(part.shape.outer)) angles.resize(1);
    return angles;
}

void addOriented(Library& library, const NestPart& part, int index, const Detail& detail,
                 const Cover& cover) {
    if (cover.pieces.empty()) return;
    const bool rough = cover.pieces.size() > plainPieces, filledRough = cover.filled.size() > plainPieces;
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
            o.filledRough = filledRough;
            const auto add = [&, cosine = c, sine = s](Extent& box, Pt p) {
                const double y = o.flipped ? -p.y : p.y;
                box.add(Pt{cosine * p.x - sine * y, sine * p.x + cosine * y});
            };
            for (const auto& piece : cover.pieces) {
                o.pieces.push_back(turned(piece, c, s, o.flipped));
                for (const Pt& p : o.pieces.back().points) o.reach.add(p);
            }
            for (const auto& piece : cover.filled) o.filled.push_back(turned(piece, c, s, o.flipped));
            for (const Ring& hole : cover.holes) {
                o.holes.emplace_back();
                for (const Vec2& p : hole) add(o.holes.back(), Pt{p.x(), p.y()});
            }
            for (const Pt& p : corners) add(o.box, p);
            o.area = own;
            o.weight = std::sqrt(std::sqrt(hull));
            library.byPart[static_cast<std::size_t>(index)].push_back(
                static_cast<int>(library.oriented.size()));
            library.oriented.push_back(std::move(o));
        }
}

/// Finds which positions of a part are quarter turns of each other.
void linkQuarters(Library& library, const std::vector<int>& options) {
    constexpr double same = 1e-14; // radians
    const double quarter = std::numbers::pi / 2;
    for (const int i : options)
        for (const int j : options) {
            Oriented& from = library.oriented[static_cast<std::size_t>(i)];
            const Oriented& to = library.oriented[static_cast<std::size_t>(j)];
            if (from.flipped != to.flipped) continue;
            for (std::size_t k = 0; k < from.quarters.size(); ++k) {
                const double off = to.rotation - from.rotation - static_cast<double>(k) * quarter;
                const bool found = std::abs(std::remainder(off, 4 * quarter)) <= same;
                if (found && (from.quarters[k] < 0 || i == j)) from.quarters[k] = j;
            }
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
    Least least;
    least.hole = largeHole * library.size * library.size;
    for (const NestPart& part : problem.parts)
        if (usable(part)) {
            least.area = std::min(least.area, area(part.shape));
            least.width = std::min(least.width, narrowest(part.shape.outer));
        }
    std::vector<Cover> covers(problem.parts.size());
    shareOut(problem.parts.size(), [&](std::size_t i) {
        if (usable(problem.parts[i])) covers[i] = coverOf(problem.parts[i], detail, least);
    });
    for (std::size_t i = 0; i < problem.parts.size(); ++i)
        addOriented(library, problem.parts[i], static_cast<int>(i), detail, covers[i]);
    for (const std::vector<int>& options : library.byPart) linkQuarters(library, options);
    return library;
}

} // namespace slab::nesting
