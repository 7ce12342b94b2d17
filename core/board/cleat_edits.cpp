#include "core/board/cleat_edits.h"
#include "core/board/formula_text.h"
#include "core/board/outline_parts.h"
#include <algorithm>

namespace slab {

namespace {

/// "deck" of "hull/deck": a rule's name takes none of the signs that plates' names have.
std::string sideOf(const std::string& plate) {
    std::string side = plate.substr(plate.rfind('/') + 1);
    std::replace_if(
        side.begin(), side.end(), [](char c) { return c == '#' || c == '*' || c == '|'; }, ' ');
    return side;
}

} // namespace

int cleatsOf(const Project& project, const std::string& a, const std::string& b) {
    const auto at = std::find_if(project.cleats.begin(), project.cleats.end(), [&](const CleatRule& rule) {
        return (rule.a == a && rule.b == b) || (rule.a == b && rule.b == a);
    });
    return at == project.cleats.end() ? -1 : static_cast<int>(at - project.cleats.begin());
}

Expected<Edit> addCleats(const Project& project, const Scope& scope, const std::string& a,
                         const std::string& b, CleatKind kind) {
    if (a.empty() || b.empty())
        return fail("no-joint", "No joint of two plates is chosen.", {},
                    "Choose an edge where a plate meets another one.");
    const bool block = kind == CleatKind::block;
    const std::string words = block ? "corner blocks" : "cleats";
    const int old = cleatsOf(project, a, b);
    CleatRule rule;
    if (old >= 0) rule = project.cleats[static_cast<std::size_t>(old)];
    if (old >= 0 && (rule.kind == "block") == block)
        return fail("already-there", a + " and " + b + " have " + words + " of their own already.", rule.name,
                    "Change their sizes in the table of frames and seams.");
    const Unit unit = scope.unit == Unit::none ? Unit::mm : scope.unit;
    const bool inches = unit == Unit::in || unit == Unit::ft;
    const auto size = [&](double mm, double in) { return detail::written(inches ? in * 25.4 : mm, unit); };
    rule.kind = block ? "block" : "cleat";
    if (block) { // as common practice: a block as long as two of its widths, one a hand's length from the
                 // next
        rule.length = size(40, 1.5);
        rule.spacing = size(250, 10);
    }
    if (old < 0) {
        const std::string stem = sideOf(a) + " " + sideOf(b);
        rule.name = stem;
        rule.a = a;
        rule.b = b;
        rule.width = rule.depth = size(20, 0.75);
        rule.end_gap = size(10, 0.375);
        for (int n = 2; std::any_of(project.cleats.begin(), project.cleats.end(),
                                    [&](const CleatRule& other) { return other.name == rule.name; });
             ++n)
            rule.name = stem + " " + std::to_string(n);
    }
    return detail::formEdit(project, "Put " + words + " between " + a + " and " + b,
                            [rule, old](const Project& p) -> Expected<Project> {
                                Project next = p;
                                if (old >= 0 && old < static_cast<int>(next.cleats.size()))
                                    next.cleats[static_cast<std::size_t>(old)] = rule;
                                else
                                    next.cleats.insert(next.cleats.begin(), rule);
                                return next;
                            });
}

Expected<Edit> takeCleatsAway(const Project& project, const std::string& a, const std::string& b) {
    const int old = cleatsOf(project, a, b);
    if (old < 0)
        return fail("no-such-place", "No cleats are for the joint of " + a + " and " + b + " alone.", a,
                    "Change the wider rule in the table of frames and seams.");
    return removeValue("/cleats/" + std::to_string(old), "Take cleats away between " + a + " and " + b);
}

} // namespace slab
