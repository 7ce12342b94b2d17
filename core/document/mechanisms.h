#pragma once
// What moves: turntables, trunnions, floating linkages, endless belts. Lengths are build sizes unless said
// otherwise.
#include "core/document/basics.h"

namespace slab {

/// A drum captured between rings so that it turns. It stands on its place, axis up: z = 0 is the upper face
/// of the plate or deck that the seat ring lies on.
struct Turntable {
    std::string name;
    Placement at;               ///< subject
    Text diameter, depth, wall; ///< of the drum, outside; depth from its lip to its far end, above 0 hanging
                                ///< down from the lip, below 0 standing up from it (a rising drum)
    Text lip, lip_thickness;    ///< how far the lip stands out from the drum, and its thickness
    Text sides;                 ///< empty = a found tub or pipe; a count = a drum of so many plates
    std::string drum_stock, ring_stock;
    Text gap;                         ///< running clearance, all round and above the lip
    Text overlap;                     ///< of the cap ring over the lip
    Text ring_width;                  ///< of the seat ring, hole to outside
    std::vector<std::string> carries; ///< plates or patterns that stand on it and turn with it
    Text from, to;                    ///< stops; both empty = all the way round
    Text angle;                       ///< as shown
    bool off = false;
    std::string note;
    Extra extra;
    bool operator==(const Turntable&) const = default;
};

/// A tube or boom that elevates about a level pivot. Its place is the pivot; at 0° it points forward.
struct Trunnion {
    std::string name;
    Placement at;                     ///< subject
    Text diameter, wall, front, rear; ///< of the tube; lengths ahead of and behind the pivot, subject
    Text lowest, highest, angle;      ///< elevation; as shown
    Text gap;                         ///< round the tube in its slot
    std::string stock;                ///< of the two cheeks that hold the pivot; empty = none
    Text mass, front_mass, rear_mass; ///< kg: of the tube (empty = by its wall), and what hangs at its ends
    std::string on;                   ///< turntable that it turns with; empty = none
    bool off = false;
    std::string note;
    Extra extra;
    bool operator==(const Trunnion&) const = default;
};

/// Joins the shell to the donor and lets it float. A hinge line runs along y through its place.
struct Linkage {
    std::string name;
    std::string joint = "hinge"; ///< "hinge": the shell pitches; "pin_slot": the pin rides up and down
    Placement at;                ///< build
    Text up, down;               ///< travel of the pin
    Text pitch_up, pitch_down;   ///< angles, nose up and nose down
    Text pin;                    ///< diameter
    std::string stock;           ///< of the slotted plate; empty = none
    bool off = false;
    std::string note;
    Extra extra;
    bool operator==(const Linkage&) const = default;
};

struct BeltWheel {
    std::string name;
    Text x, z, diameter; ///< side view, subject
    Extra extra;
    bool operator==(const BeltWheel&) const = default;
};
/// A strip round a set of wheels.
struct Belt {
    std::string name;
    Placement at;                  ///< of the wheels' axes; y is the middle of the strip, subject
    std::vector<BeltWheel> wheels; ///< in order round the belt
    Text width;                    ///< subject
    Text thickness;                ///< of the strip; empty = its stock's
    Text pitch; ///< of one link along the middle of the strip, subject; empty = a plain strip
    std::string adjust =
        "wheel";        ///< for a whole number of links "wheel": a wheel is moved; "pitch": the pitch changes
    std::string moves;  ///< that wheel
    std::string stock;  ///< card that the strips are cut from; empty = the sheet for all
    Text overlap;       ///< of the strips' ends
    bool mirror = true; ///< one on the other side too
    bool off = false;
    std::string note;
    Extra extra;
    bool operator==(const Belt&) const = default;
};

struct Mechanisms {
    std::vector<Turntable> turntables;
    std::vector<Trunnion> trunnions;
    std::vector<Linkage> linkages;
    std::vector<Belt> belts;
    Extra extra;
    bool operator==(const Mechanisms&) const = default;
};

} // namespace slab
