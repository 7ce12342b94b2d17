#include "core/frames/slot_margins.h"
#include "core/frames/way_words.h"
#include "core/plates/margins.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

constexpr double counted = 0.75; ///< of the depth: a sloping edge at the mouth makes no horn
constexpr double wall = 1e-3;    ///< mm

} // namespace

std::optional<SlotHorn> thinHorn(const Plate& board, const FrameCrossing& c, double within) {
    const bool isA = board.name == c.boardA;
    const double half = (isA ? c.slotA : c.slotB) / 2, depth = isA ? c.depthA : c.depthB;
    const Vec2 bottom = board.frame.toPlane(c.at);
    const Vec3 mouth = board.frame.axes.transpose() * (isA ? c.along : Vec3(-c.along));
    const Vec2 out = mouth.head<2>().normalized(), across(-out.y(), out.x());
    std::optional<SlotHorn> horn;
    for (const double side : {1.0, -1.0}) {
        const auto corner = [&](double a, double s) -> Vec2 { return bottom + side * a * across + s * out; };
        Ring strip{corner(half, 0), corner(half + within, 0), corner(half + within, counted * depth),
                   corner(half, counted * depth)};
        if (signedArea(strip) < 0) strip = reversed(strip);
        for (const Polygon& free : subtract({{strip, {}}}, {{board.boundary.outer, {}}})) {
            double least = within;
            Vec2 where = bottom;
            for (const Vec2& p : free.outer) {
                const double width = side * (p - bottom).dot(across) - half;
                if (width >= least) continue;
                least = width;
                where = p;
            }
            if (least < wall || least > within - wall || (horn && horn->width <= least)) continue;
            horn = SlotHorn{least, depth, board.frame.toBody(where)};
        }
    }
    return horn;
}

std::vector<Finding> hornFindings(const FrameSet& set, const StockSet& stock, const UnitStyle& units) {
    std::vector<Finding> findings;
    for (const FrameCrossing& c : set.crossings)
        for (const Plate& board : set.parts) {
            if (board.name != c.boardA && board.name != c.boardB) continue;
            const bool isA = board.name == c.boardA;
            const double wanted = leastWeb(stock.find(board.stock), board.thickness, isA ? c.slotA : c.slotB);
            const auto horn = thinHorn(board, c, wanted);
            if (!horn) continue;
            const std::string &own = isA ? c.a : c.b, &other = isA ? c.b : c.a;
            findings.push_back({Severity::look,
                                "frame-horn",
                                "Frame " + own + ": beside the slot for " + other + " only " +
                                    printFine(horn->width, units) + " of " + shortBoard(board.name) +
                                    " are left, " + printLength(horn->depth, units) +
                                    " long: they break off easily.",
                                {"frame:" + own, "frame:" + other},
                                "Move one of the two so that " + printLength(wanted, units) +
                                    " are left beside the slot, or glue a second layer onto it there.",
                                std::array<double, 3>{horn->at.x(), horn->at.y(), horn->at.z()}});
        }
    return findings;
}

} // namespace slab
