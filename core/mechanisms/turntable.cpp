// Turntables of the document: figures, motion, openings, facts, hardware.
#include "core/mechanisms/turntable.h"
#include "core/mechanisms/rounds.h"
#include "core/mechanisms/turntable_deck.h"
#include "core/plates/facets.h"
#include "core/plates/outline.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace mechanisms {

namespace {

using std::numbers::pi;
using Unit = MechanismFact::Unit;

constexpr double usualGap = 3, usualOverlap = 15;       ///< mm (common practice)
constexpr double longestScrew = 200, longestBolt = 300; ///< mm, that shops have (common practice)
constexpr double usualRing = 40; ///< of the ring beside the lip, mm: screws hold (common practice)
constexpr double finger = 5;     ///< mm: narrower gaps take no fingertip (CEN/TR 13387:2004)

void tellStill(Reading& read, const Turntable& t, const Move& turn) {
    if (turn.endless || turn.to - turn.from > 1e-9) return;
    const bool one = t.from.empty() || t.to.empty();
    read.report(Severity::look, "turntable-still",
                std::string("it does not turn: ") + (one ? "its other stop counts as 0, where this one is"
                                                         : "both of its stops are at one angle"),
                t.from.empty() ? "from" : "to",
                "Give its stops two angles, or leave both empty to turn all the way round.");
}

bool readTurn(Reading& read, const Turntable& t, const Frame& frame, Move& turn) {
    turn.at = frame.origin;
    turn.axis = frame.axes.col(2);
    turn.endless = t.from.empty() && t.to.empty();
    turn.from = turn.endless ? -pi : read.angle(t.from, "from");
    turn.to = turn.endless ? pi : read.angle(t.to, "to");
    turn.shown = read.angle(t.angle, "angle");
    if (!read.ok()) return false;
    if (!(turn.from <= turn.to) || turn.to - turn.from > 2 * pi + 1e-9) {
        read.report(Severity::stop, "mechanism-range",
                    "its stops are not in order, or more than a full turn apart", "to",
                    "Give the first stop the smaller angle; leave both empty to turn all the way round.");
        return false;
    }
    if (!turn.endless && (turn.shown < turn.from - 1e-9 || turn.shown > turn.to + 1e-9)) {
        read.report(Severity::look, "mechanism-pose-outside", "it is shown beyond its stops", "angle",
                    "Choose an angle between the stops.");
        turn.shown = std::clamp(turn.shown, turn.from, turn.to);
    }
    tellStill(read, t, turn);
    return true;
}

bool readSides(Reading& read, const Turntable& t, TurntableFigures& out) {
    const double sides = read.number(t.sides, "sides");
    out.sides = static_cast<int>(std::lround(sides));
    if (out.sides == 0 && t.sides.empty()) return true;
    if (sides < 3 || sides > 64 || std::abs(sides - out.sides) > 1e-9) {
        read.report(Severity::stop, "turntable-sides",
                    "the number of sides is not a whole number from 3 to 64", "sides",
                    "Type a whole number, or leave it empty for a found tub or pipe.");
        return false;
    }
    const Sheet* sheet = read.sheet(t.drum_stock, "drum_stock");
    if (!sheet) return false;
    out.drumSheet = *sheet;
    return true;
}

/// A cap that reaches in over the rim of a drum that hangs: over its mouth, or over what stands on it.
void checkOverlap(Reading& read, const RingProblem& r, const RingSizes& sizes) {
    const double rim = r.lip + r.wall;
    if (r.rises || r.overlap <= rim + 1e-6) return;
    const bool shut = !(sizes.capHole > 0);
    read.report(shut ? Severity::stop : Severity::look, "ring-cap-over-drum",
                shut ? "its cap overlaps the lip by " + read.words(r.overlap) + ": no hole is left in it"
                     : "its cap overlaps the lip by " + read.words(r.overlap) + " and reaches " +
                           read.words(r.overlap - rim) + " in over the drum, beyond its lip and wall",
                "overlap", "Make the overlap " + read.wordsUpTo(rim) + " or less.");
}

/// What is left empty has its usual size; what is typed must be one.
void checkSizes(Reading& read, const RingProblem& r) {
    for (const auto& [size, field, words] :
         {std::tuple(r.gap, "gap", "the gap round the lip"),
          std::tuple(r.overlap, "overlap", "how far its cap overlaps the lip"),
          std::tuple(r.ringWidth, "ring_width", "the width of its rings")})
        if (!(size > 0))
            read.report(Severity::stop, "ring-size", std::string(words) + " is not above zero", field,
                        "Type a size above zero, or leave it empty for the usual.");
}

/// @return false after a finding
bool readFigures(const MechanismInput& in, Reading& read, const Turntable& t, TurntableFigures& out) {
    out.name = t.name;
    out.frame = read.place(t.at);
    RingProblem& r = out.rings;
    r.diameter = read.size(t.diameter, "diameter", "the drum's diameter");
    const double depth = read.length(t.depth, "depth");
    r.rises = depth < 0;
    out.depth = std::abs(depth);
    if (read.ok() && out.depth == 0)
        read.report(
            Severity::stop, "mechanism-size", "the drum has no depth", "depth",
            "Measure it below the lip and type it in; below zero for a drum that stands up from its lip.");
    if (!readSides(read, t, out)) return false;
    r.wall = out.sides ? out.drumSheet.thickness
                       : read.notNegative(read.length(t.wall, "wall"), "wall", "the drum's wall");
    if (read.ok() && r.wall > r.diameter / 2 + 1e-9) // as thick: nothing of it is hollow
        read.report(Severity::stop, "mechanism-size", "the drum's wall is thicker than half the drum", "wall",
                    "Measure the wall of the tub or pipe and type it in.");
    r.lip = read.size(t.lip, "lip", "how far the lip stands out");
    r.lipThickness = out.sides ? out.drumSheet.thickness
                               : read.size(t.lip_thickness, "lip_thickness", "the lip's thickness");
    r.gap = read.length(t.gap, "gap", usualGap);
    r.overlap = read.length(t.overlap, "overlap", usualOverlap);
    r.ringWidth = read.length(t.ring_width, "ring_width", r.lip + usualRing);
    const Sheet* sheet = read.sheet(t.ring_stock, "ring_stock");
    if (!sheet || !readTurn(read, t, out.frame, out.turn) || !read.ok()) return false;
    out.ringSheet = *sheet;
    out.ringRoom = plates::roomOf(in.stock, sheet->name);
    r.ringThickness = sheet->thickness;
    checkSizes(read, r);
    if (!read.ok()) return false;
    const auto sizes = ringSizes(r);
    if (!sizes) {
        Error error = sizes.error();
        if (error.code == "ring-narrow")
            error.remedy = "Make the ring wider than the lip by at least " + read.words(20) +
                           ", so that screws hold in the spacer.";
        read.report(error);
        return false;
    }
    out.sizes = *sizes;
    checkOverlap(read, r, *sizes);
    if (!read.ok()) return false;
    cutRings(out);
    return true;
}

void tellFacts(Reading& read, const TurntableFigures& t) {
    const RingSizes& r = t.sizes;
    read.fact("lip_diameter", "Lip, outside", r.lipDiameter);
    if (t.sides == 0 && !t.rings.rises)
        read.fact("drum_mouth", "Mouth of the drum, inside", t.rings.diameter - 2 * t.rings.wall);
    read.fact("seat_hole", "Hole of the seat ring", r.seatHole);
    read.fact("spacer_hole", "Hole of the spacer ring", r.spacerHole);
    read.fact("cap_hole", "Hole of the cap ring", r.capHole);
    read.fact("screw_circle", "Circle of the rings' screws", (r.spacerHole + r.outside) / 2);
    read.fact("ring_outside", "Outside of the rings", r.outside);
    if (const int segments = t.segments.value_or(1); segments > 1) {
        read.fact("ring_segments", "Segments of each ring, joints staggered", segments, Unit::number);
        read.fact("ring_joint_lap", "Joint to the next layer's joint, round the ring", jointLap(r, segments));
    }
    read.fact("spacer_layers", "Layers of the spacer", r.spacerLayers, Unit::number);
    read.fact("packing", r.packingUnderLip ? "Packing under the lip" : "Packing on the spacer", r.packing);
    read.fact("lip_top", "Upper face of the lip above the deck", r.lipTop);
    if (t.rings.rises) read.fact("drum_top", "Top of the drum above the deck", t.drumHigh());
    read.fact("cap_top", "Upper face of the cap above the deck", r.capTop);
    read.fact("radial_play", "Play to each side", r.play);
    read.fact("seat_left", "Lip left on the seat, drum pushed aside", r.seatLeft);
    read.fact("cap_left", "Lip left under the cap, drum pushed aside", r.capLeft);
    read.fact("tilt_play", "Rocking each way", r.tilt, Unit::angle);
}

/// @param deck  the plate under the seat ring; null when there is none
void tellHardware(Reading& read, const StockSet& stock, const TurntableFigures& t, const CrossedPlate* deck) {
    const RingSizes& r = t.sizes;
    const double middle = (r.spacerHole + r.outside) / 2;
    const int segments = t.segments.value_or(1), joints = segments > 1 ? 2 * segments : 0;
    const int screws = ringScrews(t, segments);
    const auto soft = [](const Sheet* sheet) { // where no screw holds
        return sheet && (sheet->kind == "foam" || sheet->kind == "card");
    };
    const bool bolted = soft(&t.ringSheet) || (deck && soft(stock.find(deck->stock)));
    const double stack = r.capTop + (deck ? deck->thickness : 0), every = pi * middle / screws;
    const double length = stack + (bolted ? 30 : -2); // for washers, pad and nut; else its point stays in it
    read.sold(length, 0, bolted ? longestBolt : longestScrew, "lip_thickness",
              bolted ? "a bolt through its rings" : "a screw through its rings",
              "Make the lip thinner or the gap smaller, or cut the rings from a thinner sheet.");
    const std::string beside = joints > 0 ? "; one on either side of every joint" : "";
    read.hardware(bolted ? "bolt with two washers and a lock nut, length" : "countersunk screw, length",
                  screws, length,
                  (bolted ? "through cap, spacer, seat and deck, evenly on a circle of " +
                                read.words(middle) + ", every " + read.words(every) + "; washers of " +
                                read.words(25) + " or more on plywood pads"
                          : "through cap and spacer into seat and deck, evenly on a circle of " +
                                read.words(middle) + ", every " + read.words(every) + "; pilot holes first") +
                      beside);
    if (joints > 0)
        read.hardware(
            "adhesive for the layers of the rings", 1, 0,
            "the segments butt; glue each layer all over onto the one below, its joints on the "
            "marks, so that it splices them" +
                std::string(r.packing > 0 && !r.packingUnderLip ? "; glue the packing in as well" : ""));
    read.hardware("low-friction strip (smooth plastic tape), length", 1,
                  pi * (r.seatHole + r.lipDiameter) / 2, "round the seat, under the lip");
    read.hardware("low-friction strip (smooth plastic tape), length", 1, pi * (r.capHole + r.lipDiameter) / 2,
                  "round the cap's underside, over the lip");
    if (r.packing > 0)
        read.hardware("packing (card or veneer), thickness", 1, r.packing,
                      r.packingUnderLip ? "all round on the seat, under the lip"
                                        : "all round between the spacer and the cap");
    if (t.sides == 0)
        read.hardware("found tub or pipe for the drum, outside", 1, t.rings.diameter,
                      read.words(t.depth) + (t.rings.rises ? " high" : " deep") + " from its lip, lip " +
                          read.words(r.lipDiameter) + " across and " + read.words(t.rings.lipThickness) +
                          " thick");
    if (!t.turn.endless)
        read.hardware("stop block with a screw", 2, 0, "screwed to the cap ring at the stops");
}

/// Rings that no sheet gives even in segments.
void checkSheet(Reading& read, const TurntableFigures& t) {
    if (!t.segments)
        read.report(Severity::stop, "ring-sheet",
                    "a sheet of " + t.ringSheet.name + " is too small for its rings, in segments too",
                    "ring_stock", "Choose a larger sheet, or make the rings narrower.");
}

/// Fingers: published gaps, and the caution that every turntable gets.
void tellCautions(Reading& read, const TurntableFigures& t) {
    const double slim = (t.sizes.outside - t.sizes.spacerHole) / 2;
    if (slim < 20)
        read.report(Severity::look, "ring-slim",
                    "only " + read.words(slim) + " of the spacer is left beside the lip", "ring_width",
                    "Make the rings wider, so that " + read.words(20) + " are left for screws.");
    const bool narrow = t.rings.gap < finger;
    read.report(
        narrow ? Severity::note : Severity::look, "turntable-pinch",
        "fingers can be caught where the drum and what stands on it turn past the rings; the gap is " +
            read.words(t.rings.gap),
        "gap",
        narrow ? "Keep hands off while it turns, and follow local rules; a gap under " + read.words(finger) +
                     " takes no fingertip."
               : "Make the gap smaller than " + read.words(finger) +
                     ", so that no fingertip goes in, or cover it; follow local rules.");
}

void openDeck(const TurntableFigures& t, const std::vector<CrossedPlate>& crossed, MechanismSet& set) {
    const double radius = t.sizes.seatHole / 2;
    if (crossed.empty() || !(radius > 0)) return;
    ResolvedOpening hole;
    hole.name = t.name;
    for (const CrossedPlate& p : crossed) hole.plates.push_back(p.name);
    hole.origin = t.frame.origin;
    hole.direction = t.frame.axes.col(2);
    const double n = plates::facetsOf(radius);
    hole.outline = plates::circleRing(radius / std::cos(pi / n)); // facets outside the circle
    hole.circle = 2 * radius;
    set.openings.push_back(std::move(hole));
}

/// The drum and its lip for pictures and sweeps. What turns about its own axis sweeps nothing but itself, so
/// they stand still.
class DrumSolids {
public:
    DrumSolids(const TurntableFigures& t, MechanismSet& set) : m_t(t), m_set(set) {}

