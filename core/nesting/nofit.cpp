#include "core/nesting/nofit.h"
#include <algorithm>
#include <cmath>

namespace slab::nesting {
namespace {

/// The parts of a segment that no stretch covers.
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

double depthIn(const NoFit& nofit, Pt p) {
    double deepest = -1e300;
    for (const NoFit::Piece& piece : nofit.pieces) {
        if (p.x <= piece.box.minX || p.x >= piece.box.maxX || p.y <= piece.box.minY || p.y >= piece.box.maxY)
            continue;
        double depth = 1e300;
        const Half* half = nofit.halves.data() + piece.first;
        for (int i = 0; i < piece.count && depth > deepest; ++i, ++half)
            depth = std::min(depth, half->c - half->x * p.x - half->y * p.y);
        deepest = std::max(deepest, depth);
    }
    return deepest;
}

NoFit makeNoFit(const Oriented& a, const Oriented& b, double eps) {
    NoFit out;
    std::vector<ConvexPiece> sums;
    sums.reserve(a.pieces.size() * b.pieces.size());
    for (const auto& pa : a.pieces)
        for (const auto& pb : b.pieces) sums.push_back(noFitPiece(pa, pb));
    for (const auto& sum : sums) addPiece(out, sum);
    std::vector<std::pair<double, double>> stretches;
    for (std::size_t i = 0; i < sums.size(); ++i)
        for (std::size_t k = 0; k < sums[i].points.size(); ++k) {
            const Segment s{sums[i].points[k], sums[i].points[k + 1 == sums[i].points.size() ? 0 : k + 1]};
            stretches.clear();
            for (std::size_t j = 0; j < sums.size(); ++j) {
                double t0 = 0, t1 = 0;
                if (j != i && insideStretch(out, out.pieces[j], {}, s, eps, t0, t1))
                    stretches.emplace_back(t0, t1);
            }
            uncovered(stretches, s, out.border);
        }
    return out;
}

NoFitCache::NoFitCache(const Library& library)
    : m_library(library), m_count(library.oriented.size()), m_pairs(m_count * m_count) {}

NoFitCache::~NoFitCache() {
    for (auto& pair : m_pairs) delete pair.load();
}

const NoFit& NoFitCache::get(int a, int b) {
    std::atomic<const NoFit*>& slot =
        m_pairs[static_cast<std::size_t>(a) * m_count + static_cast<std::size_t>(b)];
    if (const NoFit* known = slot.load(std::memory_order_acquire)) return *known;
    auto made = std::make_unique<const NoFit>(makeNoFit(m_library.oriented[static_cast<std::size_t>(a)],
                                                        m_library.oriented[static_cast<std::size_t>(b)],
                                                        m_library.eps));
    const NoFit* expected = nullptr;
    if (slot.compare_exchange_strong(expected, made.get(), std::memory_order_acq_rel)) return *made.release();
    return *expected;
}

} // namespace slab::nesting
