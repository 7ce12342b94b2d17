#pragma once
// Small documents for the drawing board's tests.
#include "core/board/board.h"
#include "core/board/moves.h"
#include "core/lines/lines.h"
#include "tests/body/make.h"
#include "tests/evaluate/samples.h"

namespace slab::test {

inline Scope scopeIn(const Project& p) {
    const auto scale = parseRatio(p.scale);
    return scopeOf(p, scale ? *scale : 1);
}
/// The scene of forms and lines alone.
inline BoardScene sceneOf(const Project& p) {
    Evaluation e;
    const auto scale = parseRatio(p.scale);
    e.scale = scale ? *scale : 1;
    const auto unit = parseUnit(p.units);
    e.units.unit = unit ? *unit : Unit::mm;
    e.scope = std::make_shared<const Scope>(scopeIn(p));
    return boardScene(p, e);
}
inline BoardPoint pointIn(const BoardScene& scene, BoardView view, const PointRef& ref) {
    const BoardPoint* p = find(scene, view, ref);
    EXPECT_NE(p, nullptr) << ref.pointer;
    static const BoardPoint none;
    return p ? *p : none;
}
inline Project applied(const Project& p, const Expected<Edit>& edit) {
    if (!edit) {
        ADD_FAILURE() << edit.error().code << ": " << edit.error().message;
        return p;
    }
    return edited(p, *edit);
}

/// A hull of five points and a house, with names, at a scale.
inline Project boat(const std::string& scale = "1") {
    Project p;
    p.units = "mm";
    p.scale = scale;
    p.dimensions = {{"hull_length", "4 m", Space::subject, "", {}},
                    {"beam", "1.8 m", Space::subject, "", {}},
                    {"wall", "12 mm", Space::build, "", {}}};
    ProfileShape hull;
    const auto side = [](std::string name, Text x, Text z, Text half) {
        OutlinePoint o;
        o.name = std::move(name);
        o.x = std::move(x);
        o.z = std::move(z);
        o.half_width = std::move(half);
        return o;
    };
    hull.outline = {side("keel", "0", "300 mm", "beam / 2"),
                    side("forefoot", "hull_length - 0.88 m", "300 mm", "beam / 2"),
                    side("stem head", "hull_length", "1.5 m", "beam / 2"),
                    side("deck", "2 m", "1.5 m", "beam / 2"), side("transom", "0", "1.5 m", "beam / 2")};
    TaperShape house;
    const auto plan = [](std::string name, Text x, Text y) {
        OutlinePoint o;
        o.name = std::move(name);
        o.x = std::move(x);
        o.y = std::move(y);
        return o;
    };
    house.base = {plan("starboard", "0", "-0.6 m"), plan("front", "1.2 m", "-0.6 m"),
                  plan("port", "1.2 m", "0.6 m"), plan("aft", "0", "0.6 m")};
    house.top = house.base;
    house.base_z = "1.4 m";
    house.top_z = "2.5 m";
    p.forms = {named("hull", hull), named("house", house)};
    p.forms[1].at.x = "0.5 m";
    return p;
}

} // namespace slab::test