    void add() {
        const double rim = m_t.sizes.lipDiameter / 2, low = m_t.drumLow(), high = m_t.drumHigh();
        const double mouth = m_t.mouth();
        part(PartRole::Kind::lip, m_t.lipBottom(), m_t.sizes.lipTop, rim, mouth);
        // Within, a drum of plates is as hollow under its disc as one that rises.
        const double inside = m_t.inside();
        part(PartRole::Kind::drum, low, high, m_t.rings.diameter / 2, inside);
        if (!(inside > 0)) return;
        const double end = std::min(m_t.rings.wall, high - low);
        const double from = m_t.rings.rises ? high - end : low;
        put(PartRole::Kind::drum,
            makeCylinder(m_t.onAxis(from), m_t.onAxis(from + end), m_t.rings.diameter / 2), found(),
            Meets::people);
    }

private:
    using Meets = MovingSolid::Meets;
    [[nodiscard]] bool found() const { return m_t.sides == 0; }
    void put(PartRole::Kind role, ConvexSolid solid, bool drawn, Meets meets) {
        const std::string name = m_t.name + (role == PartRole::Kind::lip ? "/lip" : "/drum");
        m_set.solids.push_back(
            {m_t.name, name, std::move(solid), -1, true, m_t.rings.gap, drawn, meets, {role}});
    }
    /// Round, with a round hole of radius `inside`: for what keeps outside of it whole, which is exact; for
    /// what may be within in staves, which stand out between their edges.
    void part(PartRole::Kind role, double low, double high, double radius, double inside) {
        const bool hollow = inside > 0;
        put(role, makeCylinder(m_t.onAxis(low), m_t.onAxis(high), radius), found() && !hollow,
            hollow ? Meets::plates : Meets::all);
        constexpr int staves = 48;
        for (int i = 0; hollow && i < staves; ++i) {
            ConvexSolid stave;
            for (const double a : {2 * pi * i / staves, 2 * pi * (i + 1) / staves})
                for (const double r : {inside, radius / std::cos(pi / staves)})
                    for (const double h : {low, high})
                        stave.points.push_back(m_t.frame.toBody(Vec3(r * std::cos(a), r * std::sin(a), h)));
            put(role, std::move(stave), found(), Meets::people);
        }
    }

