#include "core/nesting/nofit_parts.h"
#include <algorithm>
#include <cmath>

namespace slab::nesting {

void uncovered(std::vector<std::pair<double, double>>& stretches, const Segment& s,
               std::vector<Segment>& out) {
    std::sort(stretches.begin(), stretches.end());
    const auto at = [&](double t) { return Pt{s.a.x + t * (s.b.x - s.a.x), s.a.y + t * (s.b.y - s.a.y)}; };
    double free = 0;
    for (const auto& [t0, t1] : stretches) {
        if (t0 > free) out.push_back({at(free), at(t0)});
        free = std::max(free, t1);
    }
    if (free < 1) out.push_back({at(free), s.b});
}

void addPiece(NoFit& out, const ConvexPiece& sum) {
    NoFit::Piece piece;
    piece.first = static_cast<int>(out.halves.size());
    piece.count = static_cast<int>(sum.points.size());
    for (std::size_t i = 0; i < sum.points.size(); ++i) {
        const Pt n = sum.normals[i], p = sum.points[i];
        out.halves.push_back({n.x, n.y, n.x * p.x + n.y * p.y});
        piece.box.add(p);
    }
    out.box.add(piece.box);
    out.pieces.push_back(piece);
}

namespace {

/// Border as loose segments: keeps slots and single points that are exact fits.
NoFit loose(const std::vector<ConvexPiece>& sums, double eps) {
    NoFit out;
    std::size_t corners = 0;
    for (const auto& sum : sums) corners += sum.points.size();
    out.halves.reserve(corners);
    out.border.reserve(corners);
    out.pieces.reserve(sums.size());
    for (const auto& sum : sums) addPiece(out, sum);
    std::vector<std::pair<double, double>> stretches;
    for (std::size_t i = 0; i < sums.size(); ++i)
        for (std::size_t k = 0; k < sums[i].points.size(); ++k) {
            const Segment s{sums[i].points[k], sums[i].points[k + 1 == sums[i].points.size() ? 0 : k + 1]};
            Extent box;
            box.add(s.a);
            box.add(s.b);
            stretches.clear();
            for (std::size_t j = 0; j < sums.size(); ++j) {
                const Extent& e = out.pieces[j].box;
                if (j == i || e.minX >= box.maxX || e.maxX <= box.minX || e.minY >= box.maxY ||
                    e.maxY <= box.minY)
                    continue;
                double t0 = 0, t1 = 0;
                if (insideStretch(out, out.pieces[j], {}, s, eps, t0, t1)) stretches.emplace_back(t0, t1);
            }
            uncovered(stretches, s, out.border);
        }
    return out;
}

} // namespace

bool insideStretch(const NoFit& nofit, const NoFit::Piece& piece, Pt at, const Segment& s, double eps,
                   double& t0, double& t1) {
    t0 = 0;
    t1 = 1;
    const Pt a{s.a.x - at.x, s.a.y - at.y}, b{s.b.x - at.x, s.b.y - at.y};
    const Half* half = nofit.halves.data() + piece.first;
    for (int i = 0; i < piece.count; ++i, ++half) {
        const double da = half->x * a.x + half->y * a.y - half->c + eps;
        const double db = half->x * b.x + half->y * b.y - half->c + eps;
        if (da >= 0) {
            if (db >= 0) return false;
            t0 = std::max(t0, da / (da - db));
        } else if (db > 0) {
            t1 = std::min(t1, da / (da - db));
        }
        if (t0 >= t1) return false;
    }
    return true;
}

bool blocked(const NoFit& nofit, Pt p, double eps) {
    if (p.x <= nofit.box.minX || p.x >= nofit.box.maxX || p.y <= nofit.box.minY || p.y >= nofit.box.maxY)
        return false;
    for (const NoFit::Piece& piece : nofit.pieces) {
        if (p.x <= piece.box.minX || p.x >= piece.box.maxX || p.y <= piece.box.minY || p.y >= piece.box.maxY)
            continue;
        const Half* half = nofit.halves.data() + piece.first;
        const Half* end = half + piece.count;
        while (half != end && half->c - half->x * p.x - half->y * p.y > eps) ++half;
        if (half == end) return true;
    }
    return false;
}

namespace {

/// Squared distance from p to border segment i, and the nearest point of it.
double awayFrom(const NoFit& nofit, std::size_t i, Pt p, Pt& nearest) {
    const Segment& s = nofit.border[i];
    const double dx = s.b.x - s.a.x, dy = s.b.y - s.a.y, px = p.x - s.a.x, py = p.y - s.a.y;
    const double t = std::clamp((px * dx + py * dy) * nofit.inverse[i], 0.0, 1.0);
    nearest = {s.a.x + t * dx, s.a.y + t * dy};
    const double ex = px - t * dx, ey = py - t * dy;
    return ex * ex + ey * ey;
}

} // namespace

double penetration(const NoFit& nofit, Pt p, double eps) {
    if (!blocked(nofit, p, eps)) return 0;
    double least = std::numeric_limits<double>::infinity();
    Pt nearest;
    for (std::size_t i = 0; i < nofit.border.size(); ++i)
        least = std::min(least, awayFrom(nofit, i, p, nearest));
    return std::max(std::sqrt(least), eps);
}

Pt nearestExit(const NoFit& nofit, Pt p) {
    double least = std::numeric_limits<double>::infinity();
    Pt best = p, nearest;
    for (std::size_t i = 0; i < nofit.border.size(); ++i) {
        const double away = awayFrom(nofit, i, p, nearest);
        if (away >= least) continue;
        least = away;
        best = nearest;
    }
    return best;
}

namespace {

/// True if the other part could stand in a hole of this one, as far as boxes tell.
bool mayHold(const Oriented& around, const Oriented& other, double eps) {
    const double w = other.box.maxX - other.box.minX, h = other.box.maxY - other.box.minY;
    return std::any_of(around.holes.begin(), around.holes.end(), [&](const Extent& hole) {
        return w <= hole.maxX - hole.minX + eps && h <= hole.maxY - hole.minY + eps;
    });
}

/// What of a part counts beside another: the outline with its holes, or without where none can be used.
struct Counted {
    const std::vector<ConvexPiece>& pieces;
    bool rough;
};

Counted countedOf(const Oriented& part, const Oriented& other, double eps) {
    if (part.filled.empty() || mayHold(part, other, eps)) return {part.pieces, part.rough};
    return {part.filled, part.filledRough};
}

} // namespace

NoFit makeNoFit(const Oriented& a, const Oriented& b, double eps) {
    const Counted fixed = countedOf(a, b, eps), moving = countedOf(b, a, eps);
    std::vector<ConvexPiece> sums;
    sums.reserve(fixed.pieces.size() * moving.pieces.size());
    for (const auto& pa : fixed.pieces)
        for (const auto& pb : moving.pieces) sums.push_back(noFitPiece(pa, pb));
    NoFit out = (fixed.rough || moving.rough) && sums.size() > 1
                    ? unitedNoFit(sums, moving.pieces.size(), eps)
                    : loose(sums, eps);
    out.inverse.reserve(out.border.size());
    for (const Segment& s : out.border) {
        const double dx = s.b.x - s.a.x, dy = s.b.y - s.a.y, length2 = dx * dx + dy * dy;
        out.inverse.push_back(length2 > 0 ? 1 / length2 : 0);
    }
    return out;
}

NoFit mirrored(const NoFit& nofit) {
    NoFit out = nofit;
    const auto turnBox = [](const Extent& e) { return Extent{-e.maxX, -e.maxY, -e.minX, -e.minY}; };
    for (Half& h : out.halves) h = {-h.x, -h.y, h.c};
    for (NoFit::Piece& p : out.pieces) p.box = turnBox(p.box);
    for (Segment& s : out.border) s = {{-s.a.x, -s.a.y}, {-s.b.x, -s.b.y}};
    out.box = turnBox(nofit.box);
    return out;
}

NoFit quarterTurned(const NoFit& nofit, int quarters) {
    NoFit out = nofit;
    const auto turn = [](double& x, double& y) {
        const double was = x;
        x = -y;
        y = was;
    };
    const auto turnBox = [](Extent& e) { e = {-e.maxY, e.minX, -e.minY, e.maxX}; };
    for (int k = 0; k < quarters; ++k) {
        for (Half& h : out.halves) turn(h.x, h.y);
        for (NoFit::Piece& p : out.pieces) turnBox(p.box);
        for (Segment& s : out.border) {
            turn(s.a.x, s.a.y);
            turn(s.b.x, s.b.y);
        }
        turnBox(out.box);
    }
    return out;
}

NoFitCache::NoFitCache(const Library& library)
    : m_library(library), m_count(library.oriented.size()), m_pairs(m_count * m_count) {}

NoFitCache::~NoFitCache() {
    for (auto& pair : m_pairs) delete pair.load();
}

// Which pair is made from which other is fixed, so that no result depends on who asked first: of the two
// orders the one whose first part comes first, and of its quarter turns the one where that part is in its
// first position.
NoFit NoFitCache::make(int a, int b) {
    const auto& oriented = m_library.oriented;
    const Oriented &first = oriented[static_cast<std::size_t>(a)],
                   &second = oriented[static_cast<std::size_t>(b)];
    const auto rootOf = [](const Oriented& o) {
        int root = std::numeric_limits<int>::max();
        for (const int i : o.quarters)
            if (i >= 0) root = std::min(root, i);
        return root;
    };
    const int root = rootOf(first), other = rootOf(second);
    if (root > other || (root == other && a > b)) return mirrored(get(b, a));
    const auto& turns = oriented[static_cast<std::size_t>(root)].quarters;
    const auto quarters = static_cast<std::size_t>(std::find(turns.begin(), turns.end(), a) - turns.begin());
    const bool turnedOn = quarters > 0 && quarters < turns.size(); // a list may name a turn twice
    const int back = turnedOn ? second.quarters[turns.size() - quarters] : -1;
    if (back >= 0) return quarterTurned(get(root, back), static_cast<int>(quarters));
    return makeNoFit(first, second, m_library.eps);
}

const NoFit& NoFitCache::get(int a, int b) {
    std::atomic<const NoFit*>& slot =
        m_pairs[static_cast<std::size_t>(a) * m_count + static_cast<std::size_t>(b)];
    if (const NoFit* known = slot.load(std::memory_order_acquire)) return *known;
    auto made = std::make_unique<const NoFit>(make(a, b));
    const NoFit* expected = nullptr;
    if (slot.compare_exchange_strong(expected, made.get(), std::memory_order_acq_rel)) return *made.release();
    return *expected;
}

} // namespace slab::nesting
