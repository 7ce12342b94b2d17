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
      "curves": [{"from": "a", "to": "b", "kind": "spline", "bulge": "10 mm", "x": "1 mm", "y": "2 mm",
        "z": "3 mm", "sweep": "90 deg", "through": [{"name": "t", "x": "0.5 m", "z": "-1 mm", "half_width": "1 m"}],
        "facets": "3", "tolerance": "1 mm"}]},
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
                {"name": "h", "corners": ["b", "c", "d"]}, {"name": "i", "corners": ["c", "a", "d"]}],
      "flatten": true, "symmetric": true, "pinned": ["a"], "weights": {"b": "2"}}],
  "materials": {"default": "foam", "plates": {"hull/*": "board", "house/p": null}},
  "joints": {"default": "mitre", "order": ["hull/*", "house/*"],
    "edges": [{"between": ["hull/a", "hull/b"], "joint": "fold"}]},
  "openings": [{"name": "exit", "shape": "polygon", "plate": "hull/a", "direction": "y", "plates": ["hull/*"],
    "u": "1 mm", "v": "2 mm", "x": "1 mm", "y": "2 mm", "z": "3 mm", "width": "4 mm", "height": "5 mm",
    "diameter": "6 mm", "corner_radius": "1 mm", "turn": "5 deg", "parallel_walls": true,
    "purpose": "exit", "lid": true, "lid_gap": "2 mm", "lap": "30 mm", "lap_stock": "foam",
    "outline": [{"name": "o", "x": "0", "y": "0"}, {"name": "o2", "x": "1 mm", "y": "0"},
                {"name": "o3", "x": "1 mm", "y": "1 mm"}]}],
  "frames": [{"name": "bulkhead", "axis": "y", "station": "1 m", "yaw": "1 deg", "pitch": "2 deg", "stock": "foam",
    "gap": "1 mm", "web": "50 mm", "clearance": "10 mm", "fit": "0.4 mm", "off": true}],
  "cleats": [{"name": "floor cleats", "between": ["hull/a", "*"], "kind": "block", "width": "20 mm",
    "depth": "20 mm", "end_gap": "5 mm", "length": "60 mm", "spacing": "250 mm"}],
  "seams": [{"plate": "hull/a", "at": "0", "turn": "5 deg", "strip": "80 mm", "strip_stock": "board"}],
  "modules": [{"name": "house", "plates": ["house/*"]}],
  "passages": [{"name": "shed door", "width": "800 mm", "height": "2 m"}],
  "mechanisms": {
    "turntables": [{"name": "drum", "at": {"x": "1 m"}, "diameter": "400 mm", "depth": "150 mm", "wall": "3 mm",
      "lip": "15 mm", "lip_thickness": "4 mm", "sides": "8", "drum_stock": "foam", "ring_stock": "board",
      "gap": "2 mm", "overlap": "10 mm", "ring_width": "60 mm", "carries": ["house/*"], "from": "-90 deg",
      "to": "90 deg", "angle": "10 deg", "off": true, "note": "n"}],
    "trunnions": [{"name": "boom", "at": {"x": "1 m"}, "diameter": "60 mm", "wall": "2 mm", "front": "800 mm",
      "rear": "200 mm", "lowest": "-5 deg", "highest": "30 deg", "angle": "5 deg", "gap": "4 mm", "stock": "foam",
      "mass": "1", "front_mass": "0.5", "rear_mass": "0.2", "on": "drum", "off": true, "note": "n"}],
    "linkages": [{"name": "hinge", "joint": "pin_slot", "at": {"x": "1 m"}, "up": "20 mm", "down": "10 mm",
      "pitch_up": "3 deg", "pitch_down": "4 deg", "pin": "10 mm", "stock": "foam", "off": true, "note": "n"}],
    "belts": [{"name": "belt", "at": {"y": "1 m"}, "wheels": [
        {"name": "front", "x": "1 m", "z": "200 mm", "diameter": "300 mm"},
        {"name": "rear", "x": "0", "z": "200 mm", "diameter": "300 mm"}], "width": "200 mm", "thickness": "4 mm",
      "pitch": "100 mm", "adjust": "pitch", "moves": "rear", "stock": "foam", "overlap": "50 mm",
      "mirror": false, "off": true, "note": "n"}]},
  "pictures": [{"name": "side view", "file": "side.png", "hash": "00", "view": "front", "space": "build",
    "crop_x": "1", "crop_y": "2", "crop_width": "300", "crop_height": "200",
    "crop_corners": [{"name": "e", "x": "1", "y": "2"}, {"name": "g", "x": "301", "y": "2"}, {"name": "h", "x": "1", "y": "202"}],
    "corners": [{"name": "a", "x": "0", "y": "0"}, {"name": "b", "x": "100", "y": "0"},
                {"name": "c", "x": "100", "y": "50"}, {"name": "d", "x": "0", "y": "50"}],
    "rectangle_width": "2 m", "rectangle_height": "1 m", "from": {"name": "f", "x": "0", "y": "0"},
    "to": {"name": "t", "x": "100", "y": "0"}, "distance": "2 m", "click_error": "2", "distance_error": "3", "x": "1 m", "y": "0",
    "turn": "1 deg", "opacity": "0.5", "hidden": true, "features": [{"name": "stem", "x": "7", "y": "6"}],
    "lines": [{"name": "seat", "x1": "0", "y1": "0", "x2": "10", "y2": "0", "size": "seat_height"}]}],
  "dimension_lines": [{"name": "length", "view": "plan", "from": "hull/a", "to": "hull/b", "along": "x",
    "drives": "span", "offset": "100 mm"}],
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
