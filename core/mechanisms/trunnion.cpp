// Trunnions of the document: the tube and its motion, slots in the plates ahead, cheeks, balance.
#include "core/mechanisms/footing.h"
#include "core/mechanisms/part.h"
#include "core/mechanisms/reading.h"
#include "core/mechanisms/trunnion_slot.h"
#include "core/plates/facets.h"
#include "core/plates/margins.h"
#include "core/plates/outline.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace mechanisms {

namespace {

using std::numbers::pi;
using Unit = MechanismFact::Unit;

constexpr double usualSlotGap = 5;           ///< mm round the tube (common practice)
constexpr double pivotBolt = 10;             ///< mm (common practice for hand-moved tubes)
constexpr double boltHole = pivotBolt + 0.5; ///< mm, drilled (common practice)
constexpr double heavyHold = 5;              ///< N m: more is told as out of balance (common practice)

struct TrunnionFigures {
    std::string name;
    Frame frame; ///< u ahead, w up, origin on the pivot
    TubeLoad load;
    double gap = 0;
    Move rise;
    Motion motion;      ///< the rise, and the turntable's turn where it stands on one
    int turnsWith = -1; ///< motion of that turntable
    const Turntable* table = nullptr;
    std::optional<Sheet> cheek; ///< nothing = no cheeks

    [[nodiscard]] double cheekThickness() const { return cheek ? cheek->thickness : 0; }

