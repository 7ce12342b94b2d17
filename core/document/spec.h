#pragma once
// What a field of the document may hold.
#include <array>
#include <concepts>
#include <span>
#include <string_view>
#include <type_traits>

namespace slab::detail {

/// What a text stands for.
enum class Role {
    name,   ///< names the thing that it stands in; must be written
    label,  ///< free words
    word,   ///< one of Spec::words
    length, ///< formulas …
    angle,
    number,
    any,
    ratio, ///< the scale
    plate, ///< name or pattern of plates: "hull/port", "*/deck"
    panel, ///< name of a panel
    stock, ///< name of a sheet
    point, ///< name of an outline point or corner
    solid, ///< name of a donor or rider solid
    print  ///< fingerprint, not typed by hand
};

enum class Need {
    optional, ///< left out of the file while it has its default
    always,   ///< always written, may be missing when read
    required  ///< must be there
};

using Words = std::span<const std::string_view>;

/// Which fields of an outline point have a meaning in this list. The others are read and kept all the same,
/// so that a form may change its kind and back.
enum class Points { any, profile, plan, corner, hole };

struct Spec {
    Role role = Role::label;
    Need need = Need::optional;
    Words words = {};
    Points points = Points::any;
    bool open = false; ///< names something that may be unknown here: read as it is, told in the punch list
    [[nodiscard]] constexpr Spec required() const { return {role, Need::required, words, points, open}; }
    [[nodiscard]] constexpr Spec always() const { return {role, Need::always, words, points, open}; }
};

inline constexpr Spec kName{Role::name, Need::required}, kLabel{Role::label}, kLength{Role::length},
    kAngle{Role::angle}, kNumber{Role::number}, kAny{Role::any}, kPlate{Role::plate}, kPanel{Role::panel},
    kStockName{Role::stock}, kPoint{Role::point}, kSolid{Role::solid}, kPlain{};

using W = std::string_view;
inline constexpr std::array<W, 5> kUnitWords{"mm", "cm", "m", "in", "ft"};
inline constexpr std::array<W, 2> kSpaceWords{"subject", "build"};
inline constexpr std::array<W, 5> kShapeWords{"profile", "taper", "plate", "round",
                                              "facet"}; ///< order of Shape
inline constexpr std::array<W, 4> kJointWords{"cover", "mitre", "fold", "open"};
inline constexpr std::array<W, 4> kOpeningWords{"rectangle", "circle", "slot", "polygon"};
inline constexpr std::array<W, 7> kDirectionWords{"", "x", "y", "z", "-x", "-y", "-z"};
inline constexpr std::array<W, 3> kSolidWords{"box", "cylinder", "capsule"};
inline constexpr std::array<W, 3> kAxisWords{"x", "y", "z"};
inline constexpr std::array<W, 13> kDonorWords{
    "none",    "powered_chair", "rear_wheel_chair",     "front_wheel_chair",
    "scooter", "scooter_4",     "self_propelled_chair", "pushed_chair",
    "ride_on", "wagon",         "pedal_kart",           "garden_tractor",
    "own"};
inline constexpr std::array<W, 4> kDriveWords{"", "pivot", "steered", "pushed"};
inline constexpr std::array<W, 4> kWheelWords{"fixed", "drive", "steered", "caster"};
inline constexpr std::array<W, 14> kRouteWords{"door",   "gate",   "path",      "corner",    "turning_circle",
                                               "t_turn", "ramp",   "kerb_ramp", "threshold", "step",
                                               "hump",   "ground", "hatch",     "bed"};
inline constexpr std::array<W, 2> kPlaceWords{"fixed", "best"};
inline constexpr std::array<W, 3> kTableWords{"adult", "child", "none"};
inline constexpr std::array<W, 3> kSexWords{"both", "female", "male"};
inline constexpr std::array<W, 5> kSheetWords{"foam", "hardboard", "plywood", "card", "plastic"};
inline constexpr std::array<W, 3> kCurveWords{"arc", "ellipse", "spline"};
inline constexpr std::array<W, 6> kPurposeWords{"", "exit", "sight_slit", "hand_hole", "wheel_arch", "light"};
inline constexpr std::array<W, 2> kCleatWords{"cleat", "block"};
inline constexpr std::array<W, 3> kViewWords{"side", "front", "plan"};
inline constexpr std::array<W, 4> kAlongWords{"", "x", "y", "z"};
inline constexpr std::array<W, 2> kLinkageWords{"hinge", "pin_slot"};
inline constexpr std::array<W, 2> kAdjustWords{"wheel", "pitch"};
inline constexpr std::array<W, 4> kTurnWords{"any", "quarter", "half", "none"};

/// Required list of points.
constexpr Spec pointsOf(Points points) {
    return {Role::label, Need::required, {}, points, false};
}
constexpr Spec oneOf(Words words, Need need = Need::optional) {
    return {Role::word, need, words, Points::any, false};
}
constexpr Spec knownOf(Words words, Need need = Need::optional) {
    return {Role::word, need, words, Points::any, true};
}

template <class T, class U>
concept Is = std::same_as<std::remove_const_t<T>, U>;

} // namespace slab::detail
