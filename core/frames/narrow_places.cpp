#include "core/frames/narrow_places.h"
#include "core/geometry/round_offset.h"
#include "core/geometry/segment.h"
#include <algorithm>
#include <cmath>
#include <optional>

namespace slab::frames {

namespace {

constexpr double asWide = 0.3;   ///< mm: chords of rounded corners, and rounding
constexpr double regrown = 0.02; ///< mm: grown back more, so that no film is left along the edges

constexpr double foldsBack =
    2.6; ///< radians, 150°: edges of a strip with a free end run nearly against each other

using Chain = std::vector<Vec2>; ///< corners of a polyline

struct Near {
    double distance = 1e300;
    Vec2 at = Vec2::Zero(); ///< middle
};

/// Two polylines that do not cross are nearest at a corner of one of them.
void look(const Chain& corners, const Chain& line, Near& best) {
    for (const Vec2& p : corners)
        for (std::size_t i = 0; i + 1 < line.size(); ++i) {
            const Vec2 q = nearestOnSegment(p, line[i], line[i + 1]);
            if ((q - p).norm() < best.distance) best = {(q - p).norm(), (p + q) / 2};
        }
}
Near between(const Chain& a, const Chain& b) {
    Near best;
    look(a, b, best);
    look(b, a, best);
    return best;
}

std::vector<Ring> ringsOf(const Polygon& p) {
    std::vector<Ring> rings = p.holes;
    rings.push_back(p.outer);
    return rings;
}

bool onEdge(const std::vector<Ring>& rings, const Vec2& p) {
    constexpr double within = 0.005; // mm
    for (const Ring& r : rings)
        for (std::size_t i = 0; i < r.size(); ++i)
            if (toSegment(p, r[i], r[(i + 1) % r.size()]) < within) return true;
    return false;
}

/// Runs of edges of a ring that are alike, as index of the first and number; one run if all are.
std::vector<std::pair<std::size_t, std::size_t>> runsOf(const std::vector<bool>& alike) {
    const std::size_t n = alike.size();
    std::size_t first = 0;
    while (first < n && alike[first] == alike[(first + 1) % n]) ++first;
    if (first == n) return {{0, n}};
    std::vector<std::pair<std::size_t, std::size_t>> runs;
    for (std::size_t k = 1; k <= n; ++k) {
        const std::size_t i = (first + k) % n;
        if (runs.empty() || alike[i] != alike[runs.back().first])
            runs.emplace_back(i, 1);
        else
            ++runs.back().second;
    }
    return runs;
}

/// What of a strip's border is the region's own, and what was cut where it hangs on.
struct Border {
    std::vector<Chain> own, cut;
};
void addBorder(Border& border, const Ring& ring, const std::vector<Ring>& region) {
    constexpr double film = 0.5; // mm
    const std::size_t n = ring.size();
    std::vector<bool> own(n);
    for (std::size_t i = 0; i < n; ++i) own[i] = onEdge(region, (ring[i] + ring[(i + 1) % n]) / 2);
    const auto chain = [&](const std::pair<std::size_t, std::size_t>& run) {
        Chain c;
        for (std::size_t k = 0; k <= run.second; ++k) c.push_back(ring[(run.first + k) % n]);
        return c;
    };
    for (const auto& run : runsOf(own)) { // a strip hangs on across its width; the rest is rounding
        const Chain c = chain(run);
        if (!own[run.first] && run.second < n && (c.back() - c.front()).norm() < film)
            for (std::size_t k = 0; k < run.second; ++k) own[(run.first + k) % n] = true;
    }
    for (const auto& run : runsOf(own)) (own[run.first] ? border.own : border.cut).push_back(chain(run));
}
Border borderOf(const Polygon& strip, const std::vector<Ring>& region) {
    Border border;
    for (const Ring& ring : ringsOf(strip)) addBorder(border, ring, region);
    return border;
}

/// Diameter of the largest disc in a region, and its middle.
Near inscribed(const Polygon& region) {
    double low = 0, high = 1;
    while (!roundOffset({region}, -high).empty()) high *= 2;
    Vec2 at = region.outer.front();
    for (int i = 0; i < 40 && high - low > 1e-4; ++i) {
        const double middle = (low + high) / 2;
        const auto core = roundOffset({region}, -middle);
        (core.empty() ? high : low) = middle;
        if (!core.empty()) at = centroid({core.front().outer, {}});
    }
    return {2 * low, at};
}

/// By how much a polyline turns left from its first edge to its last, radians.
double turnOf(const Chain& c) {
    double sum = 0;
    for (std::size_t i = 1; i + 1 < c.size(); ++i) {
        const Vec2 in = c[i] - c[i - 1], out = c[i + 1] - c[i];
        sum += std::atan2(in.x() * out.y() - in.y() * out.x(), in.dot(out));
    }
    return sum;
}

Vec2 middleOf(const Chain& c) {
    return (c.front() + c.back()) / 2;
}

double lengthFrom(const Chain& cut, const Polygon& strip) {
    Vec2 along = cut.back() - cut.front();
    along.normalize();
    double most = 0;
    for (const Vec2& p : strip.outer) {
        const Vec2 d = p - cut.front();
        most = std::max(most, std::abs(d.x() * along.y() - d.y() * along.x()));
    }
    return most;
}

std::optional<NarrowPlace> stripPlace(const Polygon& lost, const std::vector<Ring>& region, double least) {
    const Border border = borderOf(lost, region);
    const Vec2 size = bounds(lost.outer).size();
    if (border.cut.size() <= 1) {
        constexpr double tapers = 0.7, stout = 1.5;
        if (!border.cut.empty() && (border.own.empty() || turnOf(border.own.front()) < foldsBack)) return {};
        const Near disc = inscribed(lost);
        const double length = border.cut.empty() ? size.maxCoeff() : lengthFrom(border.cut.front(), lost);
        if (length < stout * disc.distance || area(lost) < tapers * disc.distance * length) return {};
        return NarrowPlace{disc.distance, length, disc.at, !border.cut.empty()};
    }
    Near best;
    for (std::size_t i = 0; i < border.own.size(); ++i)
        for (std::size_t k = 0; k < i; ++k) {
            const Near here = between(border.own[i], border.own[k]);
            if (here.distance < best.distance) best = here;
        }
    if (best.distance > least) return {};
    double length = 0;
    for (const Chain& a : border.cut)
        for (const Chain& b : border.cut) length = std::max(length, (middleOf(a) - middleOf(b)).norm());
    return NarrowPlace{best.distance, length, best.at, false};
}

} // namespace

std::vector<NarrowPlace> narrowPlaces(const Polygon& region, double least) {
    constexpr double dust = 4; // mm²
    if (!(least > 2 * asWide)) return {};
    const double radius = (least - asWide) / 2;
    const auto reached = roundOffset(roundOffset({region}, -radius), radius + regrown);
    const std::vector<Ring> rings = ringsOf(region);
    std::vector<NarrowPlace> places;
    for (const Polygon& lost : reached.empty() ? std::vector{region} : subtract({region}, reached))
        if (area(lost) > dust)
            if (const auto place = stripPlace(lost, rings, least)) places.push_back(*place);
    std::stable_sort(places.begin(), places.end(),
                     [](const NarrowPlace& a, const NarrowPlace& b) { return a.width < b.width; });
    return places;
}

} // namespace slab::frames
