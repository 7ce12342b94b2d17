// Gestures keep formulas and bring points exactly where they are wanted.
#include "core/board/moves.h"
#include "tests/board/make.h"

using namespace slab;
using namespace slab::test;

namespace {

Text shifted(const Text& text, double by, const Scope& scope, Space space = Space::subject, double step = 0) {
    const auto result = shiftedLength(text, by, scope, space, step);
    EXPECT_TRUE(result) << text << ": " << result.error().message;
    return result ? *result : Text{};
}

double valueOf(const Text& text, const Scope& scope) {
    const auto value = evaluate(text, scope, Space::subject, Kind::length);
    EXPECT_TRUE(value) << text << ": " << (value ? "" : value.error().message);
    return value ? value->value : 0;
}

/// A formula as builders write them, by chance.
Text randomFormula(std::mt19937_64& random, int deep = 0) {
    const auto literal = [&] {
        static const std::array<std::string, 6> forms{"0.88 m",     "120 mm",        "3 in",
                                                      "4' 2-1/2\"", "build(1/8 in)", "7.5 cm"};
        return forms[static_cast<std::size_t>(below(random, 6))];
    };
    const auto name = [&] { return std::string(below(random, 2) ? "beam" : "hull_length"); };
    switch (below(random, deep > 2 ? 3 : 8)) {
    case 0:
        return literal();
    case 1:
        return name();
    case 2:
        return name() + " / 2";
    case 3:
        return randomFormula(random, deep + 1) + " + " + literal();
    case 4:
        return randomFormula(random, deep + 1) + " - " + literal();
    case 5:
        return "min(" + randomFormula(random, deep + 1) + ", " + randomFormula(random, deep + 1) + ")";
    case 6:
        return "-(" + randomFormula(random, deep + 1) + ")";
    default:
        return "(" + randomFormula(random, deep + 1) + ") * 0.75";
    }
}

} // namespace

TEST(ShiftedLength, keepsFormulas) {
    const Scope scope = scopeIn(boat());
    EXPECT_EQ(shifted("beam / 2", 120, scope), "beam / 2 + 120 mm");
    EXPECT_EQ(shifted("hull_length - 0.88 m", 30, scope), "hull_length - 0.85 m");
    EXPECT_EQ(shifted("hull_length - 0.88 m", 880, scope), "hull_length");
    EXPECT_EQ(shifted("hull_length - 0.88 m", 1000, scope), "hull_length + 0.12 m");
    EXPECT_EQ(shifted("beam / 2 + 120 mm", -120, scope), "beam / 2");
    EXPECT_EQ(shifted("1.5 m", 10, scope), "1510 mm") << "a literal takes the document's unit";
    EXPECT_EQ(shifted("", -5, scope), "-5 mm");
    EXPECT_EQ(shifted("0", 25, scope), "25 mm");
    EXPECT_EQ(shifted("hull_length", 0, scope), "hull_length");
    EXPECT_EQ(shifted("max(beam, 1 m) - 2e-1 m", 50, scope), "max(beam, 1 m) - 0.15 m");
    EXPECT_EQ(shifted("(beam - 1 m)", 50, scope), "(beam - 1 m) + 50 mm");
    EXPECT_EQ(shifted("beam - 10-1/2 in", 12.7, scope), "beam - 10\"") << "a mixed length is one literal";
}

TEST(ShiftedLength, subjectAndBuildSizes) {
    const Scope small = scopeIn(boat("0.4"));
    // 1 mm on the board is 2.5 mm of the subject.
    EXPECT_EQ(shifted("100 mm", 1, small), "102.5 mm");
    EXPECT_EQ(shifted("100 mm", 1, small, Space::build), "101 mm");
    EXPECT_EQ(shifted("beam / 2 + build(3 mm)", 1, small), "beam / 2 + build(3 mm) + 2.5 mm");
}

TEST(ShiftedLength, feetAndInches) {
    Project p = boat();
    p.units = "ft";
    const Scope scope = scopeIn(p);
    EXPECT_EQ(shifted("1 ft", 25.4 * 2.5, scope), "1' 2-1/2\"");
    EXPECT_EQ(shifted("beam / 2", -25.4 / 4, scope), "beam / 2 - 1/4\"");
    EXPECT_EQ(shifted("1 ft", 1, scope, Space::subject, 25.4), "1' 0\"") << "less than half a step";
    EXPECT_EQ(shifted("1 ft", 20, scope, Space::subject, 25.4), "1' 1\"");
}

TEST(ShiftedLength, roundedToTheStep) {
    const Scope scope = scopeIn(boat());
    EXPECT_EQ(shifted("100 mm", 3.7, scope, Space::subject, 5), "105 mm");
    EXPECT_EQ(shifted("beam / 2", 3.7, scope, Space::subject, 1), "beam / 2 + 4 mm");
    EXPECT_EQ(shifted("beam / 2", 0.3, scope, Space::subject, 1), "beam / 2");
    EXPECT_EQ(shifted("hull_length - 0.88 m", 33, scope, Space::subject, 10), "hull_length - 0.85 m");
}

