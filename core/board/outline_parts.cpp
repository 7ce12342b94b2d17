#include "core/board/outline_parts.h"
#include "core/board/formula_text.h"
#include "core/board/moves.h"
#include "core/document/json.h"
#include <algorithm>
#include <charconv>
#include <cmath>

namespace slab::detail {

Expected<Edit> formEdit(const Project& project, std::string label,
                        const std::function<Expected<Project>(const Project&)>& apply) {
    Edit edit;
    edit.label = std::move(label);
    edit.apply = [apply](const Project& p) -> Expected<Project> {
        auto next = apply(p);
        if (!next) return next;
        if (auto wrong = checkProject(*next); !wrong.empty() && checkProject(p).empty())
            return Unexpected(wrong.front());
        return next;
    };
    // Refused now rather than when it is applied.
    if (auto trial = edit.apply(project); !trial) return Unexpected(trial.error());
    return edit;
}

std::string freshPointName(const std::vector<OutlinePoint>& points, const std::string& like) {
    const auto taken = [&](const std::string& name) {
        for (std::size_t i = 0; i < points.size(); ++i)
            if (pointName(points, i) == name || points[i].side == name) return true;
        return false;
    };
    std::string stem = like;
    if (const auto blank = stem.rfind(' ');
        blank != std::string::npos && blank + 1 < stem.size() &&
        stem.find_first_not_of("0123456789", blank + 1) == std::string::npos)
        stem.resize(blank);
    for (int n = 2;; ++n)
        if (std::string name = stem + " " + std::to_string(n); !taken(name)) return name;
}

void followPositions(Project& project, const std::string& form, const std::string& list,
                     const std::function<int(int)>& moved) {
    const std::string head = form + "/" + list + "/";
    for (DimensionLine& line : project.lines)
        for (std::string* end : {&line.from, &line.to}) {
            if (!end->starts_with(head)) continue;
            int was = -1;
            const auto [stop, error] =
                std::from_chars(end->data() + head.size(), end->data() + end->size(), was);
            if (error != std::errc()) continue;
            const std::string rest = end->substr(static_cast<std::size_t>(stop - end->data()));
            if (const int now = moved(was); now >= 0) *end = head + std::to_string(now) + rest;
        }
}

Text subjectText(double mm, const Scope& scope, double step) {
    const Unit unit = scope.unit == Unit::none ? Unit::mm : scope.unit;
    double value = mm / scope.scale;
    if (step > 0) {
        const double round = roundStep(step / scope.scale, unit);
        value = std::round(value / round) * round;
    }
    if (std::abs(value) < 1e-10) value = 0;
    return writtenWithin(value, unit, slackOf(step, scope.scale));
}

} // namespace slab::detail
