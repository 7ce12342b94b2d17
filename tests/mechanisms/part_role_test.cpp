// What a part of a mechanism does is told by its role, whatever it is called.
#include "core/mechanisms/sweep_changes.h"
#include "tests/mechanisms/boat.h"
#include <algorithm>
#include <map>

namespace slab {

namespace {

using Part = PartRole::Kind;

std::map<std::string, PartRole> rolesIn(const MechanismSet& set) {
    std::map<std::string, PartRole> out;
    EXPECT_EQ(set.roles.size(), set.parts.size());
    for (std::size_t i = 0; i < set.parts.size(); ++i) out[set.parts[i].name] = set.roles[i];
    for (const MovingSolid& solid : set.solids) out[solid.name] = solid.role;
    return out;
}

bool offers(const mechanisms::SweepField& field, mechanisms::Change::Kind kind) {
    const auto all = mechanisms::changesOf(field, "lamp");
    return std::any_of(all.begin(), all.end(), [&](const auto& change) { return change.kind == kind; });
}

} // namespace

TEST(PartRoles, EveryPartOfEveryMechanismHasOne) {
    Boat boat;
    Turntable lamp;
    lamp.name = "lamp";
    lamp.at.z = "600 mm";
    lamp.diameter = "400 mm";
    lamp.depth = "200 mm";
    lamp.sides = "8";
    lamp.lip = "20 mm";
    boat.project.mechanisms.turntables = {lamp};
    Trunnion boom;
    boom.name = "boom";
    boom.at.x = "-700 mm";
    boom.at.z = "800 mm";
    boom.diameter = "40 mm";
    boom.wall = "2 mm";
    boom.front = "300 mm";
    boom.lowest = "0 deg";
    boom.highest = "30 deg";
    boom.stock = "ply_12";
    boat.project.mechanisms.trunnions = {boom};
    Belt belt;
    belt.name = "belt";
    belt.at.y = "-700 mm"; // its first half is the starboard one
    belt.wheels = {{"front", "700 mm", "700 mm", "1300 mm", {}},
                   {"rear", "-700 mm", "700 mm", "1300 mm", {}}};
    belt.width = "100 mm";
    boat.project.mechanisms.belts = {belt};
    boat.project.mechanisms.linkages.resize(1);
    boat.project.mechanisms.linkages[0].name = "pin";
    boat.project.mechanisms.linkages[0].joint = "pin_slot";
    boat.project.mechanisms.linkages[0].up = "20 mm";
    boat.project.mechanisms.linkages[0].stock = "ply_12";
    boat.make();
    const auto roles = rolesIn(boat.set);
    const auto kindOf = [&](const std::string& name) {
        const auto at = roles.find(name);
        return at == roles.end() ? Part::other : at->second.kind;
    };
    EXPECT_EQ(kindOf("lamp/seat ring"), Part::ring);
    EXPECT_EQ(kindOf("lamp/cap ring"), Part::ring);
    EXPECT_EQ(kindOf("lamp/side 1"), Part::drum);
    EXPECT_EQ(kindOf("lamp/floor"), Part::drumEnd);
    EXPECT_EQ(kindOf("lamp/lip disc"), Part::lip);
    EXPECT_EQ(kindOf("lamp/lip"), Part::lip);
    EXPECT_EQ(kindOf("lamp/drum"), Part::drum);
    EXPECT_EQ(kindOf("boom/tube"), Part::tube);
    EXPECT_EQ(kindOf("boom/cheek port"), Part::cheek);
    EXPECT_EQ(kindOf("pin/bracket"), Part::bracket);
    EXPECT_EQ(kindOf("belt/port wheel front"), Part::wheel);
    EXPECT_EQ(kindOf("belt/starboard strip 1"), Part::strip);
    for (const auto& [name, role] : roles) {
        EXPECT_NE(role.kind, Part::other) << name;
        EXPECT_EQ(role.starboard, name.starts_with("belt/starboard")) << name;
    }
}

// A side of a form may be called as a part of a drum is: it is none for that.
TEST(PartRoles, APlateThatIsCalledLikeAPartIsNone) {
    mechanisms::SweepField field;
    Motion turn{"lamp", {{}}};
    turn.moves[0].axis = Vec3::UnitZ();
    turn.moves[0].endless = true;
    field.motions = {turn};
    mechanisms::Thing skirt;
    skirt.kind = mechanisms::Thing::Kind::plate;
    skirt.mechanism = "lamp"; // that it turns with
    skirt.name = "lamp/floor";
    skirt.form = "lamp";
    skirt.motion = 0;
    skirt.pieces = {makeBoxSolid({-100, -100, -200}, {100, 100, -190})};
    field.things = {skirt};
    EXPECT_FALSE(offers(field, mechanisms::Change::Kind::depth)) << "no drum hangs there";
    field.things[0].role = {Part::drumEnd};
    EXPECT_TRUE(offers(field, mechanisms::Change::Kind::depth));
}

} // namespace slab