TEST(ShiftedLength, isExactForRandomFormulas) {
    auto random = seeded(71);
    for (int round = 0; round < 4000 / slowdown; ++round) {
        Project p = boat(round % 2 ? "0.4" : "1");
        p.units = std::array{"mm", "cm", "m", "in", "ft"}[static_cast<std::size_t>(below(random, 5))];
        const Scope scope = scopeIn(p);
        const Text text = randomFormula(random);
        const double by =
            round % 5 == 0 ? std::round(uniform(random, -50, 50)) : uniform(random, -3000, 3000);
        const double before = valueOf(text, scope);
        const Text once = shifted(text, by, scope);
        ASSERT_NEAR(valueOf(once, scope), before + by, 1e-9) << text << " -> " << once;
        // Back again: the value is the old one, and so is the formula if it had no literal of its own at the
        // end.
        const Text back = shifted(once, -by, scope);
        ASSERT_NEAR(valueOf(back, scope), before, 1e-9) << text << " -> " << once << " -> " << back;
        ASSERT_LE(back.size(), text.size() + 30) << back;
        for (const std::string& n : namesIn(text)) {
            const auto kept = namesIn(once);
            ASSERT_NE(std::find(kept.begin(), kept.end(), n), kept.end()) << n << " lost: " << once;
        }
    }
}

TEST(ShiftedLength, refusesWhatHasNoValue) {
    const Scope scope = scopeIn(boat());
    EXPECT_FALSE(shiftedLength("beem / 2", 1, scope, Space::subject));
    EXPECT_FALSE(shiftedLength("beam +", 1, scope, Space::subject));
}

TEST(RoundStep, isTheNextRoundFigure) {
    EXPECT_DOUBLE_EQ(roundStep(0.8, Unit::mm), 1);
    EXPECT_DOUBLE_EQ(roundStep(1.2, Unit::cm), 2);
    EXPECT_DOUBLE_EQ(roundStep(30, Unit::m), 50);
    EXPECT_DOUBLE_EQ(roundStep(0.01, Unit::mm), 0.1);
    EXPECT_DOUBLE_EQ(roundStep(1, Unit::in), 25.4 / 16);
    EXPECT_DOUBLE_EQ(roundStep(30, Unit::ft), 76.2);
    EXPECT_DOUBLE_EQ(roundStep(5000, Unit::ft), 30480);
}

TEST(MovePoint, setsOnlyTheCoordinatesOfTheView) {
    const Project p = boat();
    const Scope scope = scopeIn(p);
    const PointRef stem{"/forms/0/outline/2", Handle::corner};
    const Project next = applied(p, movePoint(p, scope, BoardView::side, stem, {4100, 1450}));
    const auto& hull = std::get<ProfileShape>(next.forms[0].shape).outline;
    EXPECT_EQ(hull[2].x, "hull_length + 100 mm");
    EXPECT_EQ(hull[2].z, "1450 mm");
    EXPECT_EQ(hull[2].half_width, "beam / 2");
    const PointRef half{"/forms/0/outline/2", Handle::halfWidth};
    const Project wide = applied(p, movePoint(p, scope, BoardView::plan, half, {4000, 700}));
    EXPECT_EQ(std::get<ProfileShape>(wide.forms[0].shape).outline[2].half_width, "beam / 2 - 200 mm");
    EXPECT_EQ(std::get<ProfileShape>(wide.forms[0].shape).outline[2].x, "hull_length");
}

TEST(MovePoint, mayDriveADimension) {
    const Project p = boat("0.5");
    const Scope scope = scopeIn(p);
    MoveOptions options;
    options.drive = true;
    const Project next = applied(
        p, movePoints(p, scope, BoardView::side, {{"/forms/0/outline/2", Handle::corner}}, {50, 0}, options));
    EXPECT_EQ(next.dimensions[0].value, "4100 mm");
    EXPECT_EQ(std::get<ProfileShape>(next.forms[0].shape).outline[2].x, "hull_length");
}

TEST(MovePoint, oneGestureIsOneStep) {
    History history(boat());
    const Project base = history.current();
    MoveOptions options;
    options.gesture = "drag 1";
    for (int i = 1; i <= 5; ++i) {
        const auto edit = movePoints(base, scopeIn(base), BoardView::side,
                                     {{"/forms/0/outline/2", Handle::corner}}, {10.0 * i, 0}, options);
        ASSERT_TRUE(edit && history.push(*edit));
    }
    EXPECT_EQ(std::get<ProfileShape>(history.current().forms[0].shape).outline[2].x, "hull_length + 50 mm");
    EXPECT_TRUE(history.undo());
    EXPECT_EQ(history.current(), base);
}