    const TurntableFigures& m_t;
    MechanismSet& m_set;
};

/// A found drum with its lip: what it weighs, the document does not tell.
void addFoundDrum(const TurntableFigures& t, MechanismSet& set) {
    if (t.sides > 0) return;
    BoughtPart drum = boughtCylinder(
        t.name, "drum", makeCylinder(t.onAxis(t.drumLow()), t.onAxis(t.drumHigh()), t.rings.diameter / 2));
    drum.pieces.push_back(
        makeCylinder(t.onAxis(t.lipBottom()), t.onAxis(t.sizes.lipTop), t.sizes.lipDiameter / 2));
    set.bought.push_back(std::move(drum));
}

} // namespace

} // namespace mechanisms

void addTurntables(const MechanismInput& in, MechanismSet& set) {
    using namespace mechanisms;
    const auto& all = in.project.mechanisms.turntables;
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (all[i].off) continue;
        Reading read(in, set, "turntables", i, all[i].name);
        TurntableFigures t;
        if (!readFigures(in, read, all[i], t)) continue;
        const std::vector<CrossedPlate> crossed = deckPlates(in, t);
        const CrossedPlate* seat = seatPlate(t, crossed);
        if (!checkDeckLeft(read, t, seat)) continue;
        const int motion = static_cast<int>(set.motions.size());
        set.motions.push_back({t.name, {t.turn}});
        CarriedPlates carried{t.name, all[i].carries, motion, t.rings.gap};
        for (Plate& p : t.ringParts) addPart(set, std::move(p), {PartRole::Kind::ring});
        for (auto& [p, role] : drumPlates(t)) {
            carried.patterns.push_back(p.name);
            addPart(set, std::move(p), {role});
        }
        set.carried.push_back(std::move(carried));
        DrumSolids(t, set).add();
        addFoundDrum(t, set);
        if (const RoundPart* form =
                formAt(in.body.rounds,
                       makeCylinder(t.onAxis(t.drumLow()), t.onAxis(t.drumHigh()), t.rings.diameter / 2)))
            set.ownForms.emplace_back(t.name, form->name);
        checkSeat(read, t, seat);
        checkOverhang(in, read, t, seat);
        tellCutBelow(read, t, crossed, seat);
        openDeck(t, crossed, set);
        checkSheet(read, t);
        tellFacts(read, t);
        tellHardware(read, in.stock, t, seat);
        tellCautions(read, t);
    }
}

} // namespace slab
