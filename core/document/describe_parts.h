#pragma once
// The description of frames, mechanisms, pictures and what belongs to them; see describe.h.
#include "core/document/mechanisms.h"
#include "core/document/pictures.h"
#include "core/document/spec.h"
#include "core/document/woodwork.h"

namespace slab::detail {

template <class V, Is<Rib> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kName);
    v.text("axis", o.axis, oneOf(kAxisWords));
    v.text("station", o.station, kLength);
    v.text("yaw", o.yaw, kAngle);
    v.text("pitch", o.pitch, kAngle);
    v.text("stock", o.stock, kStockName);
    v.text("gap", o.gap, kLength);
    v.text("web", o.web, kLength);
    v.text("clearance", o.clearance, kLength);
    v.text("fit", o.fit, kLength);
    v.flag("off", o.off);
    v.rest(o.extra);
}

template <class V, Is<CleatRule> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kName);
    v.pair("between", o.a, o.b, kPlate);
    v.text("kind", o.kind, oneOf(kCleatWords));
    v.text("stock", o.stock, kStockName);
    v.text("width", o.width, kLength);
    v.text("depth", o.depth, kLength);
    v.text("end_gap", o.end_gap, kLength);
    v.text("length", o.length, kLength);
    v.text("spacing", o.spacing, kLength);
    v.text("bar_length", o.bar_length, kLength);
    v.text("price", o.price, kNumber);
    v.text("density", o.density, kNumber);
    v.rest(o.extra);
}

template <class V, Is<Seam> T>
void fields(V& v, T& o) {
    v.text("plate", o.plate, kPlate.required());
    v.text("at", o.at, kLength);
    v.text("turn", o.turn, kAngle);
    v.text("strip", o.strip, kLength);
    v.text("strip_stock", o.strip_stock, kStockName);
    v.rest(o.extra);
}

template <class V, Is<Module> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kName);
    v.names("plates", o.plates, kPlate);
    v.rest(o.extra);
}

template <class V, Is<Passage> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kName);
    v.text("width", o.width, kLength.required());
    v.text("height", o.height, kLength.required());
    v.rest(o.extra);
}

template <class V, Is<PicturePoint> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kLabel);
    v.text("x", o.x, kNumber);
    v.text("y", o.y, kNumber);
    v.rest(o.extra);
}

template <class V, Is<PictureLine> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kLabel);
    v.text("x1", o.x1, kNumber);
    v.text("y1", o.y1, kNumber);
    v.text("x2", o.x2, kNumber);
    v.text("y2", o.y2, kNumber);
    v.text("size", o.size, kLabel);
    v.text("click_error", o.click_error, kNumber);
    v.rest(o.extra);
}

template <class V, Is<Picture> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kName);
    v.text("file", o.file, kLabel.required());
    v.text("hash", o.hash, Spec{Role::print});
    v.text("view", o.view, oneOf(kViewWords));
    v.pick("space", o.space, kSpaceWords, kPlain);
    v.text("crop_x", o.crop_x, kNumber);
    v.text("crop_y", o.crop_y, kNumber);
    v.text("crop_width", o.crop_width, kNumber);
    v.text("crop_height", o.crop_height, kNumber);
    v.list("crop_corners", o.crop_corners, kPlain);
    v.list("corners", o.corners, kPlain);
    v.text("rectangle_width", o.rectangle_width, kLength);
    v.text("rectangle_height", o.rectangle_height, kLength);
    v.object("from", o.from);
    v.object("to", o.to);
    v.text("distance", o.distance, kLength);
    v.text("click_error", o.click_error, kNumber);
    v.text("distance_error", o.distance_error, kNumber);
    v.text("x", o.x, kLength);
    v.text("y", o.y, kLength);
    v.text("turn", o.turn, kAngle);
    v.text("opacity", o.opacity, kNumber);
    v.flag("hidden", o.hidden);
    v.list("features", o.features, kPlain);
    v.list("lines", o.lines, kPlain);
    v.rest(o.extra);
}

