#pragma once
// The one description of the document: what stands in every object of the file, in which order, and what it
// means. Reading, writing, keeping unknown fields, renaming, JSON pointers and the list of fields are
// visitors over it.
//
// A visitor offers
//   text(key, string&, Spec)            flag(key, bool&)         real(key, double&)
//   pick(key, Enum&, words, Spec)       choice(key, bool&, words)  version(key, int&)
//   names(key, vector<string>&, Spec)   pair(key, string&, string&, Spec)
//   map(key, vector<NamedText>&, Spec)  map(key, vector<PlateMaterial>&, Spec)
//   object(key, T&)                     list(key, vector<T>&, Spec)
//   shape(key, Shape&)                  rest(Extra&)
#include "core/document/describe_parts.h"
#include "core/document/describe_ride.h"
#include "core/document/project.h"

namespace slab::detail {

template <class V, Is<Dimension> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kName);
    v.text("value", o.value, kAny.required());
    v.pick("space", o.space, kSpaceWords, kPlain.always());
    v.text("note", o.note, kLabel);
    v.rest(o.extra);
}

template <class V, Is<Placement> T>
void fields(V& v, T& o) {
    v.text("x", o.x, kLength);
    v.text("y", o.y, kLength);
    v.text("z", o.z, kLength);
    v.text("roll", o.roll, kAngle);
    v.text("pitch", o.pitch, kAngle);
    v.text("yaw", o.yaw, kAngle);
    v.rest(o.extra);
}

template <class V, Is<Curve> T>
void fields(V& v, T& o) {
    v.text("from", o.from, kPoint.required());
    v.text("to", o.to, kPoint.required());
    v.pick("kind", o.kind, kCurveWords, kPlain);
    v.text("bulge", o.bulge, kLength);
    v.text("x", o.x, kLength);
    v.text("y", o.y, kLength);
    v.text("z", o.z, kLength);
    v.text("sweep", o.sweep, kAngle);
    v.list("through", o.through, Spec{Role::label, Need::optional, {}, Points::any, false});
    v.text("facets", o.facets, kNumber);
    v.text("tolerance", o.tolerance, kLength);
    v.rest(o.extra);
}

template <class V, Is<OutlinePoint> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kPoint);
    v.text("side", o.side, kLabel);
    v.text("x", o.x, kLength);
    v.text("y", o.y, kLength);
    v.text("z", o.z, kLength);
    v.text("half_width", o.half_width, kLength);
    v.rest(o.extra);
}

template <class V, Is<ProfileShape> T>
void fields(V& v, T& o) {
    v.list("outline", o.outline, pointsOf(Points::profile));
    v.list("curves", o.curves, kPlain);
}

template <class V, Is<TaperShape> T>
void fields(V& v, T& o) {
    v.list("base", o.base, pointsOf(Points::plan));
    v.list("top", o.top, pointsOf(Points::plan));
    v.text("base_z", o.base_z, kLength);
    v.text("top_z", o.top_z, kLength);
    v.list("curves", o.curves, kPlain);
}

template <class V, Is<PlateShape> T>
void fields(V& v, T& o) {
    v.list("outline", o.outline, pointsOf(Points::plan));
    v.list("curves", o.curves, kPlain);
}

template <class V, Is<RoundShape> T>
void fields(V& v, T& o) {
    v.text("diameter", o.diameter, kLength);
    v.text("top_diameter", o.top_diameter, kLength);
    v.text("length", o.length, kLength);
    v.text("wall", o.wall, kLength);
    v.text("part", o.part, kLabel);
    v.flag("cuts", o.cuts);
    v.text("gap", o.gap, kLength);
}

template <class V, Is<FacetFace> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kPoint);
    v.names("corners", o.corners, kPoint.required());
    v.rest(o.extra);
}

template <class V, Is<FacetShape> T>
void fields(V& v, T& o) {
    v.list("corners", o.corners, pointsOf(Points::corner));
    v.list("faces", o.faces, kPlain.required());
    v.flag("flatten", o.flatten);
    v.flag("symmetric", o.symmetric);
    v.names("pinned", o.pinned, kPoint);
    v.map("weights", o.weights, kNumber);
}

template <class V, Is<Form> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kName);
    v.shape("kind", o.shape);
    v.object("at", o.at);
    v.flag("standing", o.standing);
    v.flag("mirror", o.mirror);
    v.flag("off", o.off);
    v.text("note", o.note, kLabel);
    v.rest(o.extra);
}

template <class V, Is<Materials> T>
void fields(V& v, T& o) {
    v.text("default", o.fallback, kStockName);
    v.map("plates", o.plates, kStockName);
    v.rest(o.extra);
}

template <class V, Is<EdgeJoint> T>
void fields(V& v, T& o) {
    v.pair("between", o.a, o.b, kPlate.required());
    v.pick("joint", o.joint, kJointWords, kPlain.required());
    v.rest(o.extra);
}

template <class V, Is<Joints> T>
void fields(V& v, T& o) {
    v.pick("default", o.fallback, kJointWords, kPlain);
    v.names("order", o.order, kPlate);
    v.list("edges", o.edges, kPlain);
    v.rest(o.extra);
}