    [[nodiscard]] Vec3 along(double ahead) const { return frame.origin + ahead * frame.axes.col(0); }
    [[nodiscard]] ConvexSolid tube(double from, double to, double grown = 0) const {
        return makeCylinder(along(from), along(to), load.diameter / 2 + grown);
    }
};

bool readRise(Reading& read, const Trunnion& t, TrunnionFigures& out) {
    Move& m = out.rise;
    m.words = "raised";
    m.at = out.frame.origin;
    m.axis = -out.frame.axes.col(1);
    m.from = out.load.lowest = read.angle(t.lowest, "lowest");
    m.to = out.load.highest = read.angle(t.highest, "highest");
    m.shown = read.angle(t.angle, "angle", std::clamp(0.0, std::min(m.from, m.to), std::max(m.from, m.to)));
    if (!read.ok()) return false;
    if (!(m.from <= m.to) || m.from < -pi / 2 - 1e-9 || m.to > pi / 2 + 1e-9) {
        read.report(Severity::stop, "mechanism-range",
                    "its elevations are not in order, or beyond straight down and straight up", "highest",
                    "Give the least and the greatest elevation, between -90° and 90°.");
        return false;
    }
    if (m.shown < m.from - 1e-9 || m.shown > m.to + 1e-9) {
        read.report(Severity::look, "mechanism-pose-outside", "it is shown beyond its range", "angle",
                    "Choose an angle between the least and the greatest elevation.");
        m.shown = std::clamp(m.shown, m.from, m.to);
    }
    return true;
}

void readTable(const MechanismInput& in, const MechanismSet& set, Reading& read, const Trunnion& t,
               TrunnionFigures& out) {
    out.motion = {out.name, {out.rise}};
    if (t.on.empty()) return;
    for (std::size_t i = 0; i < set.motions.size(); ++i)
        if (set.motions[i].mechanism == t.on) out.turnsWith = static_cast<int>(i);
    for (const Turntable& table : in.project.mechanisms.turntables)
        if (table.name == t.on) out.table = &table;
    if (out.turnsWith >= 0 && out.table) {
        const auto& moves = set.motions[static_cast<std::size_t>(out.turnsWith)].moves;
        out.motion.moves.insert(out.motion.moves.end(), moves.begin(), moves.end());
        return;
    }
    out.turnsWith = -1;
    out.table = nullptr;
    read.report(Severity::look, "trunnion-on-unknown",
                "it is to turn with \"" + t.on +
                    "\", which is not a turntable that can be made; it stands still",
                "on", "Correct the turntable's name, or put that turntable right.");
}

bool readFigures(const MechanismInput& in, MechanismSet& set, Reading& read, const Trunnion& t,
                 TrunnionFigures& out) {
    out.name = t.name;
    out.frame = read.place(t.at);
    TubeLoad& l = out.load;
    l.diameter = read.size(t.diameter, "diameter", "the tube's diameter");
    l.wall = std::max(0.0, read.length(t.wall, "wall"));
    l.front = read.size(t.front, "front", "the length ahead of the pivot", Space::subject);
    l.rear = std::max(0.0, read.length(t.rear, "rear", 0, Space::subject));
    l.mass = std::max(0.0, read.number(t.mass, "mass"));
    l.frontMass = std::max(0.0, read.number(t.front_mass, "front_mass"));
    l.rearMass = std::max(0.0, read.number(t.rear_mass, "rear_mass"));
    out.gap = std::max(0.0, read.length(t.gap, "gap", usualSlotGap));
    if (!readRise(read, t, out)) return false;
    if (!t.stock.empty()) {
        const Sheet* sheet = read.sheet(t.stock, "stock");
        if (!sheet) return false;
        out.cheek = *sheet;
    }
    readTable(in, set, read, t, out);
    return read.ok();
}

/// Plates that the tube may pass through: those that turn with it, or those that turn with nothing.
bool mayPass(const MechanismInput& in, const TrunnionFigures& t, const std::string& plate) {
    const auto carries = [&](const Turntable& table) {
        return !table.off && std::any_of(table.carries.begin(), table.carries.end(),
                                         [&](const auto& pattern) { return matches(pattern, plate); });
    };
    if (t.table) return carries(*t.table);
    const auto& tables = in.project.mechanisms.turntables;
    return std::none_of(tables.begin(), tables.end(), carries);
}

/// The part of an outline that lies near the plate.
Ring nearPlate(const Ring& ring, const CrossedPlate& plate, const Frame& flat, double margin) {
    Vec2 low = Vec2::Constant(1e300), high = -low;
    for (int i = 0; i < 8; ++i) {
        const Vec3 corner((i & 1 ? plate.box.max : plate.box.min).x(),
                          (i & 2 ? plate.box.max : plate.box.min).y(),
                          (i & 4 ? plate.box.max : plate.box.min).z());
        low = low.cwiseMin(flat.toPlane(corner));
        high = high.cwiseMax(flat.toPlane(corner));
    }
    low -= Vec2::Constant(margin);
    high += Vec2::Constant(margin);
    const Box2 box = bounds(ring);
    if ((box.min - low).minCoeff() >= 0 && (high - box.max).minCoeff() >= 0) return ring;
    const auto kept = intersect({{ring, {}}}, {{{low, {high.x(), low.y()}, high, {low.x(), high.y()}}, {}}});
    return kept.empty() ? Ring{} : kept.front().outer;
}

/// Heights of a slot whose plate holds the pivot's direction, outside and inside.
void tellSlot(Reading& read, const TrunnionFigures& t, const SlotProblem& p, const CrossedPlate& plate,
              const Ring& ring) {
    const Vec2 size = bounds(ring).size();
    read.fact("slot_width", "Slot in " + plate.name + ", across", size.x());
    read.fact("slot_height", "Slot in " + plate.name + ", along the tube's rise", size.y());
    if (std::abs(p.outer.normal.dot(t.rise.axis)) > 1e-6) return;
    const double lean = std::atan2(p.outer.normal.dot(p.up), p.outer.normal.dot(p.ahead));
    const auto edges =
        slotEdges(-p.outer.distance(p.pivot), p.thickness, p.radius, p.from - lean, p.to - lean);
    if (!edges) return;
    read.fact("slot_outer", "Needed in its outside face", edges->outerTop - edges->outerBottom);
    read.fact("slot_inner", "Needed in its inside face", edges->innerTop - edges->innerBottom);
}

void cutSlots(const MechanismInput& in, Reading& read, const TrunnionFigures& t, MechanismSet& set) {
    const double radius = t.load.diameter / 2 + t.gap;
    const Motion rise{t.name, {t.rise}};
    for (const CrossedPlate& plate : crossedPlates(in, rise, t.tube(0, t.load.front, t.gap))) {
        if (!mayPass(in, t, plate.name)) continue;
        SlotProblem p{t.frame.origin, t.frame.axes.col(0), t.frame.axes.col(2), radius,
                      t.rise.from,    t.rise.to,           plate.outer,         plate.thickness};
        if (p.outer.distance(p.pivot) > 0) // the pivot is outside: seen from there the faces change places
            p.outer = {-plate.outer.normal, plate.thickness - plate.outer.offset};
        ResolvedOpening slot;
        slot.name = t.name;
        slot.plates = {plate.name};
        slot.direction = plate.outer.normal;
        Frame flat = plates::panelFrame(slot.direction, {});
        flat.origin = slot.origin = p.pivot - plate.outer.distance(p.pivot) * plate.outer.normal;
        const auto ring = slotOutline(p, flat);
        if (!ring) continue; // it cannot pass: the sweep tells that they meet
        slot.outline = nearPlate(*ring, plate, flat, 2 * radius);
        if (slot.outline.size() < 3) continue;
        tellSlot(read, t, p, plate, slot.outline);
        set.openings.push_back(std::move(slot));
    }
}

/// From the pivot to the nearest edge of a cheek, by the rule of least edge distance.
double cheekWeb(const TrunnionFigures& t) {
    return boltHole / 2 + leastWeb(&*t.cheek, t.cheek->thickness, boltHole);
}

/// What the cheeks stand on: how far below the pivot, and whether on the turntable's lip.
struct CheekFoot {
    double below = 0;
    bool onLip = false, onNothing = false;
};

/// The highest of: the turntable's lip (the top of a drum that rises), a plate that the tube could pass; else
/// a foot of one and a half diameters, or what the bolt needs, on nothing.
CheekFoot footOf(const MechanismInput& in, const MechanismSet& set, const TrunnionFigures& t) {
    CheekFoot foot{std::max(1.5 * t.load.diameter, cheekWeb(t)), false, true};
    const auto plate = plateBelow(in, t.frame.origin, t.frame.axes.col(2), t.load.diameter / 2,
                                  [&](const std::string& name) { return mayPass(in, t, name); });
    if (plate) foot = {plate->below, false, false};
    if (!t.table) return foot;
    double top = -1e300; // of what turns, above the turntable's deck
    for (const MechanismFact& f : set.facts)
        if (f.mechanism == t.table->name && (f.key == "lip_top" || f.key == "drum_top"))
            top = std::max(top, f.value);
    const Move& turn = set.motions[static_cast<std::size_t>(t.turnsWith)].moves.front();
    const double below = (t.frame.origin - turn.at).dot(turn.axis) - top;
    if (below > t.load.diameter / 2 && below < 1e299 && (!plate || below < plate->below))
        foot = {below, true, false};
    return foot;
}

/// Corners of the feet of both cheeks as the turntable sees them along its axis.
std::vector<Vec2> feetOn(const Move& turn, const TrunnionFigures& t, const Ring& cheek, double below) {
    const Vec3 u = turn.axis.unitOrthogonal(), v = turn.axis.cross(u);
    const double half = bounds(cheek).size().x() / 2, inside = t.load.diameter / 2 + t.gap;
    std::vector<Vec2> feet;
    for (const double x : {-half, half})
        for (const double beside : {inside, inside + t.cheekThickness()})
            for (const double y : {-beside, beside}) {
                const Vec3 p = t.frame.toBody(Vec3(x, y, -below)) - turn.at;
                feet.emplace_back(u.dot(p), v.dot(p));
            }
    return feet;
}

/// Cheeks over the open mouth of a found tub that hangs from its lip, or in the air.
void checkFoot(const MechanismSet& set, Reading& read, const TrunnionFigures& t, const CheekFoot& foot,
               const Ring& cheek) {
    const std::string cure = "Put a plate under them (a plate form";
    if (foot.onNothing)
        read.report(Severity::look, "trunnion-no-footing", "its cheeks stand on nothing", "at",
                    cure + "), or move the pivot over one.");
    if (!foot.onLip) return;
    double mouth = 0; // of a found tub that hangs; a drum of plates has a disc there, one that rises its end
    for (const MechanismFact& f : set.facts)
        if (f.mechanism == t.table->name && f.key == "drum_mouth") mouth = f.value / 2;
    const Move& turn = set.motions[static_cast<std::size_t>(t.turnsWith)].moves.front();
    if (standsBesideMouth(feetOn(turn, t, cheek, foot.below), mouth)) return;
    read.report(
        Severity::look, "trunnion-no-footing",
        "its cheeks stand over the open mouth of " + t.table->name + ", " + read.words(2 * mouth) +
            " across, on nothing",
        "on",
        cure + " across the mouth that " + t.table->name +
            " carries), give the drum sides so that a disc closes it, or move the pivot over the lip.");
}

/// Outline of a cheek: round over the pivot, its foot below. Round the bolt's hole as much is left as the
/// rule of least edge distance asks for, unless the foot is nearer.
Ring cheekOutline(const TrunnionFigures& t, double foot) {
    const double head = std::max(t.load.diameter / 2, cheekWeb(t));
    const double n = plates::facetsOf(head);
    std::vector<Vec2> points = plates::circleRing(head / std::cos(pi / n)); // facets outside the circle
    const double half = std::max(bounds(points).max.x(), foot / 2);
    points.insert(points.end(), {{-half, -foot}, {half, -foot}});
    const double high = 2 * (head + foot);
    const auto kept =
        intersect({{convexHull(std::move(points)), {}}},
                  {{{{-2 * half, -foot}, {2 * half, -foot}, {2 * half, high}, {-2 * half, high}}, {}}});
    return kept.front().outer;
}

/// Two upright plates beside the tube, with the pivot's hole.
void addCheeks(const MechanismInput& in, Reading& read, const TrunnionFigures& t, MechanismSet& set) {
    if (!t.cheek) return;
    const CheekFoot standing = footOf(in, set, t);
    const double foot = standing.below;
    const double wanted = cheekWeb(t);
    if (foot < wanted - 1e-9)
        read.report(Severity::look, "trunnion-low",
                    "its pivot is only " + read.words(foot) + " above what its cheeks stand on", "at/z",
                    "Raise it to " + read.words(wanted) +
                        " at least, so that the bolt does not tear out of the cheeks' feet.");
    const Ring outline = cheekOutline(t, foot);
    checkFoot(set, read, t, standing, outline);
    CarriedPlates carried{t.name, {}, t.turnsWith, t.gap};
    for (const bool port : {true, false}) {
        PartShape s;
        s.name = t.name + (port ? "/cheek port" : "/cheek starboard");
        s.form = t.name;
        s.stock = t.cheek->name;
        s.thickness = t.cheek->thickness;
        const Vec3 x = t.frame.axes.col(0), y = t.frame.axes.col(1), z = t.frame.axes.col(2);
        s.at.axes.col(0) = port ? -x : x;
        s.at.axes.col(1) = z;
        s.at.axes.col(2) = port ? y : -y;
        s.at.origin = t.frame.origin + (t.load.diameter / 2 + t.gap + t.cheek->thickness) * s.at.axes.col(2);
        s.boundary = squareLoop(outline);
        PartLoop hole = squareLoop(reversed(plates::circleRing(boltHole / 2)));
        s.holes.push_back(std::move(hole));
        Plate plate = makePart(s);
        plate.holes.front().opening = t.name;
        carried.patterns.push_back(plate.name);
        set.parts.push_back(std::move(plate));
    }
    if (t.turnsWith >= 0) set.carried.push_back(std::move(carried));
}

void tellBalance(Reading& read, const TrunnionFigures& t) {
    const TubeBalance b = balanceOf(t.load);
    read.fact("tube_mass", "Mass of the tube", b.mass, Unit::mass);
    read.fact("moment", "Moment about the pivot, level (nose heavy)", b.moment, Unit::moment);
    read.fact("holding", "Greatest moment to hold", b.holding, Unit::moment);
    read.fact("counterweight",
              b.counterweight >= 0 ? "Counterweight at the rear end" : "Counterweight at the front end",
              std::abs(b.counterweight), Unit::mass);
    read.fact("front_reach", "Front end from the pivot", std::hypot(t.load.front, t.load.diameter / 2));
    read.fact("rear_drop", "Rear end below the pivot, at the greatest elevation",
              std::max(0.0, t.load.rear * std::sin(t.rise.to) + t.load.diameter / 2 * std::cos(t.rise.to)));
    if (b.mass == 0 && t.load.frontMass == 0 && t.load.rearMass == 0)
        read.report(Severity::note, "trunnion-no-mass", "its balance is not known", "mass",
                    "Weigh the tube and type its mass in, or give its wall.");
    if (b.holding <= heavyHold) return;
    const bool possible = b.counterweight != 0;
    const std::string weight =
        read.mass(std::abs(b.counterweight)) + " at the " + (b.counterweight > 0 ? "rear" : "front") + " end";
    read.report(Severity::look, "trunnion-unbalanced",
                "it takes up to " + read.moment(b.holding) + " to hold; let go, its " +
                    (b.moment > 0 ? "front" : "rear") + " end falls",
                b.moment > 0 ? "rear_mass" : "front_mass",
                possible ? "Hang " + weight + ", or clamp the pivot."
                         : "Move the pivot to the middle, or clamp it.");
}

void tellHardware(Reading& read, const TrunnionFigures& t) {
    const double across = t.load.diameter + 2 * (t.gap + t.cheekThickness()) + 20;
    read.hardware("pivot bolt " + read.words(pivotBolt) + " with four washers and a lock nut, length", 1,
                  across, "through both cheeks and the tube; snug, so that the tube stays where it is put");
    read.hardware("tube or pipe, outside " + read.words(t.load.diameter) + ", length", 1,
                  t.load.front + t.load.rear);
    read.report(
        Severity::note, "trunnion-pinch",
        "fingers can be caught between the tube and the edges of its slot, and under a tube that falls",
        "gap",
        "Keep hands off while it moves, give it a stop at both ends of its range, and follow local rules.");
}

/// The tube and what hangs at its ends; how large these weights are, the document does not tell.
void addTube(const TrunnionFigures& t, int motion, MechanismSet& set) {
    const auto add = [&](BoughtPart part, double mass) {
        if (mass > 0) part.mass = mass;
        if (t.table) part.on = t.table->name;
        part.motion = motion;
        set.bought.push_back(std::move(part));
    };
    const TubeLoad& l = t.load;
    add(boughtCylinder(t.name, "tube", t.tube(-l.rear, l.front)), balanceOf(l).mass);
    for (const auto& [mass, at, name] :
         {std::tuple(l.frontMass, l.front, "front weight"), std::tuple(l.rearMass, -l.rear, "rear weight")})
        if (mass > 0) add(boughtCylinder(t.name, name, {ConvexSolid::Kind::hull, {t.along(at)}, 0}), mass);
}

} // namespace

} // namespace mechanisms

void addTrunnions(const MechanismInput& in, MechanismSet& set) {
    using namespace mechanisms;
    const auto& all = in.project.mechanisms.trunnions;
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (all[i].off) continue;
        Reading read(in, set, "trunnions", i, all[i].name);
        TrunnionFigures t;
        if (!readFigures(in, set, read, all[i], t)) continue;
        const int motion = static_cast<int>(set.motions.size());
        set.motions.push_back(t.motion);
        set.solids.push_back(
            {t.name, t.name + "/tube", t.tube(-t.load.rear, t.load.front), motion, true, t.gap, true});
        addTube(t, motion, set);
        cutSlots(in, read, t, set);
        addCheeks(in, read, t, set);
        tellBalance(read, t);
        tellHardware(read, t);
    }
}

} // namespace slab