template <class V, Is<DimensionLine> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kName);
    v.text("view", o.view, oneOf(kViewWords));
    v.text("from", o.from, kLabel.required());
    v.text("to", o.to, kLabel.required());
    v.text("along", o.along, oneOf(kAlongWords));
    v.text("drives", o.drives, kLabel);
    v.text("offset", o.offset, kLength);
    v.rest(o.extra);
}

template <class V, Is<Turntable> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kName);
    v.object("at", o.at);
    v.text("diameter", o.diameter, kLength);
    v.text("depth", o.depth, kLength);
    v.text("wall", o.wall, kLength);
    v.text("lip", o.lip, kLength);
    v.text("lip_thickness", o.lip_thickness, kLength);
    v.text("sides", o.sides, kNumber);
    v.text("drum_stock", o.drum_stock, kStockName);
    v.text("ring_stock", o.ring_stock, kStockName);
    v.text("gap", o.gap, kLength);
    v.text("overlap", o.overlap, kLength);
    v.text("ring_width", o.ring_width, kLength);
    v.names("carries", o.carries, kPlate);
    v.text("from", o.from, kAngle);
    v.text("to", o.to, kAngle);
    v.text("angle", o.angle, kAngle);
    v.flag("off", o.off);
    v.text("note", o.note, kLabel);
    v.rest(o.extra);
}

template <class V, Is<Trunnion> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kName);
    v.object("at", o.at);
    v.text("diameter", o.diameter, kLength);
    v.text("wall", o.wall, kLength);
    v.text("front", o.front, kLength);
    v.text("rear", o.rear, kLength);
    v.text("lowest", o.lowest, kAngle);
    v.text("highest", o.highest, kAngle);
    v.text("angle", o.angle, kAngle);
    v.text("gap", o.gap, kLength);
    v.text("stock", o.stock, kStockName);
    v.text("mass", o.mass, kNumber);
    v.text("front_mass", o.front_mass, kNumber);
    v.text("rear_mass", o.rear_mass, kNumber);
    v.text("on", o.on, kLabel);
    v.flag("off", o.off);
    v.text("note", o.note, kLabel);
    v.rest(o.extra);
}

template <class V, Is<Linkage> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kName);
    v.text("joint", o.joint, oneOf(kLinkageWords));
    v.object("at", o.at);
    v.text("up", o.up, kLength);
    v.text("down", o.down, kLength);
    v.text("pitch_up", o.pitch_up, kAngle);
    v.text("pitch_down", o.pitch_down, kAngle);
    v.text("pin", o.pin, kLength);
    v.text("stock", o.stock, kStockName);
    v.flag("off", o.off);
    v.text("note", o.note, kLabel);
    v.rest(o.extra);
}

template <class V, Is<BeltWheel> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kName);
    v.text("x", o.x, kLength);
    v.text("z", o.z, kLength);
    v.text("diameter", o.diameter, kLength.required());
    v.rest(o.extra);
}

template <class V, Is<Belt> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kName);
    v.object("at", o.at);
    v.list("wheels", o.wheels, kPlain);
    v.text("width", o.width, kLength);
    v.text("thickness", o.thickness, kLength);
    v.text("pitch", o.pitch, kLength);
    v.text("adjust", o.adjust, oneOf(kAdjustWords));
    v.text("moves", o.moves, kLabel);
    v.text("stock", o.stock, kStockName);
    v.text("overlap", o.overlap, kLength);
    v.flag("mirror", o.mirror);
    v.flag("off", o.off);
    v.text("note", o.note, kLabel);
    v.rest(o.extra);
}

template <class V, Is<Mechanisms> T>
void fields(V& v, T& o) {
    v.list("turntables", o.turntables, kPlain);
    v.list("trunnions", o.trunnions, kPlain);
    v.list("linkages", o.linkages, kPlain);
    v.list("belts", o.belts, kPlain);
    v.rest(o.extra);
}

} // namespace slab::detail
