// Wheels of a belt: their room, and which of them are to be bought.
#include "core/mechanisms/belt_figures.h"
#include "core/mechanisms/rounds.h"
#include <array>

namespace slab::mechanisms {

bool isStarboard(const BeltFigures& f, bool first) {
    return f.mirror && first != (f.view.origin.y() > 0);
}

std::string handOf(const BeltFigures& f, bool first) {
    return !f.mirror ? "" : isStarboard(f, first) ? "starboard " : "port ";
}

void checkWheels(const Belt& belt, Reading& read, const BeltFigures& f, const BeltLinks& fit) {
    constexpr double touch = 0.1; // mm
    for (std::size_t i = 0; i < belt.wheels.size(); ++i)
        for (std::size_t k = 0; k < i; ++k) {
            const double apart = (fit.circles[i].centre - fit.circles[k].centre).norm(),
                         least = (f.diameters[i] + f.diameters[k]) / 2;
            if (apart >= least - touch) continue;
            read.report(Severity::look, "belt-wheels-overlap",
                        "its wheels " + belt.wheels[k].name + " and " + belt.wheels[i].name + " are " +
                            read.words(apart) + " apart, middle to middle, and take " + read.words(least),
                        "wheels/" + std::to_string(i),
                        "Move one of them " + read.words(least - apart) +
                            " or more away, or make them smaller.");
        }
}

std::map<double, int> addWheels(const Belt& belt, const BeltFigures& f, const BeltLinks& fit,
                                const std::vector<RoundPart>& rounds, MechanismSet& set) {
    std::map<double, int> wheels;
    for (const bool port : {true, false}) {
        if (!port && !f.mirror) break;
        for (std::size_t i = 0; i < belt.wheels.size(); ++i) {
            const Vec2& at = fit.circles[i].centre;
            std::array<Vec3, 2> ends{f.view.toBody(Vec3(at.x(), at.y(), -f.width / 2)),
                                     f.view.toBody(Vec3(at.x(), at.y(), f.width / 2))};
            if (!port)
                for (Vec3& end : ends) end.y() *= -1;
            const ConvexSolid wheel = makeCylinder(ends[0], ends[1], f.diameters[i] / 2);
            // A round form of the document that stands where links have moved the wheel away from, or does
            // not move: it is told and bought with the forms.
            if (const RoundPart* form = formAt(rounds, wheel, fit.moved.norm())) {
                set.ownForms.emplace_back(f.name, form->name);
                continue;
            }
            ++wheels[f.diameters[i]];
            const std::string name = handOf(f, port) + "wheel " + belt.wheels[i].name;
            set.bought.push_back(boughtCylinder(f.name, name, wheel));
            set.solids.push_back({f.name,
                                  f.name + "/" + name,
                                  wheel,
                                  -1,
                                  true,
                                  0,
                                  true,
                                  MovingSolid::Meets::all,
                                  {PartRole::Kind::wheel, isStarboard(f, port)}});
        }
    }
    return wheels;
}

} // namespace slab::mechanisms
