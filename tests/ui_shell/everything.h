#pragma once
#include "core/document/file.h"
#include <gtest/gtest.h>

namespace slab::ui::test {

/// A document that says everything a document can say: one of each object, every field written.
inline const char* everythingJson = R"({
  "slabside": 1, "title": "Everything", "units": "mm", "scale": "1/2",
  "dimensions": [{"name": "span", "value": "2 m", "space": "subject", "note": "n"}],
  "forms": [
    {"name": "hull", "kind": "profile", "at": {"x": "1 mm", "y": "2 mm", "z": "3 mm", "roll": "1 deg",
      "pitch": "2 deg", "yaw": "3 deg"}, "standing": true, "mirror": true, "off": true, "note": "n",
      "outline": [{"name": "a", "side": "s", "x": "0", "y": "0", "z": "0", "half_width": "1 m"},
                  {"name": "b", "x": "1 m", "z": "0", "half_width": "1 m"},
                  {"name": "c", "x": "1 m", "z": "1 m", "half_width": "1 m"}],
      "curves": [{"from": "a", "to": "b", "bulge": "10 mm", "facets": "3", "tolerance": "1 mm"}]},
    {"name": "house", "kind": "taper",
      "base": [{"name": "p", "x": "0", "y": "0"}, {"name": "q", "x": "1 m", "y": "0"},
               {"name": "r", "x": "1 m", "y": "1 m"}],
      "top": [{"name": "p", "x": "0", "y": "0"}, {"name": "q", "x": "1 m", "y": "0"},
              {"name": "r", "x": "1 m", "y": "1 m"}],
      "base_z": "0", "top_z": "1 m",
      "curves": [{"from": "p", "to": "q", "bulge": "10 mm", "facets": "3"}]},
    {"name": "fin", "kind": "plate",
      "outline": [{"name": "a", "x": "0", "y": "0"}, {"name": "b", "x": "1 m", "y": "0"},
                  {"name": "c", "x": "1 m", "y": "1 m"}],
      "curves": [{"from": "a", "to": "b", "bulge": "10 mm", "facets": "3"}]},
    {"name": "pipe", "kind": "round", "diameter": "100 mm", "top_diameter": "90 mm", "length": "1 m",
      "wall": "3 mm", "part": "tub", "cuts": false, "gap": "2 mm"},
    {"name": "rock", "kind": "facet",
      "corners": [{"name": "a", "x": "0", "y": "0", "z": "0"}, {"name": "b", "x": "1 m", "y": "0", "z": "0"},
                  {"name": "c", "x": "0", "y": "1 m", "z": "0"}, {"name": "d", "x": "0", "y": "0", "z": "1 m"}],
      "faces": [{"name": "f", "corners": ["a", "c", "b"]}, {"name": "g", "corners": ["a", "b", "d"]},
                {"name": "h", "corners": ["b", "c", "d"]}, {"name": "i", "corners": ["c", "a", "d"]}]}],
  "materials": {"default": "foam", "plates": {"hull/*": "board", "house/p": null}},
  "joints": {"default": "mitre", "order": ["hull/*", "house/*"],
    "edges": [{"between": ["hull/a", "hull/b"], "joint": "fold"}]},
  "openings": [{"name": "exit", "shape": "polygon", "plate": "hull/a", "direction": "y", "plates": ["hull/*"],
    "u": "1 mm", "v": "2 mm", "x": "1 mm", "y": "2 mm", "z": "3 mm", "width": "4 mm", "height": "5 mm",
    "diameter": "6 mm", "corner_radius": "1 mm", "turn": "5 deg", "parallel_walls": true,
    "outline": [{"name": "o", "x": "0", "y": "0"}, {"name": "o2", "x": "1 mm", "y": "0"},
                {"name": "o3", "x": "1 mm", "y": "1 mm"}]}],
  "donor": {"kind": "powered_chair", "at": {"x": "1 mm"}, "place": "best", "changes": {"seat_height": "500 mm"},
    "solids": [{"name": "box", "shape": "box", "x": "0", "y": "0", "z": "1 m", "size_x": "1 mm", "size_y": "2 mm",
      "size_z": "3 mm", "diameter": "4 mm", "length": "5 mm", "axis": "x", "clearance": "6 mm", "moving": true}],
    "leave_out": ["donor/joystick"]},
  "rider": {"table": "child", "sex": "male", "percentile": "60", "age": "9", "shift_x": "1 mm",
    "shift_z": "2 mm", "clearance": "30 mm"},
  "clearance": {"default": "25 mm", "solids": {"donor/seat": "40 mm"}},
  "stock": {"sheets": [{"name": "foam", "kind": "foam", "size": ["1 m", "2 m"], "thickness": "12 mm",
      "measured": true, "price": "3", "on_hand": "1", "trim": "4 mm", "density": "30", "turns": "half",
      "flip": true},
      {"name": "board", "kind": "hardboard", "size": ["1 m", "2 m"], "thickness": "3 mm"}],
    "kerf": "1 mm", "margin": "3 mm", "currency": "£"},
  "paper": "A3", "cut": [{"panel": "hull/a", "fingerprint": "abc"}],
  "pieces": [{"name": "hull/a#2", "neighbours": ["hull/b"], "x": 1.5, "y": 2.5, "z": 3.5}], "seed": "7"
})";

inline Project everything() {
    auto project = readProject(everythingJson);
    EXPECT_TRUE(project.has_value()) << (project ? ""
                                                 : project.error().message + " at " + project.error().where);
    return project.value_or(Project{});
}

} // namespace slab::ui::test
