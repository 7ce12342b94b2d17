#include "core/nesting/check.h"
#include "core/nesting/objective.h"
#include "core/nesting/search.h"
#include <algorithm>
#include <cmath>

namespace slab {

Polygon placed(const NestPart& part, const NestPlace& place) {
    const auto [c, s] = nesting::cosSin(place.rotation);
    Polygon out = part.shape;
    const auto move = [&, cosine = c, sine = s](Ring& ring) {
        for (Vec2& p : ring) {
            const double y = place.flipped ? -p.y() : p.y();
            p = Vec2(cosine * p.x() - sine * y + place.x, sine * p.x() + cosine * y + place.y);
        }
        if (place.flipped) std::reverse(ring.begin(), ring.end());
    };
    move(out.outer);
    for (Ring& hole : out.holes) move(hole);
    return out;
}

namespace {

double sheetArea(const NestProblem& problem, const NestLayout& layout, double stripLength) {
    if (problem.strip > 0) return stripLength * problem.strip;
    const NestSheet& s = problem.sheets[static_cast<std::size_t>(layout.sheet)];
    return s.length * s.width;
}

/// Takes back, last first, what the judge does not accept. Never needed in tests; a wrong sheet is worse than
/// a part too many on the next one.
NestResult onlySound(const NestProblem& problem, NestResult result) {
    if (checkNest(problem, result).empty()) return result;
    ++result.refusals;
    for (NestLayout& layout : result.layouts)
        while (!layout.places.empty() && !nesting::soundLayout(problem, layout, result.stripLength)) {
            const NestPlace last = layout.places.back();
            const double own = area(problem.parts[static_cast<std::size_t>(last.part)].shape);
            const double size = layout.used > 0 ? sheetArea(problem, layout, result.stripLength) : 1;
            layout.places.pop_back();
            layout.used = layout.places.empty() ? 0 : layout.used - own / size;
            result.unplaced.emplace_back(last.part, last.copy);
        }
    return result;
}

} // namespace

NestResult nest(const NestProblem& problem, const NestOptions& options, const Job& job) {
    const bool quick = options.seconds <= 0 && options.rounds <= 0;
    const nesting::Library library =
        nesting::makeLibrary(problem, {quick ? 4 : 8, quick && problem.strip <= 0});
    nesting::NoFitCache cache(library);
    const nesting::Task task = nesting::makeTask(problem, library, cache);
    NestResult best = nesting::resultOf(task, nesting::search(task, options, job));
    if (!quick && !checkNest(problem, best).empty()) {
        // What the judge refuses of a search is not mended: the constructive layout stands instead.
        NestOptions once = options;
        once.seconds = 0;
        once.rounds = 0;
        NestResult plain = nest(problem, once, job);
        ++plain.refusals;
        return plain;
    }
    return onlySound(problem, std::move(best));
}

} // namespace slab
