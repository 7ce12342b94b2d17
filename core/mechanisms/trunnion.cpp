// Trunnions of the document: the tube and its motion, slots in the plates ahead, balance.
#include "core/mechanisms/trunnion.h"
#include "core/mechanisms/rounds.h"
#include "core/plates/outline.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace mechanisms {

bool mayPass(const MechanismInput& in, const TrunnionFigures& t, const std::string& plate) {
    const auto carries = [&](const Turntable& table) {
        return !table.off && std::any_of(table.carries.begin(), table.carries.end(),
                                         [&](const auto& pattern) { return matches(pattern, plate); });
    };
    if (t.table) return carries(*t.table);
    const auto& tables = in.project.mechanisms.turntables;
    return std::none_of(tables.begin(), tables.end(), carries);
}

namespace {

using std::numbers::pi;
using Unit = MechanismFact::Unit;

constexpr double usualSlotGap = 5;   ///< mm round the tube (common practice)
constexpr double longestRod = 1000;  ///< mm: threaded rod is sold by the metre (common practice)
constexpr double longestPipe = 6000; ///< mm (common practice)
constexpr double heavyHold = 5;      ///< N m: more is told as out of balance (common practice)

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
    const bool off =
        std::any_of(in.project.mechanisms.turntables.begin(), in.project.mechanisms.turntables.end(),
                    [&](const Turntable& table) { return table.name == t.on && table.off; });
    read.report(Severity::look, "trunnion-on-unknown",
                "it is to turn with \"" + t.on +
                    (off ? "\", which is left out; it stands still"
                         : "\", which is not a turntable that can be made; it stands still"),
                "on",
                off ? "Put that turntable back in, or leave the trunnion out too."
                    : "Correct the turntable's name, or put that turntable right.");
}

