// Starts of what stands on the body: turntables and trunnions.
#include "core/board/formula_text.h"
#include "core/board/mechanism_figures.h"
#include "core/plates/margins.h"
#include "core/plates/openings.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::detail {

namespace {

constexpr double rim = 10;                       ///< mm left beside the rings at least
constexpr double leastRing = 75, mostRing = 300; ///< radius outside, mm: smaller ones hold no screws
constexpr double boltHole = 10.5;                ///< mm, as a trunnion's cheeks are drilled

/// mm round a place of a plate that are free of its edges, its holes and what stands on it.
double roomRound(const Plate& plate, const Sheet* sheet, const Vec2& at) {
    constexpr double dot = 0.5;
    const Ring here{at + Vec2(-dot, -dot), at + Vec2(dot, -dot), at + Vec2(dot, dot), at + Vec2(-dot, dot)};
    const EdgeRoom edge = edgeRoom(plate, sheet, here, {});
    if (edge.through) return 0;
    double room = edge.left;
    for (const Contact& contact : plate.contacts)
        for (const Ring& ring : contact.rings)
            for (std::size_t i = 0; i < ring.size() && !contact.inside; ++i) {
                const Vec2 from = ring[i], along = ring[(i + 1) % ring.size()] - from;
                const double share =
                    std::clamp((at - from).dot(along) / std::max(along.squaredNorm(), 1e-12), 0.0, 1.0);
                room = std::min(room, (from + share * along - at).norm());
            }
    return room;
}

Unexpected notLevel(const std::string& what, const std::string& on) {
    return fail("not-level", "A " + what + " stands on a level plate.", on,
                "Click a deck, a roof or another plate that lies level.");
}

/// How high over its foot a pivot stands: the bolt holds in the cheeks, and the rear end of the raised tube
/// stays clear.
double pivotHeight(const StartFigures& f, const std::string& stock, double radius, double rear) {
    const Sheet* sheet = f.e.stock ? f.e.stock->find(stock) : nullptr;
    const double web = boltHole / 2 + leastWeb(sheet, sheet ? sheet->thickness : 0, boltHole);
    constexpr double clear = 20, spare = 5; // mm
    return std::max(web + spare, (rear + radius) * std::sqrt(0.5) + clear);
}

void standOnTable(const StartFigures& f, const Turntable& table, double over, Trunnion& out) {
    out.on = table.name;
    out.at = table.at;
    out.at.extra = {};
    const double top =
        std::max(f.fact(table.name, "drum_top").value_or(0), f.fact(table.name, "lip_top").value_or(0));
    out.at.z = added(table.at.z, f.length(top + over + 9)); // rounded downwards by less
}

/// Its tube goes out through the plate, from a pivot that stands behind it.
void standBehind(const StartFigures& f, const Plate& plate, double behind, Trunnion& out) {
    const Vec3 outward = plate.frame.axes.col(2), pivot = f.start.spot.at - behind * outward;
    out.at.x = f.place(pivot.x());
    out.at.y = f.place(pivot.y());
    out.at.z = f.place(pivot.z());
    const double yaw = std::round(std::atan2(outward.y(), outward.x()) * 180 / std::numbers::pi);
    if (yaw != 0) out.at.yaw = printExact(yaw, Unit::none) + " deg";
}

} // namespace

Expected<Edit> newTurntable(const StartFigures& f) {
    const Plate* deck = f.plate();
    if (!deck || deck->frame.axes.col(2).z() < levelCosine) return notLevel("turntable", f.start.spot.on);
    const Sheet* sheet = f.e.stock ? f.e.stock->find(deck->stock) : nullptr;
    const double room = roomRound(*deck, sheet, deck->frame.toPlane(f.start.spot.at)) - f.start.step - rim;
    if (room < leastRing)
        return fail("no-room",
                    "A turntable needs " + f.size(2 * (leastRing + rim)) + " across; there is less.",
                    deck->name, "Click farther from the edge and from what stands there.");
    const double outside = std::clamp(0.6 * room, leastRing, mostRing);
    Turntable t;
    t.name = freshMechanism(f.project, "turntable");
    t.at.x = f.place(f.start.spot.at.x());
    t.at.y = f.place(f.start.spot.at.y());
    if (t.at.y.starts_with("0 ")) t.at.y.clear();
    t.at.z = f.height(*deck);
    // The lip runs in the spacer: wall, lip, gap, and 20 mm that hold screws beside them.
    const double ring = outside < 150 ? 45 : 60, wall = 3;
    const double diameter = f.rounded(2 * (outside - f.rounded(ring)) + 2 * wall);
    t.ring_width = f.size(ring);
    t.diameter = f.size(diameter);
    t.depth = "-" + f.size(std::max(40.0, 0.3 * diameter));
    t.wall = f.size(wall);
    t.lip = f.size(outside < 150 ? 12 : 15);
    t.lip_thickness = f.size(4);
    t.gap = f.size(2);
    t.overlap = f.size(10);
    t.ring_stock = f.wood();
    return f.put(t.name, [t](Project& p) { p.mechanisms.turntables.push_back(t); });
}

Expected<Edit> newTrunnion(const StartFigures& f) {
    const Vec3 body = f.e.body->bounds.size();
    const double front = std::max(200.0, 0.35 * std::max(body.x(), body.y())), rear = 0.2 * front;
    const double diameter = front < 500 ? 30 : 40;
    Trunnion t;
    t.name = freshMechanism(f.project, "trunnion");
    t.diameter = f.size(diameter);
    t.wall = f.size(2);
    t.front = f.length(front);
    t.rear = f.length(rear);
    t.lowest = "0 deg";
    t.highest = "45 deg";
    t.gap = f.size(5);
    t.stock = f.wood();
    const double over = pivotHeight(f, t.stock, diameter / 2, rear);
    const Plate* plate = f.plate();
    const double up = plate ? plate->frame.axes.col(2).z() : -1;
    if (const Turntable* table = f.table()) {
        standOnTable(f, *table, over, t);
    } else if (up >= levelCosine) {
        t.at.x = f.place(f.start.spot.at.x());
        t.at.y = f.place(f.start.spot.at.y());
        const double pointed = f.start.spot.at.z() - plate->frame.origin.z();
        t.at.z = added(f.height(*plate), f.length(std::max(over, pointed) + 9)); // rounded downwards by less
    } else if (std::abs(up) < 0.5) {
        t.stock.clear(); // what it stands on behind the plate, the builder has to say
        t.rear = f.length(40);
        standBehind(f, *plate, 60, t);
    } else {
        return fail("no-footing", "Nothing is there that a trunnion could stand on.", f.start.spot.on,
                    "Click a level plate, a turntable, or an upright plate that its tube goes through.");
    }
    return f.put(t.name, [t](Project& p) { p.mechanisms.trunnions.push_back(t); });
}

} // namespace slab::detail
