// Boards stay clear of what moves over its whole range.
#include "core/evaluate/swept_room.h"
#include "core/frames/section.h"
#include "core/mechanisms/shown.h"
#include "tests/evaluate/samples.h"
#include "tests/evaluate/text_of.h"
#include "tests/geometry/seed.h"
#include <Eigen/Geometry>
#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <numbers>

using namespace slab;
using namespace slab::test;
using nlohmann::json;

namespace {

Move turning(const Vec3& about, const Vec3& axis, double from, double to) {
    Move m;
    m.at = about;
    m.axis = axis;
    m.from = from;
    m.to = to;
    return m;
}

/// A boom or a box that turns, and turns with a table in every second round.
MechanismSet movingBoom(std::mt19937_64& random, int round) {
    MechanismSet set;
    Motion motion{"boom", {}};
    const double from = uniform(random, -1, 0.2);
    motion.moves.push_back(
        turning({uniform(random, -300, 300), 0, 0}, Vec3::UnitY(), from, from + uniform(random, 0, 1.2)));
    if (round % 2 == 0) {
        motion.moves.push_back(turning({50, 20, 0}, Vec3::UnitZ(), 0, 0));
        motion.moves.back().endless = round % 4 == 0;
        motion.moves.back().to = 1;
    }
    set.motions.push_back(motion);
    MovingSolid solid{"boom", "boom/tube", makeCylinder({-200, 0, 10}, {500, 0, 40}, 30), 0};
    if (round % 3 == 0) solid.shape = makeBoxSolid({-100, -40, -20}, {300, 40, 60});
    solid.wanted = 12;
    set.solids.push_back(solid);
    return set;
}

} // namespace

TEST(SweptRoom, holdsEveryPose) {
    auto random = seeded(58);
    for (int round = 0; round < 12; ++round) {
        const MechanismSet set = movingBoom(random, round);
        const Motion& motion = set.motions[0];
        const auto room = sweptRoom(set);
        ASSERT_GE(room.size(), 1U);
        EXPECT_LE(room.size(), 400U);
        for (int pose = 0; pose < 8; ++pose) {
            std::vector<double> values;
            for (const Move& m : motion.moves)
                values.push_back(m.endless ? uniform(random, 0, 2 * std::numbers::pi)
                                           : uniform(random, m.from, m.to));
            for (const Vec3& p :
                 placedBy(poseAt(motion, values),
                          {ConvexSolid::Kind::hull, toPolyhedron(set.solids[0].shape, 24).vertices, 0})
                     .points) {
                double least = 1e9;
                for (const FitSolid& cell : room) {
                    ASSERT_EQ(cell.clearance, 12);
                    least = std::min(least, nearest({ConvexSolid::Kind::hull, {p}, 0}, cell.shape).distance -
                                                cell.bulge);
                }
                EXPECT_LE(least, 0.5)
                    << "round " << round; // facets are drawn round what is round, of 24 here
            }
        }
    }
    EXPECT_TRUE(sweptRoom({}).empty());
}

TEST(SweptRoom, whatIsLeftOutReachesNoBoard) {
    auto random = seeded(59);
    std::size_t left = 0, all = 0;
    for (int round = 0; round < 40; ++round) {
        const MechanismSet set = movingBoom(random, round);
        FrameChoice rib;
        rib.place.axes = (Eigen::AngleAxisd(uniform(random, 0, 6), Vec3::UnitZ()) *
                          Eigen::AngleAxisd(uniform(random, 0, 3), Vec3::UnitX()))
                             .toRotationMatrix();
        rib.place.origin =
            Vec3(uniform(random, -600, 600), uniform(random, -600, 600), uniform(random, -300, 300));
        rib.thickness = uniform(random, 3, 20);
        if (round % 3 == 1) rib.clearance = uniform(random, 0, 60);
        const Box3 box{Vec3(-500, -uniform(random, 10, 500), -200), Vec3(uniform(random, 0, 500), 300, 150)};
        const auto shell = makeSkin(makeBox(box.min, box.max));
        ASSERT_TRUE(shell);
        const auto near = sweptRoom(set, {rib}, *shell);
        for (const FitSolid& cell : sweptRoom(set)) {
            ++all;
            if (std::find(near.begin(), near.end(), cell) != near.end()) continue;
            ++left;
            const double room = rib.clearance.value_or(cell.clearance) + cell.bulge;
            for (const Polygon& p : sectionOf(makeBox(box.min, box.max), rib.place)) {
                ConvexSolid board; // the whole of the box there, as thick as the board
                for (const Vec2& q : p.outer)
                    for (const double side : {-0.5, 0.5})
                        board.points.push_back(rib.place.toBody(Vec3(q.x(), q.y(), side * rib.thickness)));
                EXPECT_GT(nearest(cell.shape, board).distance, room) << "round " << round;
            }
        }
    }
    EXPECT_GT(left, all / 3);
    EXPECT_LT(left, all);
}