TEST(MovePoint, refusesWhatCannotMove) {
    const Project p = boat();
    const Scope scope = scopeIn(p);
    const auto gone = movePoint(p, scope, BoardView::side, {"/forms/0/outline/9", Handle::corner}, {0, 0});
    ASSERT_FALSE(gone);
    EXPECT_EQ(gone.error().code, "no-such-point");
    Project broken = p;
    std::get<ProfileShape>(broken.forms[0].shape).outline[2].x = "hull +";
    EXPECT_FALSE(movePoint(broken, scope, BoardView::side, {"/forms/0/outline/2", Handle::corner}, {0, 0}));
    // A profile's outline point seen from ahead goes up and down, but has no way sideways.
    const auto flat =
        movePoints(p, scope, BoardView::plan, {{"/forms/0/outline/2", Handle::corner}}, {0, 10});
    EXPECT_TRUE(flat) << "x can be moved, so this is not an error";
    EXPECT_EQ(flat->apply(p), p);
}

TEST(MoveEdge, bothEndsSquareToItself) {
    const Project p = boat();
    const Scope scope = scopeIn(p);
    // The deck edge runs level from x = 4000 to 2000.
    const Project next =
        applied(p, moveEdge(p, scope, BoardView::side, "/forms/0/outline/2", {35, 80}, true));
    const auto& hull = std::get<ProfileShape>(next.forms[0].shape).outline;
    EXPECT_EQ(hull[2].x, "hull_length");
    EXPECT_EQ(hull[2].z, "1580 mm");
    EXPECT_EQ(hull[3].z, "1580 mm");
    const Project freely =
        applied(p, moveEdge(p, scope, BoardView::side, "/forms/0/outline/2", {35, 80}, false));
    EXPECT_EQ(std::get<ProfileShape>(freely.forms[0].shape).outline[2].x, "hull_length + 35 mm");
}

TEST(MoveForm, movesByItsPlace) {
    const Project p = boat("0.5");
    const Project next = applied(p, moveForm(p, scopeIn(p), BoardView::front, 1, {100, 50}));
    EXPECT_EQ(next.forms[1].at.x, "0.5 m");
    EXPECT_EQ(next.forms[1].at.y, "200 mm");
    EXPECT_EQ(next.forms[1].at.z, "100 mm");
}

// Every handle of the samples, turned and placed forms included, comes to where it is wanted.
TEST(MovePoints, bringSamplesPointsWhereTheyAreWanted) {
    auto random = seeded(9);
    for (const char* name : {"harbour-fire-boat", "moon-crawler", "harbour-tram"}) {
        Project p = sample(name);
        p.forms[0].at = {"0.1 m", "0", "20 mm", "", "3 deg", "-7 deg", {}};
        const Scope scope = scopeIn(p);
        const BoardScene scene = sceneOf(p);
        int moved = 0;
        for (const BoardView view : boardViews)
            for (const BoardPoint& point : scene.of(view).points) {
                if (point.mirrored || point.knobs.empty()) continue;
                Vec2 delta(uniform(random, -80, 80), uniform(random, -80, 80));
                const auto edit = movePoints(p, scope, view, {point.ref}, delta);
                ASSERT_TRUE(edit) << point.name << ": " << edit.error().message;
                const Project next = applied(p, edit);
                const BoardPoint& now = pointIn(sceneOf(next), view, point.ref);
                const Vec2 wanted = point.at + delta;
                if (point.freeRight && point.freeUp && point.knobs.size() > 1) {
                    EXPECT_LT((now.at - wanted).norm(), 1e-9) << point.name << " in " << viewName(view);
                } else { // along its one way, as near as it gets
                    EXPECT_LT(std::abs((now.at - wanted).dot(seen(point.knobs[0].along, view))), 1e-6)
                        << point.name;
                }
                ++moved;
            }
        EXPECT_GT(moved, 40);
        std::printf("%s: %d handles moved\n", name, moved);
    }
}

// What snapped is written as a builder would read it off, in every unit and at every scale, and stands where
// it snapped to.
TEST(ShiftedLength, whatSnappedIsShortAndWithinAHundredthOfAMillimetre) {
    std::mt19937_64 random = seeded();
    double worst = 0;
    std::ptrdiff_t longest = 0; // of what is new
    for (const char* units : {"mm", "cm", "m", "in", "ft"})
        for (const char* scale : {"2/5", "1", "1.7"})
            for (int i = 0; i < 200; ++i) {
                Project project = boat();
                project.units = units;
                project.scale = scale;
                const Scope scope = scopeIn(project);
                const double by = (static_cast<double>(below(random, 1000000)) / 1000000 - 0.5) * 4000;
                for (const Text& was :
                     {Text(), Text("1.5 m"), Text("beam / 2"), Text("hull_length - 0.88 m")}) {
                    const Text now = shifted(was, by, scope, Space::subject, readable);
                    const double before = was.empty() ? 0 : valueOf(was, scope);
                    worst = std::max(worst, std::abs(valueOf(now, scope) - before - by));
                    longest =
                        std::max(longest, std::ssize(now) - (namesIn(was).empty() ? 0 : std::ssize(was)));
                }
            }
    EXPECT_LE(worst, 0.0051);
    EXPECT_LE(longest, 16);
    std::printf("at most %.4f mm off, %td letters\n", worst, longest);
}
