#include "ui/tables/field_words.h"
#include "core/donor/kinds.h"
#include "ui/tables/part_words.h"
#include "ui/tables/ride_words.h"
#include <algorithm>
#include <array>
#include <initializer_list>
#include <optional>

namespace slab::ui {

namespace {

using Entry = FieldEntry;

constexpr std::array entries{
    Entry{"document", "title", "title", "What the body is called on every drawing."},
    Entry{"document", "units", "units", "What sizes are shown in, and what a bare number means when typed."},
    Entry{"document", "scale", "scale", "Build size over full size: 0.42, 2/5, 1:2.5 or 40 %."},
    Entry{"document", "dimensions", "dimensions", "Named sizes that formulas everywhere may use."},
    Entry{"document", "forms", "forms", "The solids that the shell is shaped over."},
    Entry{"document", "materials", "materials", "Which sheet each plate is cut from."},
    Entry{"document", "joints", "joints", "Which plate covers which where two meet."},
    Entry{"document", "openings", "openings", "Holes cut on purpose: exit, sight, hand holes."},
    Entry{"document", "donor", "donor", "The chassis that carries the body."},
    Entry{"document", "rider", "rider", "Who sits in it."},
    Entry{"document", "clearance", "clearance", "How far donor and rider must stay from the plates."},
    Entry{"document", "stock", "stock", "The sheets you have or can buy."},
    Entry{"document", "paper", "paper", "Paper that templates are laid out on."},
    Entry{"document", "cut", "panels cut",
          "Panels that are already cut; a later change to one is a finding."},
    Entry{"document", "pieces", "piece names", "Kept so that pieces of a face hold their names."},
    Entry{"document", "seed", "seed",
          "Start of the search for sheet layouts; the same seed, the same layout."},
    Entry{"dimension", "name", "name", "Letters, digits and _; formulas use it."},
    Entry{"dimension", "value", "value", "A size, or a formula over other names: beam * 0.45 + 12 cm."},
    Entry{"dimension", "space", "space",
          "subject: of the full-size original, shrinks with the scale. build: stays as it is."},
    Entry{"dimension", "note", "note", "Words for yourself."},
    Entry{"placement", "x", "forward", "How far forward it stands."},
    Entry{"placement", "y", "to port", "How far to the left it stands."},
    Entry{"placement", "z", "up", "How high it stands."},
    Entry{"placement", "roll", "roll", "Turned about the forward axis first."},
    Entry{"placement", "pitch", "pitch", "Then turned nose down about the sideways axis."},
    Entry{"placement", "yaw", "yaw", "Then turned to port about the upright axis."},
    Entry{"curve", "from", "from", "Outline point where the arc starts."},
    Entry{"curve", "to", "to", "The next point, where it ends."},
    Entry{"curve", "bulge", "bulge", "How far the arc stands out from the straight line; minus hollows it."},
    Entry{"curve", "facets", "facets", "How many flat plates follow the arc."},
    Entry{"curve", "tolerance", "tolerance", "Instead of a count: how far a plate may miss the arc."},
    Entry{"point", "name", "name", "Names the corner, and the side that starts here."},
    Entry{"point", "side", "side", "Another name for the side that starts here."},
    Entry{"point", "x", "x", "Forward in the form's own axes."},
    Entry{"point", "y", "y", "To port in the form's own axes."},
    Entry{"point", "z", "z", "Up in the form's own axes."},
    Entry{"point", "half_width", "half width", "Half the width of the body here (profile forms)."},
    Entry{"face", "name", "name", "Names the plate on this face."},
    Entry{"face", "corners", "corners", "Corner names, counter-clockwise seen from outside."},
    Entry{"form", "name", "name", "Plates are called after it: hull/port."},
    Entry{"form", "kind", "kind",
          "profile, taper, plate, round or facet form. Another kind starts a plain shape of that kind."},
    Entry{"form", "at", "place", "Where the form stands and how it is turned."},
    Entry{"form", "standing", "standing", "Keeps its own closed skin instead of being joined: it lifts off."},
    Entry{"form", "mirror", "mirrored", "A second one on the other side."},
    Entry{"form", "off", "left out", "Kept in the document, but not built."},
    Entry{"form", "note", "note", "Words for yourself."},
    Entry{"form", "outline", "outline", "Corners in order round the outline."},
    Entry{"form", "curves", "curves", "Arcs between two neighbouring corners."},
    Entry{"form", "base", "base outline", "Corners of the lower outline, seen from above."},
    Entry{"form", "top", "top outline", "As many corners of the upper outline."},
    Entry{"form", "base_z", "base height", "Height of the lower outline."},
    Entry{"form", "top_z", "top height", "Height of the upper outline."},
    Entry{"form", "diameter", "diameter", "Outside diameter at the foot."},
    Entry{"form", "top_diameter", "top diameter", "Outside diameter at the top, if it is a cone."},
    Entry{"form", "length", "length", "Along its own axis."},
    Entry{"form", "wall", "wall", "Thickness of the pipe's wall."},
    Entry{"form", "part", "part", "The found or bought part that it is made from."},
    Entry{"form", "cuts", "cuts its opening", "Cuts its own hole in the plates that it crosses."},
    Entry{"form", "gap", "gap", "Added all round to that hole."},
    Entry{"form", "corners", "corners", "Corners of the traced shape."},
    Entry{"form", "faces", "faces", "Flat faces between the corners."},
    Entry{"materials", "default", "sheet for all", "The sheet for every plate that no rule below names."},
    Entry{"materials", "plates", "rules",
          "Plate or pattern with *, and its sheet; the first that matches wins."},
    Entry{"edge", "between", "between", "The two plates that meet; with cover, the first covers the second."},
    Entry{"edge", "joint", "joint", "cover, mitre, fold or open, for this edge alone."},
    Entry{"joints", "default", "joint for all",
          "cover: by the order below, equals are mitred. mitre: all mitred."},
    Entry{"joints", "order", "order", "Plates or patterns with *; the higher one covers the lower."},
    Entry{"joints", "edges", "single edges", "Edges that are joined otherwise."},
    Entry{"opening", "name", "name", "Stands beside the hole on the drawings."},
    Entry{"opening", "shape", "shape", "rectangle, circle, slot or polygon."},
    Entry{"opening", "plate", "in plate", "The plate it is cut in; empty if it goes along a direction."},
    Entry{"opening", "direction", "direction", "Cuts every plate that it meets along x, y or z."},
    Entry{"opening", "plates", "only plates", "With a direction: only these plates or patterns."},
    Entry{"opening", "u", "to the right", "From the middle of the plate, seen from outside."},
    Entry{"opening", "v", "up", "From the middle of the plate."},
    Entry{"opening", "x", "x", "With a direction: a point that its axis passes, forward."},
    Entry{"opening", "y", "y", "With a direction: a point that its axis passes, to port."},
    Entry{"opening", "z", "z", "With a direction: a point that its axis passes, up."},
    Entry{"opening", "width", "width", "Width of the rectangle, length of the slot."},
    Entry{"opening", "height", "height", "Height of the rectangle, width of the slot."},
    Entry{"opening", "diameter", "diameter", "Of a round hole."},
    Entry{"opening", "corner_radius", "corner radius", "Rounds a rectangle's corners."},
    Entry{"opening", "turn", "turned", "Counter-clockwise in the plate."},
    Entry{"opening", "outline", "outline", "Corners of a polygon, from the middle of the hole."},
    Entry{"opening", "parallel_walls", "parallel walls",
          "Walls along the direction instead of square to each plate."},
    Entry{"solid", "name", "name", "A name of the generic donor replaces that solid."},
    Entry{"solid", "shape", "shape", "box, cylinder or capsule."},
    Entry{"solid", "x", "x", "Middle, forward of the donor's origin."},
    Entry{"solid", "y", "y", "Middle, to port."},
    Entry{"solid", "z", "z", "Middle, above the ground."},
    Entry{"solid", "size_x", "size along x", "Of a box."},
    Entry{"solid", "size_y", "size along y", "Of a box."},
    Entry{"solid", "size_z", "size along z", "Of a box."},
    Entry{"solid", "diameter", "diameter", "Of a cylinder or capsule."},
    Entry{"solid", "length", "length", "Of a cylinder, or of a capsule without its caps."},
    Entry{"solid", "axis", "axis", "Which way a cylinder or capsule lies."},
    Entry{"solid", "clearance", "clearance", "Wanted here; empty takes the one for all."},
    Entry{"solid", "moving", "moving", "It is the room that something moving sweeps."},
    Entry{"donor", "kind", "chassis", "A generic chassis to start from; measure yours and change the sizes."},
    Entry{"donor", "at", "place", "Where the chassis stands under the body, at build size."},
    Entry{"donor", "place", "shift", "fixed where it stands, or moved along x to the best place."},
    Entry{"donor", "changes", "sizes", "The generic sizes; type your own measure beside any of them."},
    Entry{"donor", "solids", "own solids", "Boxes, cylinders and capsules of your own chassis."},
    Entry{"donor", "leave_out", "leave out", "Generic solids that yours does not have."},
    Entry{"clearance", "default", "clearance for all", "How far every solid must stay from every plate."},
    Entry{"clearance", "solids", "clearances", "Other clearances for single solids."},
    Entry{"sheet", "name", "name", "Plates name the sheet that they are cut from."},
    Entry{"sheet", "kind", "kind", "foam, hardboard, plywood, card or plastic."},
    Entry{"sheet", "size", "size", "Width and length of the whole sheet."},
    Entry{"sheet", "thickness", "thickness", "As measured; every panel follows."},
    Entry{"sheet", "measured", "measured",
          "Thickness and size are from your own sheet, not from the shop's label."},
    Entry{"sheet", "price", "price", "Of one sheet."},
    Entry{"sheet", "on_hand", "in the shed", "Sheets that you have already; used first."},
    Entry{"sheet", "trim", "trim", "Border that is not used."},
    Entry{"sheet", "density", "density", "Kilograms a cubic metre, for the mass."},
    Entry{"sheet", "turns", "turns",
          "How panels may lie: any way, quarter or half turns (grain), or not turned."},
    Entry{"sheet", "flip", "either face", "Both faces are alike: a panel may lie either way up."},
    Entry{"stock", "sheets", "sheets", "What can be bought or is in the shed."},
    Entry{"stock", "kerf", "kerf", "Width that the saw or knife takes away."},
    Entry{"stock", "margin", "margin", "Least room between panels besides the kerf."},
    Entry{"stock", "currency", "currency", "Sign before prices."},
    Entry{"cut", "panel", "panel", "A panel that is cut already."},
    Entry{"cut", "fingerprint", "as cut", "What it looked like when it was cut."},
    Entry{"piece", "name", "name", "A piece of a face that was divided."},
    Entry{"piece", "neighbours", "neighbours", "The plates that it meets."},
    Entry{"piece", "x", "x", "Middle of the piece at full size, mm."},
    Entry{"piece", "y", "y", "Middle of the piece at full size, mm."},
    Entry{"piece", "z", "z", "Middle of the piece at full size, mm."},
};

const Entry* find(const std::string& owner, const std::string& field) {
    const auto wanted = [&](const Entry& e) { return owner == e.owner && field == e.field; };
    const auto at = std::find_if(entries.begin(), entries.end(), wanted);
    if (at != entries.end()) return &*at;
    const auto part = std::find_if(partEntries.begin(), partEntries.end(), wanted);
    if (part != partEntries.end()) return &*part;
    const auto ride = std::find_if(rideEntries.begin(), rideEntries.end(), wanted);
    return ride == rideEntries.end() ? nullptr : &*ride;
}

QString spaced(const std::string& key) {
    return QString::fromStdString(key).replace('_', ' ');
}

/// The object that a field stands in: a nested group carries its own owner, its row is described by the one
/// above.
std::string ownerOf(const Node& node) {
    return node.parent ? node.parent->owner : "document";
}

/// Of lengths in frames, mechanisms and pictures; nothing for all others.
std::optional<Space> partSpace(const Node& node) {
    const auto in = [&](std::initializer_list<const char*> keys) {
        return std::any_of(keys.begin(), keys.end(), [&](const char* k) { return node.key == k; });
    };
    for (const Node* n = node.parent; n; n = n->parent) {
        const std::string& owner = n->owner;
        if (owner == "frame") return node.key == "station" ? Space::subject : Space::build;
        if (owner == "seam") return node.key == "at" ? Space::subject : Space::build;
        if (owner == "dimension line") return Space::subject;
        if (owner == "picture" && n->child("space"))
            return n->child("space")->value == "build" || in({"click_error", "distance_error", "end_error"})
                       ? Space::build
                       : Space::subject;
        if (owner == "turntable") return in({"x", "y", "z"}) ? Space::subject : Space::build;
        if (owner == "trunnion") return in({"x", "y", "z", "front", "rear"}) ? Space::subject : Space::build;
        if (owner == "belt") return in({"thickness", "overlap"}) ? Space::build : Space::subject;
    }
    return {};
}

} // namespace

bool hasWords(const std::string& owner, const std::string& field) {
    return find(owner, field) != nullptr;
}

FieldWords wordsOf(const Node& node) {
    if (node.kind == Node::Kind::fact)
        return {QString::fromStdString(node.label), QString::fromStdString(node.value)};
    if (node.entry) {
        const std::string name = node.name();
        const Node* list = node.parent;
        const Entry* e = list ? find(ownerOf(*list), node.field) : nullptr;
        const QString number = QString::number(node.row() + 1);
        const QString label = !node.label.empty() ? QString::fromStdString(node.label)
                              : !name.empty()     ? QString::fromStdString(name)
                              : node.kind == Node::Kind::text && list && list->kind == Node::Kind::names
                                  ? number
                                  : ownerLabel(node.owner) + " " + number;
        return {label, e ? QString::fromUtf8(e->tip) : QString()};
    }
    if (node.parent && node.parent->kind == Node::Kind::pair) {
        const Entry* e = node.parent->parent ? find(node.parent->owner, node.field) : nullptr;
        const bool size = node.field == "size";
        const bool first = node.key == "0";
        return {size ? (first ? "width" : "length") : (first ? "plate" : "meets"),
                e ? QString::fromUtf8(e->tip) : QString()};
    }
    if (const Entry* e = find(ownerOf(node), node.key)) return {e->label, QString::fromUtf8(e->tip)};
    return {spaced(node.key), "A field that this version keeps but does not use."};
}

Space spaceOf(const Node& node) {
    if (node.owner == "dimension" && node.parent)
        if (const Node* space = node.parent->child("space"))
            return space->value == "build" ? Space::build : Space::subject;
    if (const auto space = partSpace(node)) return *space;
    bool inForm = false, inOpening = false;
    for (const Node* n = &node; n; n = n->parent) {
        inForm = inForm || n->owner == "form";
        inOpening = inOpening || n->owner == "opening";
    }
    if (inForm) return node.key == "wall" || node.key == "gap" ? Space::build : Space::subject;
    if (inOpening && node.owner == "opening") {
        const bool place =
            node.key == "u" || node.key == "v" || node.key == "x" || node.key == "y" || node.key == "z";
        return place ? Space::subject : Space::build;
    }
    return Space::build;
}

QString choiceWord(const Node& node, const std::string& word) {
    if (word.empty()) return node.key == "direction" ? "in one plate" : "none";
    if (node.key == "kind" && ownerOf(node) == "donor") return QString::fromStdString(donorLabel(word));
    return spaced(word);
}

QString ownerLabel(const std::string& owner) {
    if (owner == "edge") return "joint";
    if (owner == "cut") return "cut panel";
    return QString::fromStdString(owner);
}

} // namespace slab::ui