TEST(SweptRoom, framesStayClearOfABoomFromStopToStop) {
    json d =
        json::parse(textOf(std::filesystem::path(SLABSIDE_SOURCE_DIR) / "tests/evaluate/findings/base.json"));
    d["donor"]["solids"] = json::array();
    d["frames"] = {{{"name", "rib"}, {"axis", "x"}, {"station", "350 mm"}},
                   {{"name", "keel"}, {"axis", "y"}, {"station", "0"}}};
    d["mechanisms"]["trunnions"] = {{{"name", "boom"},
                                     {"at", {{"x", "0"}, {"z", "600 mm"}}},
                                     {"diameter", "60 mm"},
                                     {"wall", "3 mm"},
                                     {"front", "700 mm"},
                                     {"rear", "200 mm"},
                                     {"lowest", "-10 deg"},
                                     {"highest", "30 deg"},
                                     {"angle", "0"},
                                     {"stock", "ply"}}};
    const auto project = readProject(d.dump());
    ASSERT_TRUE(project) << project.error().message;
    const Evaluation e = evaluated(*project, Effort::full);
    ASSERT_TRUE(e.frames && e.mechanisms);
    ASSERT_FALSE(e.frames->parts.empty());
    int poses = 0;
    for (const MovingSolid& s : e.mechanisms->solids) {
        if (s.motion < 0 || !s.swept || s.meets != MovingSolid::Meets::all) continue;
        const Motion& motion = e.mechanisms->motions[static_cast<std::size_t>(s.motion)];
        ASSERT_EQ(motion.moves.size(), 1U);
        for (int k = 0; k <= 16; ++k) {
            const Move& m = motion.moves[0];
            const ConvexSolid there = placedBy(poseAt(motion, {m.from + (m.to - m.from) * k / 16}), s.shape);
            ++poses;
            for (const Plate& board : e.frames->parts)
                for (const ConvexSolid& cell : board.cells) {
                    const Nearest near = nearest(cell, there);
                    EXPECT_FALSE(near.meets) << s.name << " " << board.name << " at " << k;
                    EXPECT_GE(near.distance, s.wanted - 1e-3) << s.name << " " << board.name << " at " << k;
                }
        }
    }
    EXPECT_GT(poses, 0);
}

TEST(SweptRoom, cleatsStayClearOfABoomFromStopToStop) {
    json d =
        json::parse(textOf(std::filesystem::path(SLABSIDE_SOURCE_DIR) / "tests/evaluate/findings/base.json"));
    d["donor"]["solids"] = json::array();
    d["cleats"] = {{{"name", "corners"}, {"width", "45 mm"}, {"depth", "45 mm"}}};
    // At rest it stands level in the open; let down it comes to the joint in front of it.
    d["mechanisms"]["trunnions"] = {{{"name", "boom"},
                                     {"at", {{"x", "0"}, {"z", "600 mm"}}},
                                     {"diameter", "90 mm"},
                                     {"front", "700 mm"},
                                     {"rear", "200 mm"},
                                     {"lowest", "-50 deg"},
                                     {"highest", "30 deg"},
                                     {"mass", "1"},
                                     {"angle", "0"}}};
    const auto project = readProject(d.dump());
    ASSERT_TRUE(project) << project.error().message;
    const Evaluation e = evaluated(*project, Effort::full);
    ASSERT_TRUE(e.cleats && e.mechanisms);
    ASSERT_FALSE(e.cleats->parts.empty());
    double least = 1e9;
    for (const MovingSolid& s : e.mechanisms->solids) {
        const Motion& motion = e.mechanisms->motions.at(static_cast<std::size_t>(s.motion));
        for (int k = 0; k <= 24; ++k) {
            const Move& m = motion.moves[0];
            const ConvexSolid there = placedBy(poseAt(motion, {m.from + (m.to - m.from) * k / 24}), s.shape);
            for (const Plate& piece : e.cleats->parts)
                for (const ConvexSolid& cell : piece.cells)
                    least = std::min(
                        least, nearest(cell, there).meets ? -1 : nearest(cell, there).distance - s.wanted);
        }
    }
    EXPECT_GE(least, -1e-3);
    EXPECT_LT(least, 60) << "and no further than that asks for";
    std::string told;
    for (const Finding& f : e.findings)
        if (f.code == "cleat-in-the-way") told += f.message + "\n";
    EXPECT_NE(told.find("boom/tube"), std::string::npos);
    EXPECT_EQ(told.find("boom/tube, boom/tube"), std::string::npos) << told;
}