bool readFigures(const MechanismInput& in, MechanismSet& set, Reading& read, const Trunnion& t,
                 TrunnionFigures& out) {
    out.name = t.name;
    out.frame = read.place(t.at);
    TubeLoad& l = out.load;
    l.diameter = read.size(t.diameter, "diameter", "the tube's diameter");
    l.wall = read.notNegative(read.length(t.wall, "wall"), "wall", "the tube's wall");
    l.front = read.size(t.front, "front", "the length ahead of the pivot", Space::subject);
    l.rear = read.notNegative(read.length(t.rear, "rear", 0, Space::subject), "rear",
                              "the length behind the pivot");
    if (t.mass.find_first_not_of(" \t\r\n") != std::string::npos)
        l.mass = read.notNegative(read.number(t.mass, "mass"), "mass", "its mass");
    l.frontMass = read.notNegative(read.number(t.front_mass, "front_mass"), "front_mass",
                                   "the weight at its front end");
    l.rearMass =
        read.notNegative(read.number(t.rear_mass, "rear_mass"), "rear_mass", "the weight at its rear end");
    out.gap = read.notNegative(read.length(t.gap, "gap", usualSlotGap), "gap", "the gap round the tube");
    if (read.ok() && 2 * l.wall > l.diameter) // a solid rod is as thick as half
        read.report(Severity::stop, "mechanism-size", "the tube's wall is more than half of its diameter",
                    "wall", "Measure the wall at the tube's end; half of the diameter for a solid rod.");
    if (!readRise(read, t, out)) return false;
    if (!t.stock.empty()) {
        const Sheet* sheet = read.sheet(t.stock, "stock");
        if (!sheet) return false;
        out.cheek = *sheet;
    }
    readTable(in, set, read, t, out);
    return read.ok();
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
    if (std::abs(p.outer.normal.dot(t.rise.axis)) > 1e-6 || !endIsBeyond(p)) return;
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
        SlotProblem p;
        p.pivot = t.frame.origin;
        p.ahead = t.frame.axes.col(0);
        p.up = t.frame.axes.col(2);
        p.radius = radius;
        p.front = t.load.front + t.gap;
        p.from = t.rise.from;
        p.to = t.rise.to;
        p.outer = plate.outer;
        p.thickness = plate.thickness;
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

void tellBalance(Reading& read, const TrunnionFigures& t) {
    const TubeBalance b = balanceOf(t.load);
    const bool byWall = !t.load.mass && b.mass > 0;
    read.fact("tube_mass", byWall ? "Mass of the tube, as PVC pipe of that wall" : "Mass of the tube", b.mass,
              Unit::mass);
    read.fact("moment", "Moment about the pivot, level (nose heavy)", b.moment, Unit::moment);
    read.fact("holding", "Greatest moment to hold", b.holding, Unit::moment);
    read.fact("counterweight",
              b.counterweight >= 0 ? "Counterweight at the rear end" : "Counterweight at the front end",
              std::abs(b.counterweight), Unit::mass);
    read.fact("front_reach", "Front end from the pivot", std::hypot(t.load.front, t.load.diameter / 2));
    read.fact("rear_drop", "Rear end below the pivot, at the greatest elevation",
              std::max(0.0, t.load.rear * std::sin(t.rise.to) + t.load.diameter / 2 * std::cos(t.rise.to)));
    if (!t.load.mass && b.mass == 0 && t.load.frontMass == 0 && t.load.rearMass == 0)
        read.report(Severity::note, "trunnion-no-mass", "its balance is not known", "mass",
                    "Weigh the tube and type its mass in, or give its wall.");
    if (b.holding <= heavyHold) return;
    const bool possible = b.counterweight != 0;
    // What is to be typed: with what hangs there already.
    const bool rear = b.counterweight > 0;
    const double there = rear ? t.load.rearMass : t.load.frontMass;
    const std::string weight = read.mass(there + std::abs(b.counterweight)) + (there > 0 ? " in all" : "") +
                               " at the " + (rear ? "rear" : "front") + " end";
    read.report(Severity::look, "trunnion-unbalanced",
                "it takes up to " + read.moment(b.holding) + " to hold; let go, its " +
                    (b.moment > 0 ? "front" : "rear") + " end falls",
                b.moment > 0 ? "rear_mass" : "front_mass",
                possible ? "Hang " + weight + ", or clamp the pivot."
                         : "Move the pivot to the middle, or clamp it.");
}

/// What hangs at its ends, and what still has to, for balance.
void tellWeights(Reading& read, const TrunnionFigures& t) {
    constexpr double least = 0.01; // kg; less is not worth hanging
    const char* fasten = "fastened so that it cannot come off when the tube swings";
    const double more = balanceOf(t.load).counterweight;
    for (const auto& [mass, end] :
         {std::pair(t.load.frontMass, "front end"), std::pair(t.load.rearMass, "rear end")})
        if (mass > 0) read.hardware("weight of " + read.mass(mass) + " at the " + end, 1, 0, fasten);
    if (std::abs(more) >= least)
        read.hardware("counterweight of " + read.mass(std::abs(more)) +
                          ((more > 0 ? t.load.rearMass : t.load.frontMass) > 0 ? " more" : "") + " at the " +
                          (more > 0 ? "rear end" : "front end"),
                      1, 0, std::string("for balance; ") + fasten);
}

void tellHardware(Reading& read, const TrunnionFigures& t, bool slotted) {
    const double across = t.load.diameter + 2 * (t.gap + t.cheekThickness()) + 20;
    read.sold(across, 0, longestRod, "diameter", "a pivot bolt",
              "Make the tube, with the gaps beside it, at least " + read.wordsAtLeast(across - longestRod) +
                  " narrower.");
    read.sold(t.load.front + t.load.rear, 0, longestPipe, "front", "a tube",
              "Make it shorter, ahead of the pivot or behind it, or at a smaller scale, by at least " +
                  read.wordsAtLeast(t.load.front + t.load.rear - longestPipe) + " as built.");
    read.hardware("pivot bolt " + read.words(pivotBolt) + " with four washers and a lock nut, length", 1,
                  across, "through both cheeks and the tube; snug, so that the tube stays where it is put");
    read.hardware("tube or pipe, outside " + read.words(t.load.diameter) + ", length", 1,
                  t.load.front + t.load.rear);
    tellWeights(read, t);
    read.report(
        Severity::note, "trunnion-pinch",
        slotted
            ? "fingers can be caught between the tube and the edges of its slot, and under a tube that falls"
            : "fingers can be caught between the tube and what holds it, and under a tube that falls",
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
        set.solids.push_back({t.name,
                              t.name + "/tube",
                              t.tube(-t.load.rear, t.load.front),
                              motion,
                              true,
                              t.gap,
                              true,
                              MovingSolid::Meets::all,
                              {PartRole::Kind::tube}});
        addTube(t, motion, set);
        if (const RoundPart* form = formAt(in.body.rounds, t.tube(-t.load.rear, t.load.front)))
            set.ownForms.emplace_back(t.name, form->name);
        const std::size_t before = set.openings.size();
        cutSlots(in, read, t, set);
        addCheeks(in, read, t, set);
        tellBalance(read, t);
        tellHardware(read, t, set.openings.size() > before);
    }
}

} // namespace slab
