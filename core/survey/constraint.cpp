#include "core/survey/constraint_sources.h"
#include <algorithm>
#include <cmath>

namespace slab {

std::optional<double> Constraint::margin(double scale) const {
    const auto after = std::lower_bound(points.begin(), points.end(), scale,
                                        [](const Margin& m, double s) { return m.scale < s; });
    if (after == points.end()) return std::nullopt;
    if (after->scale == scale) return after->margin;
    if (after == points.begin()) return std::nullopt;
    const Margin& before = *std::prev(after);
    if (jumps) return (scale - before.scale < after->scale - scale ? before : *after).margin;
    const double share = (scale - before.scale) / (after->scale - before.scale);
    return before.margin + (after->margin - before.margin) * share;
}

const Margin* Constraint::nearest(double scale) const {
    const auto at = std::min_element(points.begin(), points.end(), [&](const Margin& a, const Margin& b) {
        return std::abs(a.scale - scale) < std::abs(b.scale - scale);
    });
    return at == points.end() ? nullptr : &*at;
}

namespace {

std::string pairFails(const std::string& one, const std::string& other, bool met) {
    return one + (met ? " meets " : " comes too near to ") + other;
}

} // namespace

std::string failWords(const Constraint& c, const Margin& at) {
    const bool met = at.clearance < 0;
    if (c.key.starts_with("fit:")) return pairFails("the " + c.words, at.binding, met);
    if (c.key == "within") return "the " + at.binding + " stands outside the body";
    if (c.key == "sheet") return at.binding + " is larger than its sheet";
    if (c.key == "load") return "the donor carries more than it is rated for";
    if (c.key == "tip") return "it tips over, standing " + at.binding;
    if (c.key.starts_with("route:"))
        return "it does not pass " + c.words + (at.binding.empty() ? "" : " (" + at.binding + " binds)");
    if (c.key == "turn") return "its tightest turn tips it before its full speed";
    if (c.key == "wind") return "the wind that is asked for tips or pushes it";
    if (c.key.starts_with("passage:")) return at.binding + " is too large for " + c.words;
    if (c.key.starts_with("exit:")) return c.words + ", is too small";
    if (c.key == "sight:ground") return "the ground ahead is seen too far off";
    if (c.key == "sight:field") return "the view to a side is too narrow";
    const std::size_t dash = at.binding.find(" – ");
    if (dash == std::string::npos) return c.words + (met ? " meet" : " come too near");
    constexpr std::size_t dashLength = 5; // bytes of " – " in UTF-8
    return pairFails(at.binding.substr(0, dash), at.binding.substr(dash + dashLength), met);
}

} // namespace slab
