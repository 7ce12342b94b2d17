#pragma once
// The description of chassis parts, people, route and ride; see describe.h.
#include "core/document/ride.h"
#include "core/document/spec.h"

namespace slab::detail {

template <class V, Is<DonorWheel> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kName);
    v.text("x", o.x, kLength);
    v.text("y", o.y, kLength);
    v.text("diameter", o.diameter, kLength);
    v.text("width", o.width, kLength);
    v.text("role", o.role, oneOf(kWheelWords));
    v.text("trail", o.trail, kLength);
    v.text("lock", o.lock, kAngle);
    v.rest(o.extra);
}

template <class V, Is<ServicePoint> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kName);
    v.text("x", o.x, kLength);
    v.text("y", o.y, kLength);
    v.text("z", o.z, kLength);
    v.text("from", o.from, oneOf(kDirectionWords));
    v.text("hand", o.hand, kLength);
    v.rest(o.extra);
}

/// What riders and passengers have in common.
template <class V, class T>
void figureFields(V& v, T& o) {
    v.text("table", o.table, knownOf(kTableWords, Need::always));
    v.text("sex", o.sex, oneOf(kSexWords));
    v.text("percentile", o.percentile, Spec{Role::number, Need::always});
    v.text("age", o.age, kNumber);
    v.text("stature", o.stature, kLength);
    v.map("figures", o.figures, kAny);
    v.text("mass", o.mass, kNumber);
    v.text("recline", o.recline, kAngle);
    v.text("shoes", o.shoes, kLength);
    v.text("helmet", o.helmet, kLength);
}

template <class V, Is<Rider> T>
void fields(V& v, T& o) {
    figureFields(v, o);
    v.text("shift_x", o.shift_x, kLength);
    v.text("shift_z", o.shift_z, kLength);
    v.text("clearance", o.clearance, kLength);
    v.text("lean_forward", o.lean_forward, kAngle);
    v.text("lean_back", o.lean_back, kAngle);
    v.text("lean_aside", o.lean_aside, kAngle);
    v.rest(o.extra);
}

template <class V, Is<Passenger> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kName);
    figureFields(v, o);
    v.text("clearance", o.clearance, kLength);
    v.text("x", o.x, kLength);
    v.text("y", o.y, kLength);
    v.text("z", o.z, kLength);
    v.rest(o.extra);
}

template <class V, Is<GroundStretch> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kLabel);
    v.text("run", o.run, kLength);
    v.text("rise", o.rise, kLength);
    v.rest(o.extra);
}

template <class V, Is<RoutePart> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kName);
    v.text("kind", o.kind, oneOf(kRouteWords, Need::always));
    v.text("width", o.width, kLength);
    v.text("height", o.height, kLength);
    v.text("length", o.length, kLength);
    v.text("thickness", o.thickness, kLength);
    v.text("skew", o.skew, kAngle);
    v.text("diameter", o.diameter, kLength);
    v.text("way_out", o.way_out, kLength);
    v.text("turn", o.turn, kAngle);
    v.text("slope", o.slope, kNumber);
    v.text("counter", o.counter, kNumber);
    v.text("rise", o.rise, kLength);
    v.text("upright", o.upright, kLength);
    v.text("load", o.load, kNumber);
    v.flag("empty", o.empty);
    v.list("stretches", o.stretches, kPlain);
    v.flag("off", o.off);
    v.text("note", o.note, kLabel);
    v.rest(o.extra);
}

template <class V, Is<Ballast> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kName);
    v.text("mass", o.mass, kNumber);
    v.text("x", o.x, kLength);
    v.text("y", o.y, kLength);
    v.text("z", o.z, kLength);
    v.rest(o.extra);
}

template <class V, Is<Ride> T>
void fields(V& v, T& o) {
    v.text("slope", o.slope, kNumber);
    v.text("cross_slope", o.cross_slope, kNumber);
    v.text("speed", o.speed, kNumber);
    v.text("radius", o.radius, kLength);
    v.text("wind", o.wind, kNumber);
    v.text("friction", o.friction, kNumber);
    v.text("reaction", o.reaction, kNumber);
    v.text("braking", o.braking, kNumber);
    v.text("sees", o.sees, kLength);
    v.text("field", o.field, kAngle);
    v.text("load_share", o.load_share, kNumber);
    v.text("adhesive", o.adhesive, kNumber);
    v.list("ballast", o.ballast, kPlain);
    v.list("shell_wheels", o.wheels, kPlain);
    v.rest(o.extra);
}

template <class V, Is<RoundStock> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kName);
    v.text("diameter", o.diameter, kLength);
    v.text("wall", o.wall, kLength);
    v.text("length", o.length, kLength);
    v.text("price", o.price, kNumber);
    v.text("on_hand", o.on_hand, kNumber);
    v.rest(o.extra);
}

} // namespace slab::detail
