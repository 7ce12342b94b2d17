#pragma once
// What must hold at a scale, each as a curve over the scale.
#include <optional>
#include <string>
#include <vector>

namespace slab {

/// How well a margin is known.
enum class Known {
    exactly,
    atLeast, ///< the true one is not less: nothing nearer was found, and farther off was not looked
    atMost   ///< the true one is not more: something meets, and how deep was not worked out
};

/// What is to spare at one scale.
struct Margin {
    double scale = 0;
    double margin = 0;     ///< in the constraint's unit; below 0 it does not hold
    double clearance = 0;  ///< of what keeps a distance: that distance less no wish, below 0 they meet, mm
    std::string binding{}; ///< what binds: "hull/port", "panel hull/deck"; may be empty
    Known known = Known::exactly;
    bool operator==(const Margin&) const = default;
};

/// One condition on the scale, as it was found.
struct Constraint {
    enum class Unit { length, mass, angle, speed }; ///< mm, kg, radians, mm/s
    std::string key;     ///< stable: "fit:donor/seat", "moves:people", "moves:shell", "floats", "sheet",
                         ///< "route:gate", "load", "tip", "turn", "wind", "passage:shed", "exit:hatch",
                         ///< "sight:ground", "sight:field"
    std::string words{}; ///< what it is about: "seat", "largest panel on its sheet"
    Unit unit = Unit::length;
    bool must = true;    ///< false: worth having, and no condition
    bool touches = true; ///< told by a distance between two things, so that below 0 clearance they meet
    std::vector<Margin> points{}; ///< rising in scale, one wherever it was worked out
    bool jumps = false;           ///< what is seen past a post changes at once: the nearest point counts

    /// Between the points by straight lines, of what jumps the nearest point's; nothing outside of them.
    [[nodiscard]] std::optional<double> margin(double scale) const;
    /// The point nearest to a scale; null without points.
    [[nodiscard]] const Margin* nearest(double scale) const;
    bool operator==(const Constraint&) const = default;
};

/// "the joystick hand meets hull/port", "the joystick hand comes too near to hull/port",
/// "hull/deck is larger than its sheet".
[[nodiscard]] std::string failWords(const Constraint& constraint, const Margin& at);

} // namespace slab
