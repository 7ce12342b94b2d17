// Openings that are cut in frames: hand holes, ways for cables and pipes.
#include "core/frames/frames.h"
#include "core/plates/outline.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

constexpr const char* prefix = "frames/";
constexpr double grazing = 0.2; ///< sine of the least angle between an opening's direction and a board

bool namesFrame(const std::string& pattern) {
    return pattern.starts_with(prefix);
}

/// A directed opening's outline where its prism goes through the board's middle plane.
Ring throughPlane(const ResolvedOpening& opening, const Frame& board) {
    Frame at = plates::panelFrame(opening.direction, {});
    at.origin = opening.origin;
    const Vec3 way = board.axes.transpose() * opening.direction;
    Ring out;
    if (std::abs(way.z()) < grazing) return out;
    for (const Vec2& p : opening.outline) {
        const Vec3 local = board.toLocal(at.toBody(p));
        out.emplace_back((local - way * (local.z() / way.z())).head<2>());
    }
    return signedArea(out) < 0 ? reversed(out) : out;
}

} // namespace

void addOpenings(std::vector<FrameChoice>& choices, const std::vector<ResolvedOpening>& openings) {
    for (const ResolvedOpening& o : openings)
        for (FrameChoice& c : choices) {
            const std::string board = prefix + c.name;
            if (!o.plate.empty()) {
                if (namesFrame(o.plate) && matches(o.plate, board))
                    c.openings.push_back({o.name, o.outline, true, o.at});
                continue;
            }
            if (std::none_of(o.plates.begin(), o.plates.end(), [&](const std::string& pattern) {
                    return namesFrame(pattern) && matches(pattern, board);
                }))
                continue;
            if (Ring ring = throughPlane(o, c.place); ring.size() >= 3)
                c.openings.push_back({o.name, std::move(ring), false, Vec2::Zero()});
        }
}

} // namespace slab
