#pragma once
// The crate with a boom that rises on a table that turns.
#include "tests/board/crate.h"

namespace slab::test {

/// A drum 400 across on the crate's lid, and a tube of 800 and 200 on that, its pivot at `pivot`.
inline Project crane(const char* pivot) {
    Project p = crate();
    Turntable table;
    table.name = "table";
    table.at.x = "1 m";
    table.at.z = "1.2 m";
    table.diameter = "400 mm";
    table.depth = "150 mm";
    table.wall = "3 mm";
    table.lip = "15 mm";
    table.lip_thickness = "4 mm";
    table.overlap = "10 mm";
    table.ring_width = "60 mm";
    p.mechanisms.turntables = {table};
    Trunnion boom;
    boom.name = "boom";
    boom.at.x = "1 m";
    boom.at.z = pivot;
    boom.diameter = "80 mm";
    boom.front = "800 mm";
    boom.rear = "200 mm";
    boom.on = "table";
    p.mechanisms.trunnions = {boom};
    return p;
}

} // namespace slab::test
