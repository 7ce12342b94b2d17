#include "core/nesting/nest.h"
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

NestResult nest(const NestProblem& problem, const NestOptions& options, const Job& job) {
    const bool quick = options.seconds <= 0 && options.rounds <= 0;
    const nesting::Library library = nesting::makeLibrary(problem, quick ? 4 : 8);
    nesting::NoFitCache cache(library);
    const nesting::Task task = nesting::makeTask(problem, library, cache);
    return nesting::resultOf(task, nesting::search(task, options, job));
}

} // namespace slab
