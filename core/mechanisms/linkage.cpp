// Floating linkages of the document: how far the shell floats, slotted brackets, pins and hinges.
#include "core/mechanisms/float_range.h"
#include "core/mechanisms/part.h"
#include "core/mechanisms/reading.h"
#include "core/plates/facets.h"
#include "core/plates/margins.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace mechanisms {

namespace {

using Unit = MechanismFact::Unit;

constexpr double slotPlay = 1;  ///< mm that a slot or hole is wider than its pin (common practice)
constexpr double usualPin = 10; ///< mm (common practice)
constexpr double leastPin = 3, mostPin = 50; ///< mm: pins and bolts of such joints (common practice)

struct LinkageFigures {
    FloatJoint joint;
    double pin = usualPin;
};

double notBelowZero(Reading& read, double value, const std::string& field, const std::string& words) {
    if (value >= 0) return value;
    read.report(Severity::stop, "mechanism-range", words + " is below zero", field,
                "Give how far it goes that way as a size of its own.");
    return 0;
}

bool readLinkage(Reading& read, const Linkage& l, LinkageFigures& out) {
    FloatJoint& j = out.joint;
    j.name = l.name;
    j.hinge = l.joint != "pin_slot";
    j.at = read.place(l.at, Space::build).origin;
    out.pin = l.pin.empty() ? usualPin : read.size(l.pin, "pin", "the pin's diameter");
    if (read.ok())
        read.sold(out.pin, leastPin, mostPin, "pin", j.hinge ? "a hinge bolt" : "a pin",
                  "Measure it and type its diameter in, from " + read.words(leastPin) + " to " +
                      read.words(mostPin) + ".");
    j.up = j.hinge ? 0 : notBelowZero(read, read.length(l.up, "up"), "up", "its way up");
    j.down = j.hinge ? 0 : notBelowZero(read, read.length(l.down, "down"), "down", "its way down");
    // A slot that says nothing of the pitch does not limit it; a hinge that says nothing does not turn.
    const bool given = j.hinge || !l.pitch_up.empty() || !l.pitch_down.empty();
    if (!given) return read.ok();
    j.noseUp = notBelowZero(read, read.angle(l.pitch_up, "pitch_up"), "pitch_up", "its pitch nose up");
    j.noseDown =
        notBelowZero(read, read.angle(l.pitch_down, "pitch_down"), "pitch_down", "its pitch nose down");
    if (std::max(*j.noseUp, *j.noseDown) > std::numbers::pi / 4 + 1e-9)
        read.report(Severity::stop, "mechanism-range", "it pitches by more than 45°", "pitch_up",
                    "Give an angle up to 45°.");
    return read.ok();
}

/// Around (0, 0), where the pin rests: it goes down in the slot as the shell rises.
Ring slotRing(const FloatJoint& j, double pin) {
    const double r = (pin + slotPlay) / 2;
    Ring ring;
    if (j.up + j.down < 1e-9) return plates::circleRing(r);
    for (const Vec2& p : plates::circleRing(r)) {
        if (p.y() >= -1e-9) ring.emplace_back(p.x(), p.y() + j.down);
    }
    for (const Vec2& p : plates::circleRing(r)) {
        if (p.y() <= 1e-9) ring.emplace_back(p.x(), p.y() - j.up);
    }
    return convexHull(ring);
}

/// An upright plate along the body with the slot or the hole for the pin.
void addBracket(Reading& read, const Linkage& l, const LinkageFigures& f, MechanismSet& set) {
    const FloatJoint& j = f.joint;
    const double slot = j.up + j.down + f.pin + slotPlay, across = f.pin + slotPlay;
    if (!j.hinge) {
        read.fact("slot_length", "Length of the slot", slot);
        read.fact("slot_width", "Width of the slot", across);
    }
    if (l.stock.empty()) return;
    const Sheet* sheet = read.sheet(l.stock, "stock");
    if (!sheet) return;
    // The least web round its hole, by the rule that judges every hole, at either end of the slot too.
    const double edge = leastWeb(sheet, sheet->thickness, across);
    const double half = across / 2 + edge, top = j.down + across / 2 + edge, low = -j.up - across / 2 - edge;
    const double side = j.at.y() < 0 ? -1 : 1;
    PartShape s;
    s.name = l.name + "/bracket";
    s.form = l.name;
    s.stock = sheet->name;
    s.thickness = sheet->thickness;
    s.at.axes << -side * Vec3::UnitX(), Vec3::UnitZ(), side * Vec3::UnitY();
    s.at.origin = j.at + side * sheet->thickness / 2 * Vec3::UnitY();
    s.boundary = squareLoop({Vec2(-half, low), Vec2(half, low), Vec2(half, top), Vec2(-half, top)});
    const Ring ring = slotRing(j, f.pin);
    s.holes.push_back(squareLoop(reversed(ring)));
    const Box2 hole = bounds(ring);
    s.pieces = {{{-half, low}, {half, low}, {half, hole.min.y()}, {-half, hole.min.y()}},
                {{-half, hole.max.y()}, {half, hole.max.y()}, {half, top}, {-half, top}},
                {{-half, hole.min.y()},
                 {hole.min.x(), hole.min.y()},
                 {hole.min.x(), hole.max.y()},
                 {-half, hole.max.y()}},
                {{hole.max.x(), hole.min.y()},
                 {half, hole.min.y()},
                 {half, hole.max.y()},
                 {hole.max.x(), hole.max.y()}}};
    Plate plate = makePart(s);
    plate.holes.front().opening = l.name;
    addPart(set, std::move(plate), {PartRole::Kind::bracket});
}

void tellLinkage(Reading& read, const LinkageFigures& f) {
    if (f.joint.hinge)
        read.hardware("hinge or hinge bolt with washers and a lock nut, diameter", 1, f.pin,
                      "clamp its chassis half on, do not drill a mobility chair");
    else
        read.hardware("pin with two wide washers and a clip, diameter", 1, f.pin,
                      "clamp its chassis half on, do not drill a mobility chair");
    if (f.joint.hinge) return;
    read.fact("up", "Way up from rest", f.joint.up);
    read.fact("down", "Way down from rest", f.joint.down);
}

/// What all linkages together allow.
void tellFloat(const MechanismInput& in, const std::vector<FloatJoint>& joints, std::size_t first,
               MechanismSet& set) {
    Reading read(in, set, "linkages", first, joints.front().name);
    if (set.floating.locked) {
        read.report(Severity::stop, "linkage-locked", "two hinges on different lines hold the shell still",
                    "at", "Put the hinges on one line, or make one of them a pin in a slot.");
        return;
    }
    if (set.floating.poses.empty()) {
        read.report(Severity::look, "linkage-still", "it lets nothing move", "",
                    "Give its travel, or switch it off.");
        return;
    }
    read.fact("nose_up", "The shell pitches nose up to", set.floating.noseUp, Unit::angle);
    read.fact("nose_down", "The shell pitches nose down to", -set.floating.noseDown, Unit::angle);
    read.report(Severity::note, "linkage-pinch",
                "hands and feet can be caught between the floating shell and the chassis", "at",
                "Keep them inside while it rides, leave no gap that closes to less than " + read.words(25) +
                    " within reach, and follow local rules.");
}

} // namespace

} // namespace mechanisms

void addLinkages(const MechanismInput& in, MechanismSet& set) {
    using namespace mechanisms;
    const auto& all = in.project.mechanisms.linkages;
    std::vector<FloatJoint> joints;
    std::size_t first = 0;
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (all[i].off) continue;
        Reading read(in, set, "linkages", i, all[i].name);
        LinkageFigures figures;
        if (!readLinkage(read, all[i], figures)) continue;
        addBracket(read, all[i], figures, set);
        tellLinkage(read, figures);
        if (joints.empty()) first = i;
        joints.push_back(figures.joint);
    }
    if (joints.empty()) return;
    set.floating = floatRange(joints);
    tellFloat(in, joints, first, set);
}

} // namespace slab
