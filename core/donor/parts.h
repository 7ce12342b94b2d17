#pragma once
// Pieces that several generic donors share, built from named sizes in donor axes.
#include "core/donor/generic.h"
#include <initializer_list>

namespace slab {

// --- sizes, generic values in mm
// -------------------------------------------------------------------------------

[[nodiscard]] std::vector<DonorSize> joined(std::initializer_list<std::vector<DonorSize>> lists);
struct SeatSizes {
    double height, width, depth, thickness, backX, backHeight, backWidth, backThickness;
};
[[nodiscard]] std::vector<DonorSize> seatSizes(const SeatSizes& s, const char* source);
struct FootplateSizes {
    double frontX, length, width, height, thickness;
};
[[nodiscard]] std::vector<DonorSize> footplateSizes(const FootplateSizes& s, const char* source);
struct ArmrestSizes {
    double height, length, width, spacing;
};
[[nodiscard]] std::vector<DonorSize> armrestSizes(const ArmrestSizes& s, const char* source);
/// A pair of casters on one line across.
struct CasterSizes {
    double x, spacing, diameter, trail, height;
};
[[nodiscard]] std::vector<DonorSize> casterSizes(const CasterSizes& s, const char* source);
struct BaseSizes {
    double frontX, backX, height, under;
};
[[nodiscard]] std::vector<DonorSize> baseSizes(const BaseSizes& s, const char* source);
[[nodiscard]] std::vector<DonorSize> joystickSizes(double x, const char* source);
[[nodiscard]] std::vector<DonorSize> handleSizes(double height, double length, double spacing,
                                                 const char* source);
/// A fixed rear axle and steered wheels ahead of it.
struct FourWheelSizes {
    double width, frontWidth, wheelbase, rearDiameter, rearWidth, frontDiameter, frontWheelWidth;
};
[[nodiscard]] std::vector<DonorSize> fourWheelSizes(const FourWheelSizes& s, const char* source);
/// A steering wheel on its column, and how far the wheels turn.
struct SteeringSizes {
    double footX, footHeight, topX, topHeight, diameter, lock;
};
[[nodiscard]] std::vector<DonorSize> steeringSizes(const SteeringSizes& s, const char* source);

// --- solids
// ----------------------------------------------------------------------------------------------------

/// @param side  1 = left, -1 = right; the wheel reaches from `inside` to `outside` of the middle
[[nodiscard]] FitSolid wheelSolid(std::string name, double x, double side, double inside, double outside,
                                  double radius);
[[nodiscard]] FitSolid casterCircle(std::string name, const Vec3& pivot, double swept, double top);
/// What a steered wheel sweeps when it turns about its middle.
[[nodiscard]] FitSolid steeredCircle(std::string name, const Vec3& at, double diameter, double width);
/// Seat and seat back.
void addSeat(const SizeOf& size, std::vector<FitSolid>& solids);
void addFootplate(const SizeOf& size, std::vector<FitSolid>& solids);
void addArmrests(const SizeOf& size, std::vector<FitSolid>& solids);
/// Joystick box on the right armrest, the hand round it, and the seat's hands.
void addJoystick(const SizeOf& size, GenericDonor& donor);
/// Handlebar and hands between full left and full right, by `angle` to each side.
[[nodiscard]] ConvexSolid handlebarSweep(const Vec3& top, const Vec3& axis, double halfSpan, double room,
                                         double angle);
/// Column, wheel and the hands on it, and the seat's hands.
void addSteeringWheel(const SizeOf& size, GenericDonor& donor);
/// Two handles behind the seat back.
void addPushHandles(const SizeOf& size, std::vector<FitSolid>& solids);

// --- chassis
// ---------------------------------------------------------------------------------------------------

/// "left <name>" and "right <name>", `y` to either side.
void addWheelPair(Chassis& chassis, const std::string& name, const Wheel& like, double x, double y);
/// Solids and wheels of fourWheelSizes(), steered by "steering_lock".
/// @param rear  what the rear wheels do
void addFourWheels(const SizeOf& size, WheelRole rear, GenericDonor& donor);
/// Half of what is free between the rear wheels, 10 mm to either (from memory).
[[nodiscard]] double betweenRearWheels(const SizeOf& size);
/// Seat reference from seat_back_x and seat_height.
[[nodiscard]] Seat seatOf(const SizeOf& size);
void addService(Chassis& chassis, std::string name, const Vec3& at, const Vec3& from, double hand = 100);
/// Switch at the joystick, charge port below it, and a freewheel lever at each motor.
void addChairService(const SizeOf& size, Chassis& chassis);

inline constexpr double casterWidth = 45;                  ///< mm, from memory
inline constexpr double quarterTurn = 0.78539816339744831; ///< 45°

} // namespace slab
