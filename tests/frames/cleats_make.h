#pragma once
// Short ways to make cleats in tests.
#include "core/frames/cleats.h"
#include "tests/body/make.h"
#include <cmath>
#include <numbers>

namespace slab {

inline constexpr double degree = std::numbers::pi / 180;

inline PlateRules evenRules(const Body& body, double thickness) {
    PlateRules rules;
    for (std::size_t i = 0; i < body.skin.faces.size(); ++i)
        rules.faces.push_back({"ply", thickness, static_cast<int>(i)});
    rules.freePlates.resize(body.plates.size());
    return rules;
}

inline CleatChoice cleatRule(const std::string& name, const std::string& a = "*",
                             const std::string& b = "*") {
    CleatChoice c;
    c.name = name;
    c.a = a;
    c.b = b;
    return c;
}

/// 1000 x 600 x 500 with plates of 10: inside edges of 980, 580 and 480.
inline Body crateBody() {
    return bodyOf(projectOf({boxForm("box", {0, -300, 0}, {1000, 300, 500})}));
}

/// All lengths of the cut list together, mm.
inline double lengthOf(const CleatSet& set) {
    double sum = 0;
    for (const CleatLine& line : set.lines) sum += line.count * line.length;
    return sum;
}

} // namespace slab