template <class V, Is<Opening> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kName);
    v.pick("shape", o.shape, kOpeningWords, kPlain.always());
    v.text("plate", o.plate, kPlate);
    v.text("direction", o.direction, oneOf(kDirectionWords));
    v.names("plates", o.plates, kPlate);
    v.text("u", o.u, kLength);
    v.text("v", o.v, kLength);
    v.text("x", o.x, kLength);
    v.text("y", o.y, kLength);
    v.text("z", o.z, kLength);
    v.text("width", o.width, kLength);
    v.text("height", o.height, kLength);
    v.text("diameter", o.diameter, kLength);
    v.text("corner_radius", o.corner_radius, kLength);
    v.text("turn", o.turn, kAngle);
    v.list("outline", o.outline, Spec{Role::label, Need::optional, {}, Points::hole, false});
    v.flag("parallel_walls", o.parallel_walls);
    v.text("purpose", o.purpose, oneOf(kPurposeWords));
    v.flag("lid", o.lid);
    v.text("lid_gap", o.lid_gap, kLength);
    v.text("lap", o.lap, kLength);
    v.text("lap_stock", o.lap_stock, kStockName);
    v.rest(o.extra);
}

template <class V, Is<DonorSolid> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kName);
    v.text("shape", o.shape, oneOf(kSolidWords, Need::required));
    v.text("x", o.x, kLength);
    v.text("y", o.y, kLength);
    v.text("z", o.z, kLength);
    v.text("size_x", o.size_x, kLength);
    v.text("size_y", o.size_y, kLength);
    v.text("size_z", o.size_z, kLength);
    v.text("diameter", o.diameter, kLength);
    v.text("length", o.length, kLength);
    v.text("axis", o.axis, oneOf(kAxisWords));
    v.text("clearance", o.clearance, kLength);
    v.flag("moving", o.moving);
    v.rest(o.extra);
}

template <class V, Is<Donor> T>
void fields(V& v, T& o) {
    v.text("kind", o.kind, knownOf(kDonorWords, Need::always));
    v.object("at", o.at);
    v.choice("place", o.best_place, kPlaceWords);
    v.map("changes", o.changes, kAny);
    v.list("solids", o.solids, kPlain);
    v.names("leave_out", o.leave_out, kSolid);
    v.map("measures", o.measures, kAny);
    v.list("wheels", o.wheels, kPlain);
    v.list("service_points", o.service, kPlain);
    v.text("drive", o.drive, oneOf(kDriveWords));
    v.rest(o.extra);
}

template <class V, Is<Clearance> T>
void fields(V& v, T& o) {
    v.text("default", o.fallback, kLength.always());
    v.map("solids", o.solids, kLength);
    v.rest(o.extra);
}

template <class V, Is<SheetStock> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kName);
    v.text("kind", o.kind, oneOf(kSheetWords, Need::always));
    v.pair("size", o.width, o.length, kLength.required());
    v.text("thickness", o.thickness, kLength.required());
    v.flag("measured", o.measured);
    v.text("price", o.price, kNumber);
    v.text("on_hand", o.on_hand, kNumber);
    v.text("trim", o.trim, kLength);
    v.text("density", o.density, kNumber);
    v.text("turns", o.turns, oneOf(kTurnWords));
    v.flag("flip", o.flip);
    v.rest(o.extra);
}

template <class V, Is<Stock> T>
void fields(V& v, T& o) {
    v.list("sheets", o.sheets, kPlain);
    v.list("rounds", o.rounds, kPlain);
    v.text("match", o.match, kLength);
    v.text("kerf", o.kerf, kLength);
    v.text("margin", o.margin, kLength);
    v.text("currency", o.currency, kLabel);
    v.rest(o.extra);
}

template <class V, Is<CutPanel> T>
void fields(V& v, T& o) {
    v.text("panel", o.panel, kPanel.required());
    v.text("fingerprint", o.fingerprint, Spec{Role::print, Need::always});
    v.rest(o.extra);
}

template <class V, Is<PieceKey> T>
void fields(V& v, T& o) {
    v.text("name", o.name, kPlate.required());
    v.names("neighbours", o.neighbours, kPlate);
    v.real("x", o.x);
    v.real("y", o.y);
    v.real("z", o.z);
    v.rest(o.extra);
}

template <class V, Is<Project> T>
void fields(V& v, T& o) {
    v.version("slabside", o.version);
    v.text("title", o.title, kLabel.always());
    v.text("units", o.units, oneOf(kUnitWords, Need::always));
    v.text("scale", o.scale, Spec{Role::ratio, Need::always});
    v.list("dimensions", o.dimensions, kPlain);
    v.list("forms", o.forms, kPlain);
    v.object("materials", o.materials);
    v.object("joints", o.joints);
    v.list("openings", o.openings, kPlain);
    v.list("frames", o.frames, kPlain);
    v.list("cleats", o.cleats, kPlain);
    v.list("seams", o.seams, kPlain);
    v.list("modules", o.modules, kPlain);
    v.list("passages", o.passages, kPlain);
    v.object("mechanisms", o.mechanisms);
    v.list("pictures", o.pictures, kPlain);
    v.list("dimension_lines", o.lines, kPlain);
    v.object("donor", o.donor);
    v.object("rider", o.rider);
    v.list("passengers", o.passengers, kPlain);
    v.object("clearance", o.clearance);
    v.list("route", o.route, kPlain);
    v.object("ride", o.ride);
    v.object("stock", o.stock);
    v.text("paper", o.paper, kLabel);
    v.list("cut", o.cut, kPlain);
    v.list("pieces", o.pieces, kPlain);
    v.text("seed", o.seed, kNumber);
    v.rest(o.extra);
}

} // namespace slab::detail
