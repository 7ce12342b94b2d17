#include "core/donor/parts.h"

namespace slab {

std::vector<DonorSize> joined(std::initializer_list<std::vector<DonorSize>> lists) {
    std::vector<DonorSize> all;
    for (const auto& list : lists) all.insert(all.end(), list.begin(), list.end());
    return all;
}

std::vector<DonorSize> seatSizes(const SeatSizes& s, const char* source) {
    return {{"seat_height", "seat height", s.height, source},
            {"seat_width", "seat width", s.width, source},
            {"seat_depth", "seat depth", s.depth, source},
            {"seat_thickness", "seat thickness", s.thickness, source},
            {"seat_back_x", "front of the seat back", s.backX, source},
            {"back_height", "seat back above the seat", s.backHeight, source},
            {"back_width", "seat back width", s.backWidth, source},
            {"back_thickness", "seat back thickness", s.backThickness, source}};
}

std::vector<DonorSize> footplateSizes(const FootplateSizes& s, const char* source) {
    return {{"footplate_front_x", "front of the footplate", s.frontX, source},
            {"footplate_length", "footplate length", s.length, source},
            {"footplate_width", "footplate width", s.width, source},
            {"footplate_height", "footplate top above the ground", s.height, source},
            {"footplate_thickness", "footplate thickness", s.thickness, source}};
}

std::vector<DonorSize> armrestSizes(const ArmrestSizes& s, const char* source) {
    return {{"armrest_height", "armrest top above the seat", s.height, source},
            {"armrest_length", "armrest length", s.length, source},
            {"armrest_width", "armrest width", s.width, source},
            {"armrest_spacing", "between the armrests", s.spacing, source}};
}

std::vector<DonorSize> casterSizes(const CasterSizes& s, const char* source) {
    return {{"caster_x", "caster pivots ahead of the axle", s.x, source},
            {"caster_spacing", "between caster pivots, across", s.spacing, source},
            {"caster_diameter", "caster wheel diameter", s.diameter, source},
            {"caster_trail", "caster trail", s.trail, source},
            {"caster_height", "caster fork height above the ground", s.height, source}};
}

std::vector<DonorSize> baseSizes(const BaseSizes& s, const char* source) {
    return {{"base_front_x", "front of base or frame", s.frontX, source},
            {"base_back_x", "back of base or frame", s.backX, source},
            {"base_height", "top of base or frame", s.height, source},
            {"ground_clearance", "under base or frame", s.under, source}};
}

std::vector<DonorSize> joystickSizes(double x, const char* source) {
    return {{"joystick_x", "joystick ahead of the axle", x, source},
            {"joystick_length", "joystick box length", 120, source},
            {"joystick_width", "joystick box width", 70, source},
            {"joystick_height", "joystick box and stick above the armrest", 110, source},
            {"hand_room", "room for the hand round the joystick", 160,
             "fist 105 mm and stick travel, from memory"}};
}

std::vector<DonorSize> handleSizes(double height, double length, double spacing, const char* source) {
    return {{"handle_height", "push handles above the ground", height, source},
            {"handle_length", "push handles behind the seat back", length, source},
            {"handle_spacing", "between the push handles", spacing, source}};
}

std::vector<DonorSize> fourWheelSizes(const FourWheelSizes& s, const char* source) {
    return {{"width", "width over the rear wheels", s.width, source},
            {"front_width", "width over the front wheels", s.frontWidth, source},
            {"wheelbase", "front axle ahead of the rear axle", s.wheelbase, source},
            {"rear_wheel_diameter", "rear wheel diameter", s.rearDiameter, source},
            {"rear_wheel_width", "rear wheel width", s.rearWidth, source},
            {"front_wheel_diameter", "front wheel diameter", s.frontDiameter, source},
            {"front_wheel_width", "front wheel width", s.frontWheelWidth, source}};
}

std::vector<DonorSize> steeringSizes(const SteeringSizes& s, const char* source) {
    return {{"column_foot_x", "foot of the steering column", s.footX, source},
            {"column_foot_height", "that foot above the ground", s.footHeight, source},
            {"wheel_centre_x", "middle of the steering wheel", s.topX, source},
            {"wheel_centre_height", "that middle above the ground", s.topHeight, source},
            {"steering_wheel_diameter", "steering wheel diameter", s.diameter, source},
            {"steering_lock", "wheels turn to either side by", s.lock, source, Kind::angle}};
}

} // namespace slab
