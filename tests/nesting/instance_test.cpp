#include "shapes.h"
#include <nlohmann/json.hpp>

namespace slab {
namespace {

const char* const strip = R"({"strip_height": 40.5, "items": [
  {"id": 3, "demand": 2, "allowed_rotations_deg": [0.0, 90.0], "points": [[0,0],[0,5],[10,5],[10,0]]},
  {"id": "flag", "allowed_rotations_deg": null, "points": [[0,0],[4,0],[0,3]]}]})";

TEST(Instance, StripWithTurns) {
    const auto problem = readInstance(strip);
    ASSERT_TRUE(problem) << problem.error().message;
    EXPECT_DOUBLE_EQ(problem->strip, 40.5);
    ASSERT_EQ(problem->parts.size(), 2U);
    EXPECT_EQ(problem->parts[0].id, "3");
    EXPECT_EQ(problem->parts[0].copies, 2);
    EXPECT_DOUBLE_EQ(area(problem->parts[0].shape), 50); // clockwise points are turned round
    ASSERT_EQ(problem->parts[0].rotations.size(), 2U);
    EXPECT_DOUBLE_EQ(problem->parts[0].rotations[1], std::numbers::pi / 2);
    EXPECT_TRUE(problem->parts[1].rotations.empty());
    EXPECT_EQ(problem->parts[1].copies, 1);
}

TEST(Instance, SheetsTakeWidthAlongX) {
    const auto problem = readInstance(
        R"({"bin_width": 300, "bin_height": 200, "items": [{"id": 0, "points": [[0,0],[1,0],[0,1]]}]})");
    ASSERT_TRUE(problem);
    ASSERT_EQ(problem->sheets.size(), 1U);
    EXPECT_DOUBLE_EQ(problem->sheets[0].length, 300);
    EXPECT_DOUBLE_EQ(problem->sheets[0].width, 200);
}

struct Refusal {
    const char *name, *text, *code, *where;
};
void PrintTo(const Refusal& r, std::ostream* out) {
    *out << r.name;
}
class Refused : public testing::TestWithParam<Refusal> {};

TEST_P(Refused, WithCodePlaceAndRemedy) {
    const auto problem = readInstance(GetParam().text);
    ASSERT_FALSE(problem);
    EXPECT_EQ(problem.error().code, GetParam().code);
    EXPECT_EQ(problem.error().where, GetParam().where);
    EXPECT_FALSE(problem.error().message.empty());
    EXPECT_FALSE(problem.error().remedy.empty());
}

INSTANTIATE_TEST_SUITE_P(
    Instance, Refused,
    testing::Values(
        Refusal{"empty", "", "not-json", ""},
        Refusal{"cut off", R"({"strip_height": 4, "items": [)", "not-json", ""},
        Refusal{"a list", "[]", "wrong-type", ""},
        Refusal{"no size", R"({"items": []})", "missing", "/strip_height"},
        Refusal{"half a size", R"({"bin_width": 4, "items": []})", "missing", "/bin_height"},
        Refusal{"no items", R"({"strip_height": 4})", "missing", "/items"},
        Refusal{"items a number", R"({"strip_height": 4, "items": 3})", "wrong-type", "/items"},
        Refusal{"zero height", R"({"strip_height": 0, "items": []})", "wrong-type", "/strip_height"},
        Refusal{"height a text", R"({"strip_height": "4", "items": []})", "wrong-type", "/strip_height"},
        Refusal{"huge number", R"({"strip_height": 1e999, "items": []})", "not-json", ""},
        Refusal{"no points", R"({"strip_height": 4, "items": [{"id": 0}]})", "missing", "/items/0/points"},
        Refusal{"no id", R"({"strip_height": 4, "items": [{"points": [[0,0],[1,0],[0,1]]}]})", "missing",
                "/items/0/id"},
        Refusal{"two points", R"({"strip_height": 4, "items": [{"id": 0, "points": [[0,0],[1,0]]}]})",
                "wrong-type", "/items/0/points"},
        Refusal{"bad point", R"({"strip_height": 4, "items": [{"id": 0, "points": [[0,0],[1],[0,1]]}]})",
                "wrong-type", "/items/0/points/1"},
        Refusal{"no area", R"({"strip_height": 4, "items": [{"id": 0, "points": [[0,0],[1,1],[2,2]]}]})",
                "wrong-type", "/items/0/points"},
        Refusal{"half a copy",
                R"({"strip_height": 4, "items": [{"id": 0, "demand": 1.5, "points": [[0,0],[1,0],[0,1]]}]})",
                "wrong-type", "/items/0/demand"},
        Refusal{"no turns", R"({"strip_height": 4, "items": [{"id": 0, "allowed_rotations_deg": [],
                "points": [[0,0],[1,0],[0,1]]}]})",
                "wrong-type", "/items/0/allowed_rotations_deg"}));

TEST(Instance, ResultJsonHasTheDocumentedFieldsAndPlacesThePoints) {
    const auto problem = readInstance(strip);
    ASSERT_TRUE(problem);
    const NestResult result = nest(*problem, {});
    const auto json = nlohmann::json::parse(nestJson(*problem, result, 0.25));
    EXPECT_NEAR(json.at("density_percent").get<double>(), 100 * 106 / (result.stripLength * 40.5), 1e-9);
    EXPECT_DOUBLE_EQ(json.at("seconds").get<double>(), 0.25);
    ASSERT_EQ(json.at("placements").size(), 3U);
    EXPECT_TRUE(json.at("unplaced").empty());
    for (const auto& place : json["placements"]) {
        EXPECT_EQ(place.at("sheet"), 0);
        const bool number = place.at("item").is_number_integer();
        EXPECT_TRUE(number ? place["item"] == 3 : place["item"] == "flag");
        const double degrees = place.at("rotation_deg").get<double>();
        EXPECT_TRUE(!number || degrees == 0 || degrees == 90) << degrees;
        EXPECT_TRUE(place.at("x").is_number() && place.at("y").is_number() &&
                    place.at("copy").is_number_integer());
    }
}

TEST(Instance, ResultJsonCountsSheetsAndListsWhatIsLeft) {
    const auto problem = readInstance(R"({"bin_width": 10, "bin_height": 10, "items": [
        {"id": 7, "demand": 2, "points": [[0,0],[8,0],[8,8],[0,8]]},
        {"id": 8, "points": [[0,0],[90,0],[0,90]]}]})");
    ASSERT_TRUE(problem);
    const auto json = nlohmann::json::parse(nestJson(*problem, nest(*problem, {}), 1));
    EXPECT_EQ(json.at("sheet_count"), 2);
    EXPECT_FALSE(json.contains("density_percent"));
    ASSERT_EQ(json.at("unplaced").size(), 1U);
    EXPECT_EQ(json["unplaced"][0].at("item"), 8);
    EXPECT_EQ(json["unplaced"][0].at("copy"), 0);
}

} // namespace
} // namespace slab
