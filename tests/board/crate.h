#pragma once
// A crate of plates with a sheet, for what is put into plates by hand.
#include "tests/board/make.h"
#include <algorithm>

namespace slab::test {

/// A box `length` long, a metre wide and high; its front leans by `lean`.
inline Project crate(const std::string& length = "2 m", const std::string& lean = "0", double scale = 1) {
    Project p;
    p.title = "crate";
    p.units = "mm";
    p.scale = std::to_string(scale);
    p.dimensions = {{"long", length, Space::subject, "", {}}, {"wide", "1 m", Space::subject, "", {}}};
    const auto corner = [](std::string name, Text x, Text y) {
        OutlinePoint o;
        o.name = std::move(name);
        o.x = std::move(x);
        o.y = std::move(y);
        return o;
    };
    TaperShape box;
    box.base = {corner("starboard", "0", "-wide / 2"), corner("front", "long", "-wide / 2"),
                corner("port", "long", "wide / 2"), corner("back", "0", "wide / 2")};
    box.top = box.base;
    box.top[1].x = box.top[2].x = "long - " + (lean == "0" ? Text("build(0 mm)") : lean);
    box.base_z = "200 mm";
    box.top_z = "1.2 m";
    p.forms = {named("crate", box)};
    SheetStock sheet;
    sheet.name = "foam";
    sheet.width = "1220 mm";
    sheet.length = "2440 mm";
    sheet.thickness = "25 mm";
    p.stock.sheets = {sheet};
    p.materials.fallback = "foam";
    p.rider.table = "none"; // nothing stands in the way of frames
    return p;
}

inline const Plate& plateOf(const Evaluation& e, const std::string& name) {
    for (const Plate& plate : e.plates->plates)
        if (plate.name == name) return plate;
    ADD_FAILURE() << "no plate " << name;
    return e.plates->plates.front();
}

/// Middle of the box of an opening's hole, flat coordinates of the plate.
inline Vec2 holeAt(const Plate& plate, const std::string& opening) {
    for (const PanelLoop& hole : plate.holes)
        if (hole.opening == opening) {
            const Box2 box = bounds(hole.outer);
            return (box.min + box.max) / 2;
        }
    ADD_FAILURE() << "no hole " << opening << " in " << plate.name;
    return Vec2::Zero();
}

} // namespace slab::test
