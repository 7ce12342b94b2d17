#include "tests/ui_views/hand_body.h"
#include "ui/fit/pick.h"
#include "ui/fit/scene_sync.h"
#include "ui/fit/soft_render.h"
#include "ui/theme/theme.h"
#include <Qt3DCore/QEntity>
#include <algorithm>
#include <gtest/gtest.h>
#include <set>

namespace slab::ui {
namespace {

SceneItem itemOf(const Scene& scene, const std::string& id) {
    const auto it =
        std::find_if(scene.items.begin(), scene.items.end(), [&](const auto& i) { return i.id == id; });
    return it == scene.items.end() ? SceneItem{} : *it;
}

double volumeOf(const SceneMesh& mesh) {
    double six = 0;
    const auto& t = mesh.triangles;
    for (std::size_t i = 0; i + 2 < t.size(); i += 3) six += t[i].dot(t[i + 1].cross(t[i + 2]));
    return six / 6;
}

class SceneTest : public testing::Test {
protected:
    Project project = test::handProject();
    Evaluation evaluation = test::handEvaluation(project);
    SceneBuilder builder;
};

TEST_F(SceneTest, ShowsEveryPlateAndSolidWithItsVolume) {
    const Scene scene = builder.build(evaluation, {});
    ASSERT_EQ(evaluation.plates->plates.size(), 6U);
    for (const auto& plate : evaluation.plates->plates)
        EXPECT_NEAR(volumeOf(*itemOf(scene, plate.name).mesh), plate.volume, 1e-6 * plate.volume);
    EXPECT_EQ(scene.items.size(), 6 + evaluation.donor->solids.size());
    SceneOptions bare;
    bare.donor = bare.rider = false;
    EXPECT_EQ(builder.build(evaluation, bare).items.size(), 6U);
}

TEST_F(SceneTest, AFormThatIsChosenLightsAllOfItsPlatesAndNoOther) {
    const std::string form = evaluation.plates->plates.front().form;
    SceneOptions options;
    options.chosenForm = form;
    for (const auto& item : builder.build(evaluation, options).items)
        EXPECT_EQ(item.chosen, item.kind == ItemKind::plate) << item.id;
    options.chosenPlate = evaluation.plates->plates.front().name; // a plate goes before its form
    int chosen = 0;
    for (const auto& item : builder.build(evaluation, options).items) chosen += item.chosen ? 1 : 0;
    EXPECT_EQ(chosen, 1);
}

TEST_F(SceneTest, MeshesAreMadeAgainOnlyWhenTheirSolidChanges) {
    static_cast<void>(builder.build(evaluation, {}));
    const int first = builder.meshesMade();
    static_cast<void>(builder.build(evaluation, {}));
    EXPECT_EQ(builder.meshesMade(), first);
    project.donor.at.x = "5 mm"; // moves four solids, no plate
    static_cast<void>(builder.build(test::handEvaluation(project), {}));
    EXPECT_EQ(builder.meshesMade(), first + 4);
}

TEST_F(SceneTest, SectionCutsTheShellAndLeavesTheDonorWhole) {
    const Scene whole = builder.build(evaluation, {});
    for (int axis = 0; axis < 3; ++axis) {
        SceneOptions below, above;
        const double at = whole.shell.min[axis] + 0.37 * whole.shell.size()[axis];
        below.section = SectionCut{axis, at, true};
        above.section = SectionCut{axis, at, false};
        const Scene kept = builder.build(evaluation, below), rest = builder.build(evaluation, above);
        for (const auto& plate : evaluation.plates->plates) {
            const double sum =
                volumeOf(*itemOf(kept, plate.name).mesh) + volumeOf(*itemOf(rest, plate.name).mesh);
            EXPECT_NEAR(sum, plate.volume, 1e-9 * plate.volume) << plate.name << " axis " << axis;
        }
        for (const auto& solid : evaluation.donor->solids)
            EXPECT_EQ(itemOf(kept, solid.name).hash, itemOf(whole, solid.name).hash);
    }
}

TEST_F(SceneTest, ApartMovesPlatesAlongTheirNormals) {
    SceneOptions options;
    options.apart = 100;
    const Scene scene = builder.build(evaluation, options);
    for (const auto& plate : evaluation.plates->plates) {
        const SceneItem item = itemOf(scene, plate.name);
        EXPECT_NEAR(item.shift.norm(), 100, 1e-9);
        EXPECT_NEAR(item.shift.dot(plate.frame.axes.col(2)), 100, 1e-9);
    }
}

TEST_F(SceneTest, TightPairsAreLinkedByTheirNearestPoints) {
    const Scene scene = builder.build(evaluation, {});
    ASSERT_FALSE(scene.links.empty());
    for (const auto& link : scene.links) {
        const auto pair =
            std::find_if(evaluation.fit->pairs.begin(), evaluation.fit->pairs.end(),
                         [&](const FitPair& p) { return p.solid == link.solid && p.plate == link.plate; });
        ASSERT_NE(pair, evaluation.fit->pairs.end());
        EXPECT_NE(pair->state, FitState::fits);
        EXPECT_NEAR((link.from - link.to).norm(), pair->clearance, 1e-9);
    }
}

TEST_F(SceneTest, SyncRebuildsOnlyChangedMeshes) {
    Qt3DCore::QEntity root;
    SceneSync sync(&root);
    const SceneStyle style;
    const int n = static_cast<int>(builder.build(evaluation, {}).items.size());
    const SceneChanges first = sync.show(builder.build(evaluation, {}), style, {});
    EXPECT_EQ(first, (SceneChanges{n, 0, n, 0, 0}));
    EXPECT_EQ(sync.show(builder.build(evaluation, {}), style, {}), SceneChanges{});

    SceneOptions chosen;
    chosen.chosenPlate = "hull/port";
    EXPECT_EQ(sync.show(builder.build(evaluation, chosen), style, {}), (SceneChanges{0, 0, 0, 1, 0}));
    chosen.apart = 50;
    EXPECT_EQ(sync.show(builder.build(evaluation, chosen), style, {}), (SceneChanges{0, 0, 0, 0, 6}));

    const std::string last_plate = evaluation.plates->plates.back().name;
    const auto* before = sync.entity(last_plate);
    ASSERT_NE(before, nullptr);
    Evaluation changed = evaluation;
    auto plates = *evaluation.plates;
    for (auto& v : plates.plates.own(0).solid.vertices) v.z() += 1;
    changed.plates = std::make_shared<const PlateSet>(plates);
    EXPECT_EQ(sync.show(builder.build(changed, chosen), style, {}).remeshed, 1);
    plates.plates.erase(0);
    changed.plates = std::make_shared<const PlateSet>(plates);
    const SceneChanges last = sync.show(builder.build(changed, chosen), style, {});
    EXPECT_EQ(last.removed, 1);
    EXPECT_EQ(last.remeshed, 0);
    EXPECT_EQ(sync.entity(last_plate), before);
}

TEST_F(SceneTest, RayMeetsTheNearestPlate) {
    const Scene scene = builder.build(evaluation, {});
    const auto first = [&](const Vec3& from, const Vec3& to) {
        const auto hits = hitsAlong(scene, {from, (to - from).normalized()});
        return hits.empty() ? std::string() : scene.items[static_cast<std::size_t>(hits.front().item)].id;
    };
    EXPECT_EQ(first({0, 3000, 300}, {0, 0, 300}), "hull/port");
    EXPECT_EQ(first({0, -3000, 300}, {0, 0, 300}), "hull/starboard");
    EXPECT_EQ(first({3000, 0, 300}, {0, 0, 300}), "hull/front");
    EXPECT_EQ(first({400, 0, -3000}, {400, 0, 300}), "hull/bottom") << "clear of the donor";
    EXPECT_EQ(first({3000, 0, 3000}, {3000, 0, 300}), "");
    // Front faces only: the ray from inside meets the far plate's inner face.
    const auto hits = hitsAlong(scene, {{0, 3000, 300}, -Vec3::UnitY()});
    ASSERT_FALSE(hits.empty());
    EXPECT_NEAR(hits.front().distance, 3000 - 320, 1e-9);
}

TEST_F(SceneTest, EveryDirectionPicksWhatIsPainted) {
    SceneStyle style;
    style.seeThrough = 0;
    for (const auto direction : {Direction::side, Direction::plan, Direction::end, Direction::threeQuarter}) {
        ViewCamera camera;
        camera.width = 240, camera.height = 180;
        camera.look(direction);
        camera.frame(builder.build(evaluation, {}).bounds);
        // Painting one plate blue must change the picture just where the ray picks that plate.
        const Scene plain = builder.build(evaluation, {});
        const QImage without = renderScene(plain, camera, style);
        for (const auto& plate : evaluation.plates->plates) {
            const auto at = visiblePixel(plain, camera, plate.name);
            if (!at) continue;
            SceneOptions options;
            options.chosenPlate = plate.name;
            const QImage with = renderScene(builder.build(evaluation, options), camera, style);
            const int x = static_cast<int>(at->x()), y = static_cast<int>(at->y());
            EXPECT_NE(with.pixel(x, y), without.pixel(x, y)) << plate.name;
        }
    }
}

TEST_F(SceneTest, EdgeOfAPlateIsFoundOnScreen) {
    ViewCamera camera;
    camera.look(Direction::threeQuarter);
    camera.frame(evaluation.body->bounds);
    for (const auto& plate : evaluation.plates->plates) {
        const Ring& ring = plate.boundary.outer;
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const Vec2 middle = (ring[i] + ring[(i + 1) % ring.size()]) / 2;
            const Vec3 s = camera.toScreen(plate.frame.toBody(middle));
            const int edge = edgeNear(plate, Vec3::Zero(), camera, s.x(), s.y(), 3);
            ASSERT_GE(edge, 0);
            // Seen nearly edge on, two edges may lie on the same pixels.
            const auto k = static_cast<std::size_t>(edge);
            const Vec3 a = camera.toScreen(plate.frame.toBody(ring[k]));
            const Vec3 b = camera.toScreen(plate.frame.toBody(ring[(k + 1) % ring.size()]));
            const Vec2 along = (b - a).head<2>().normalized();
            EXPECT_LT(std::abs(cross2(along, Vec2((s - a).head<2>()))), 3);
        }
    }
}

TEST_F(SceneTest, PicturesForTheEye) {
    ViewCamera camera;
    camera.width = 900, camera.height = 640;
    camera.look(Direction::threeQuarter);
    camera.frame(builder.build(evaluation, {}).bounds);
    SceneOptions options;
    options.chosenPlate = "hull/starboard";
    const QImage picture = renderScene(builder.build(evaluation, options), camera, {});
    test::shot(picture, "soft_three_quarter");
    options.section = SectionCut{1, 0, false};
    test::shot(renderScene(builder.build(evaluation, options), camera, {}), "soft_section");
    options.section.reset();
    options.apart = 260;
    test::shot(renderScene(builder.build(evaluation, options), camera, {0, 1}), "soft_apart");
    std::set<QRgb> colours;
    for (int y = 0; y < picture.height(); y += 3) {
        for (int x = 0; x < picture.width(); x += 3) colours.insert(picture.pixel(x, y));
    }
    EXPECT_GT(colours.size(), 20U);
}

} // namespace
} // namespace slab::ui
