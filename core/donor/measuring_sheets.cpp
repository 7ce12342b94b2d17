#include "core/donor/sheet_maker.h"

namespace slab {

namespace {

void poweredChairWheels(SheetMaker& m) {
    m.wheel("drive_wheel", "drive wheel", "drive_wheel_diameter", {});
    m.pair("drive_wheels", "drive wheels", m.of("width"), m.of("drive_wheel_width"), {});
    m.figure("caster_reach", "caster: pivot to the far edge of its wheel",
             m.of("caster_trail") + m.of("caster_diameter") * 0.5);
    m.figure("caster_trail", "caster: pivot to its axle, level", m.of("caster_trail"));
    m.figure("caster_diameter", "caster wheel: diameter", m.of("caster_diameter"));
}

/// Seat, armrests, footplate, base and joystick of every powered chair.
void poweredChairTop(SheetMaker& m, const Spot& axle) {
    m.seatAlong(axle, m.footplate());
    m.seatUp(m.armrest());
    m.armrestsAcross();
    const Spot foot = m.footplate();
    m.line(2, SheetMaker::floor(foot), foot);
    m.line(2, foot, m.seatTop(), 4);
    const Spot under = SheetMaker::at("underside", "underside of the base", m.of("base_front_x") * 0.5,
                                      m.of("ground_clearance"));
    const Spot top =
        SheetMaker::at("base_top", "top of the base", m.of("base_front_x") * 0.5, m.of("base_height"));
    m.line(2, SheetMaker::floor(under), under);
    m.line(2, under, top);
    m.line(2, SheetMaker::floor(top), top);
    const Spot front =
        SheetMaker::at("base_front", "front of the base", m.of("base_front_x"), m.of("base_height") * 0.7);
    const Spot rear =
        SheetMaker::at("base_rear", "back of the base", m.of("base_back_x"), m.of("base_height") * 0.7);
    m.line(0, axle, front);
    m.line(0, axle, rear);
    m.line(0, rear, front);
    if (!m.has("joystick_x")) return;
    const Spot stick = SheetMaker::at("joystick", "middle of the joystick", m.of("joystick_x"),
                                      m.of("seat_height") + m.of("armrest_height") + m.of("joystick_height"));
    m.line(0, axle, stick);
    m.line(0, m.backRear(), stick, 4);
    m.line(2, m.armrest(), stick);
}

std::vector<Measure> midWheelSheet(SheetMaker m) {
    const Spot axle = SheetMaker::at("axle", "drive axle", {}, m.of("drive_wheel_diameter") * 0.5);
    const Spot front =
        SheetMaker::at("front_caster", "front caster pivot", m.of("front_caster_x"), m.of("caster_height"));
    const Spot rear =
        SheetMaker::at("rear_caster", "rear caster pivot", m.of("rear_caster_x"), m.of("caster_height"));
    m.web(0, axle, {m.footplate(), m.backRear(), rear, front});
    poweredChairTop(m, axle);
    poweredChairWheels(m);
    m.casterPair("casters", "caster", "front_caster_x");
    return m.done();
}

std::vector<Measure> endDriveSheet(SheetMaker m) {
    const Spot axle = SheetMaker::at("axle", "drive axle", {}, m.of("drive_wheel_diameter") * 0.5);
    const Spot caster = SheetMaker::at("caster", "caster pivot", m.of("caster_x"), m.of("caster_height"));
    m.web(0, axle, {m.footplate(), m.backRear(), caster});
    poweredChairTop(m, axle);
    poweredChairWheels(m);
    m.casterPair("casters", "caster", "caster_x");
    return m.done();
}

std::vector<Measure> manualSheet(SheetMaker m) {
    const Spot axle = SheetMaker::at("axle", "rear axle", {}, m.of("wheel_diameter") * 0.5);
    const Spot caster = SheetMaker::at("caster", "caster pivot", m.of("caster_x"), m.of("caster_height"));
    const Spot handle = SheetMaker::at("handle", "end of the push handle",
                                       m.of("seat_back_x") - m.of("back_thickness") - m.of("handle_length"),
                                       m.of("handle_height"));
    m.web(0, axle, {m.footplate(), handle, m.backRear(), caster});
    poweredChairTop(m, axle);
    m.line(2, SheetMaker::floor(handle), handle);
    m.line(2, m.seatTop(), handle, 4);
    m.wheel("rear_wheel", "rear wheel", "wheel_diameter", {});
    m.pair("rear_wheels", "rear wheels", m.of("width"), m.of("wheel_width"), {});
    m.figure("caster_reach", "caster: pivot to the far edge of its wheel",
             m.of("caster_trail") + m.of("caster_diameter") * 0.5);
    m.figure("caster_trail", "caster: pivot to its axle, level", m.of("caster_trail"));
    m.figure("caster_diameter", "caster wheel: diameter", m.of("caster_diameter"));
    m.casterPair("casters", "caster", "caster_x");
    return m.done();
}

/// Front and rear wheels of what is steered, and how long it is over them.
void steeredWheels(SheetMaker& m, const Spot& rear, const Spot& front) {
    const SizeSum r = m.of("rear_wheel_diameter") * 0.5, f = m.of("front_wheel_diameter") * 0.5;
    m.line(0, SheetMaker::at("rear_tyre", "back of the rear wheel", r * -1, r),
           SheetMaker::at("front_tyre", "front of the front wheel", m.of("wheelbase") + f, f));
    m.line(0, rear, SheetMaker::at("front_tyre", "front of the front wheel", m.of("wheelbase") + f, f));
    m.line(0, SheetMaker::at("rear_tyre", "back of the rear wheel", r * -1, r), front);
    m.wheel("rear_wheel", "rear wheel", "rear_wheel_diameter", {});
    m.wheel("front_wheel", "front wheel", "front_wheel_diameter", m.of("wheelbase"));
    m.pair("rear_wheels", "rear wheels", m.of("width"), m.of("rear_wheel_width"), {});
    if (m.has("front_width"))
        m.pair("front_wheels", "front wheels", m.of("front_width"), m.of("front_wheel_width"),
               m.of("wheelbase"));
    if (m.has("front_track"))
        m.pair("front_wheels", "front wheels", m.of("front_track") + m.of("front_wheel_width"),
               m.of("front_wheel_width"), m.of("wheelbase"));
}

Spot rearAxle(const SheetMaker& m) {
    return SheetMaker::at("rear_axle", "rear axle", {}, m.of("rear_wheel_diameter") * 0.5);
}
Spot frontAxle(const SheetMaker& m) {
    return SheetMaker::at("front_axle", "front axle", m.of("wheelbase"), m.of("front_wheel_diameter") * 0.5);
}

std::vector<Measure> scooterSheet(SheetMaker m) {
    const Spot rear = rearAxle(m), front = frontAxle(m);
    const Spot deck =
        SheetMaker::at("deck_front", "front of the deck", m.of("deck_front_x"), m.of("deck_height"));
    const Spot box =
        SheetMaker::at("box_rear", "back of the battery box", m.of("body_back_x"), m.of("body_height") * 0.7);
    const Spot foot =
        SheetMaker::at("tiller_foot", "tiller at the deck", m.of("tiller_foot_x"), m.of("deck_height"));
    const Spot top =
        SheetMaker::at("tiller_top", "top of the tiller", m.of("tiller_top_x"), m.of("tiller_height"));
    m.web(0, rear, {front, deck, m.backRear(), box});
    m.web(0, rear, {foot, top});
    m.line(0, front, foot);
    m.line(0, top, m.backRear(), 4);
    m.seatAlong(rear, deck);
    m.seatUp(top);
    const Spot floorOfDeck =
        SheetMaker::at("deck", "top of the deck", m.of("deck_front_x") * 0.7, m.of("deck_height"));
    m.line(2, SheetMaker::floor(floorOfDeck), floorOfDeck);
    m.line(2, floorOfDeck, m.seatTop(), 4);
    steeredWheels(m, rear, front);
    return m.done();
}

std::vector<Measure> rideOnSheet(SheetMaker m) {
    const Spot rear = rearAxle(m), front = frontAxle(m);
    const Spot nose = SheetMaker::at("nose", "front of the body", m.of("body_front_x"), m.of("body_height"));
    const Spot tail = SheetMaker::at("tail", "back of the body", m.of("body_back_x"), m.of("body_height"));
    m.web(0, rear, {front, nose, m.backRear(), tail});
    m.seatAlong(rear, nose);
    m.line(0, rear, m.steeringWheel());
    m.line(0, m.steeringWheel(), nose);
    m.line(0, m.backRear(), m.steeringWheel(), 4);
    m.seatUp(m.steeringWheel());
    steeredWheels(m, rear, front);
    return m.done();
}

std::vector<Measure> wagonSheet(SheetMaker m) {
    const Spot rear = rearAxle(m), front = frontAxle(m);
    const Spot head =
        SheetMaker::at("bed_front", "front of the bed", m.of("bed_front_x"), m.of("bed_height"));
    const Spot tail = SheetMaker::at("bed_rear", "back of the bed", m.of("bed_back_x"), m.of("bed_height"));
    m.web(0, rear, {front, head, tail});
    const Spot bed = SheetMaker::at("bed", "bed floor", m.of("bed_front_x") * 0.4, m.of("bed_height"));
    const Spot edge = SheetMaker::at("rail", "top of the sides", m.of("bed_front_x") * 0.4,
                                     m.of("bed_height") + m.of("rail_height"));
    const Spot under = SheetMaker::at("bed_under", "underside of the bed", m.of("bed_front_x") * 0.4,
                                      m.of("bed_height") - m.of("bed_thickness"));
    m.web(2, SheetMaker::floor(bed), {bed, edge, under});
    steeredWheels(m, rear, front);
    return m.done();
}

std::vector<Measure> kartSheet(SheetMaker m) {
    const Spot rear = rearAxle(m), front = frontAxle(m);
    const Spot nose =
        SheetMaker::at("frame_front", "front of the frame", m.of("frame_front_x"), m.of("frame_height"));
    const Spot tail =
        SheetMaker::at("frame_rear", "back of the frame", m.of("frame_back_x"), m.of("frame_height"));
    const Spot pedals = SheetMaker::at("pedals", "pedal axle", m.of("pedal_x"), m.of("pedal_height"));
    m.web(0, rear, {front, nose, m.backRear(), tail});
    m.seatAlong(rear, nose);
    m.line(0, rear, pedals);
    m.line(0, pedals, nose);
    m.line(0, m.backRear(), pedals, 4);
    m.line(0, rear, m.steeringWheel());
    m.line(0, m.backRear(), m.steeringWheel(), 4);
    m.seatUp(m.steeringWheel());
    m.line(2, SheetMaker::floor(pedals), pedals);
    steeredWheels(m, rear, front);
    return m.done();
}

std::vector<Measure> tractorSheet(SheetMaker m) {
    const Spot rear = rearAxle(m), front = frontAxle(m);
    const Spot nose =
        SheetMaker::at("hood_front", "front of the hood", m.of("hood_front_x"), m.of("hood_height") * 0.8);
    const Spot dash =
        SheetMaker::at("hood_rear", "back of the hood", m.of("hood_back_x"), m.of("hood_height") * 0.9);
    const Spot tail =
        SheetMaker::at("fender_rear", "back of the fenders", m.of("fender_back_x"), m.of("fender_height"));
    m.web(0, rear, {front, nose, m.backRear(), tail});
    m.seatAlong(rear, dash);
    m.line(0, rear, dash);
    m.line(0, dash, nose);
    m.line(0, rear, m.steeringWheel());
    m.line(0, m.backRear(), m.steeringWheel(), 4);
    m.seatUp(m.steeringWheel());
    const Spot hood = SheetMaker::at("hood_top", "top of the hood",
                                     m.of("hood_back_x") + (m.of("hood_front_x") - m.of("hood_back_x")) * 0.5,
                                     m.of("hood_height"));
    m.line(2, SheetMaker::floor(hood), hood);
    steeredWheels(m, rear, front);
    return m.done();
}

} // namespace

std::vector<Measure> measuringSheet(const std::string& kind) {
    const SheetMaker m(kind);
    if (kind == "powered_chair") return midWheelSheet(m);
    if (kind == "rear_wheel_chair" || kind == "front_wheel_chair") return endDriveSheet(m);
    if (kind == "self_propelled_chair" || kind == "pushed_chair") return manualSheet(m);
    if (kind == "scooter" || kind == "scooter_4") return scooterSheet(m);
    if (kind == "ride_on") return rideOnSheet(m);
    if (kind == "wagon") return wagonSheet(m);
    if (kind == "pedal_kart") return kartSheet(m);
    if (kind == "garden_tractor") return tractorSheet(m);
    return kind == "own" ? SheetMaker(m).done() : std::vector<Measure>{};
}

} // namespace slab
