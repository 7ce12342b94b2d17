#include "core/plates/panel_figures.h"
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>

namespace slab::plates {

namespace {

/// 64-bit FNV-1a over rounded figures.
struct Hash {
    std::uint64_t value = 14695981039346656037ULL;
    void add(std::int64_t v) {
        for (int i = 0; i < 8; ++i) {
            value ^= static_cast<std::uint64_t>(v >> (8 * i)) & 0xffU;
            value *= 1099511628211ULL;
        }
    }
    /// Plain rounding to a grid of `step`: a value on the border of two steps may change the print by less.
    void add(double v, double step) { add(static_cast<std::int64_t>(std::llround(v / step))); }
    void add(const std::string& s) {
        for (const char c : s) add(static_cast<std::int64_t>(c));
        add(static_cast<std::int64_t>(s.size()));
    }
};

constexpr double lengthStep = 0.05;                                 // mm
constexpr double angleStep = 0.05 * 3.14159265358979323846 / 180.0; // radians

void hashLoop(Hash& hash, const PanelLoop& loop) {
    hash.add(static_cast<std::int64_t>(loop.outer.size()));
    for (const Vec2& p : loop.outer) {
        hash.add(p.x(), lengthStep);
        hash.add(p.y(), lengthStep);
    }
    for (const Vec2& p : loop.inner) {
        hash.add(p.x(), lengthStep);
        hash.add(p.y(), lengthStep);
    }
    for (const auto& e : loop.edges) {
        hash.add(e.bevel, angleStep);
        hash.add(e.role == EdgeRole::fold ? 1 : 0);
    }
}

std::string fingerprint(const Panel& panel) {
    Hash hash;
    hash.add(panel.stock);
    hash.add(panel.thickness, 0.01);
    hashLoop(hash, panel.boundary);
    for (const auto& h : panel.holes) hashLoop(hash, h);
    for (const PanelFold& f : panel.folds) {
        for (const Vec2& p : {f.from, f.to}) {
            hash.add(p.x(), lengthStep);
            hash.add(p.y(), lengthStep);
        }
        hash.add(f.angle, angleStep);
        hash.add(f.valley ? 1 : 0);
    }
    for (const GuideLine& g : panel.guides) // none in most: their print stays what it was
        for (const Vec2& p : {g.from, g.to}) {
            hash.add(p.x(), lengthStep);
            hash.add(p.y(), lengthStep);
        }
    char text[20];
    std::snprintf(text, sizeof text, "%016llx", static_cast<unsigned long long>(hash.value));
    return text;
}

/// Union of both faces; a hole counts where it goes through both.
Polygon footprintOf(const Panel& panel) {
    const auto& b = panel.boundary;
    Polygon best{b.outer, {}};
    bool plain = b.inner.empty();
    if (!plain)
        plain = std::all_of(b.inner.begin(), b.inner.end(),
                            [&](const Vec2& p) { return contains(b.outer, p, 1e-9); }) &&
                isSimple(b.outer);
    if (!plain) {
        auto parts = unite({Polygon{b.outer, {}}, Polygon{b.inner, {}}});
        if (!parts.empty())
            best = *std::max_element(parts.begin(), parts.end(),
                                     [](const Polygon& l, const Polygon& r) { return area(l) < area(r); });
    }
    for (const auto& h : panel.holes) {
        if (h.outer.empty() || h.inner.empty()) continue;
        for (const auto& common :
             intersect({Polygon{reversed(h.outer), {}}}, {Polygon{reversed(h.inner), {}}}))
            best.holes.push_back(reversed(common.outer));
    }
    return best;
}

} // namespace

void setFigures(Panel& panel) {
    panel.fingerprint = fingerprint(panel);
    panel.footprint = footprintOf(panel);
}

} // namespace slab::plates
