// Outlines of a drawing become forms: unit question, choice, refusals.
#include "core/evaluate/stages.h"
#include "tests/geometry/seed.h"
#include "tests/ui_board/board_bench.h"
#include "ui/outlines/outline_dialog.h"
#include "ui/outlines/outline_preview.h"
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

constexpr const char* drawing = R"(<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 200 100">
<path id="hull" d="M 0 50 L 100 50 L 100 0 L 0 0 Z"/><circle id="funnel" cx="150" cy="20" r="10"/></svg>)";

SvgFile fileOf(const std::string& text) {
    auto file = readSvg(text);
    EXPECT_TRUE(file) << (file ? "" : file.error().message);
    return file.value_or(SvgFile{});
}

struct OutlineBench {
    std::unique_ptr<Session> session = std::make_unique<Session>(test::quickEngine());
    std::unique_ptr<OutlineDialog> dialog;
    explicit OutlineBench(const std::string& text, const char* scale = "1") {
        Project project;
        project.title = "tug";
        project.scale = scale;
        session->replace(project);
        dialog = std::make_unique<OutlineDialog>(session.get(), fileOf(text), "tug.svg");
        dialog->resize(1000, 640);
        dialog->show();
        QCoreApplication::processEvents();
    }
    void tick(const char* name, bool on) const {
        for (auto* item : dialog->list()->findItems(name, Qt::MatchExactly))
            item->setCheckState(on ? Qt::Checked : Qt::Unchecked);
    }
    void click(const Vec2& at) const {
        QTest::mouseClick(dialog->preview(), Qt::LeftButton, {}, dialog->preview()->toScreen(at).toPoint());
    }
};

double lengthOfText(const Project& project, const Text& text) {
    std::vector<Finding> findings;
    const Scope scope = resolveScope(project, readScale(project.scale).value(), findings);
    return evaluate(text, scope, Space::subject, Kind::length).value().value / scope.scale;
}

TEST(Outlines, TwoPointsAndTheirDistanceGiveTheUnit) {
    for (const char* scale : {"1", "2/5"}) {
        OutlineBench b(drawing, scale);
        ASSERT_EQ(b.dialog->list()->count(), 2);
        b.tick("hull", true);
        b.tick("funnel", false);
        b.dialog->units()->setCurrentIndex(b.dialog->units()->count() - 1);
        EXPECT_FALSE(b.dialog->make()->isEnabled());
        EXPECT_TRUE(b.dialog->trouble().contains("two points")) << b.dialog->trouble().toStdString();
        b.click({0, 50});
        b.click({100, 50});
        b.dialog->distance()->setText("0 m");
        EXPECT_FALSE(b.dialog->make()->isEnabled()) << "no distance, no unit";
        b.dialog->distance()->setText("2 m");
        EXPECT_EQ(b.dialog->trouble(), QString());
        QTest::mouseClick(b.dialog->make(), Qt::LeftButton);
        const Project& project = b.session->project();
        ASSERT_EQ(project.forms.size(), 1U);
        EXPECT_EQ(project.forms[0].name, "hull");
        const auto& outline = std::get<ProfileShape>(project.forms[0].shape).outline;
        ASSERT_EQ(outline.size(), 4U);
        double length = 0, height = 0;
        for (const OutlinePoint& p : outline) {
            EXPECT_GE(lengthOfText(project, p.x), -1e-9) << "it begins at zero";
            EXPECT_GE(lengthOfText(project, p.z), -1e-9);
            length = std::max(length, lengthOfText(project, p.x));
            height = std::max(height, lengthOfText(project, p.z));
        }
        EXPECT_NEAR(length, 2000, 1e-3) << "at scale " << scale;
        EXPECT_NEAR(height, 1000, 1e-3) << "at scale " << scale;
        b.session->undo();
        EXPECT_TRUE(b.session->project().forms.empty()) << "one step";
    }
}

TEST(Outlines, SeveralKeepTheirPlacesToEachOther) {
    OutlineBench b(drawing);
    b.tick("hull", true);
    // A click in the drawing takes what the list would.
    b.click({150, 20});
    EXPECT_EQ(b.dialog->list()->item(1)->checkState(), Qt::Checked);
    int millimetres = -1;
    for (int i = 0; i < b.dialog->units()->count(); ++i)
        if (b.dialog->units()->itemText(i).startsWith("millimetres")) millimetres = i;
    ASSERT_GE(millimetres, 0);
    b.dialog->units()->setCurrentIndex(millimetres);
    b.dialog->uses()->setCurrentIndex(static_cast<int>(OutlineUse::plateSide));
    QTest::mouseClick(b.dialog->make(), Qt::LeftButton);
    const Project& project = b.session->project();
    ASSERT_EQ(project.forms.size(), 2U);
    EXPECT_EQ(project.forms[0].at.roll, "90 deg") << "it stands in the side view";
    const auto& circle = std::get<PlateShape>(project.forms[1].shape);
    double left = 1e9, right = -1e9;
    for (const OutlinePoint& p : circle.outline) {
        left = std::min(left, lengthOfText(project, p.x));
        right = std::max(right, lengthOfText(project, p.x));
    }
    EXPECT_NEAR(left, 140, 1e-3) << "where the drawing has it, from the hull's end";
    EXPECT_NEAR(right, 160, 1e-3);
    EXPECT_EQ(circle.curves.size(), circle.outline.size()) << "arcs stay arcs";
    b.session->undo();
    EXPECT_TRUE(b.session->project().forms.empty()) << "both in one step";
}

TEST(Outlines, RefusalsSayWhyAndChangeNothing) {
    OutlineBench b(drawing);
    b.tick("hull", false);
    b.tick("funnel", false);
    EXPECT_TRUE(b.dialog->trouble().contains("No outline")) << b.dialog->trouble().toStdString();
    EXPECT_FALSE(b.dialog->make()->isEnabled());
    b.dialog->accept();
    EXPECT_TRUE(b.session->project().forms.empty());
    EXPECT_FALSE(unitBetween({1, 1}, {1, 1}, 100));
    EXPECT_EQ(unitBetween({1, 1}, {1, 1}, 100).error().code, "svg-points-same");
    EXPECT_EQ(unitBetween({0, 0}, {3, 4}, 0).error().code, "svg-distance");
    EXPECT_NEAR(unitBetween({0, 0}, {3, 4}, 10).value(), 2, 1e-12);
    // Three or more corners make an outline, and no more than a form can have.
    std::string many = "<svg xmlns=\"http://www.w3.org/2000/svg\"><path id=\"saw\" d=\"M 0 0";
    for (int i = 1; i < 300; ++i) many += " L " + std::to_string(i) + (i % 2 ? " 1" : " 0");
    OutlineBench saw(many + " L 300 90 L 0 90 Z\"/></svg>");
    EXPECT_FALSE(saw.dialog->make()->isEnabled());
    EXPECT_TRUE(saw.dialog->trouble().contains("saw")) << saw.dialog->trouble().toStdString();
}

TEST(Outlines, FlatsFollowTheTolerance) {
    // Two free curves: too few corners for an outline, so each is cut into curves, and those into flats.
    OutlineBench b(R"(<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 2000 900">
<path id="leaf" d="M 0 0 C 300 800 900 900 2000 0 C 900 -900 300 -800 0 0 Z"/></svg>)");
    for (int i = 0; i < b.dialog->units()->count(); ++i)
        if (b.dialog->units()->itemText(i).startsWith("millimetres")) b.dialog->units()->setCurrentIndex(i);
    std::size_t before = 1000;
    for (const char* within : {"1 mm", "5 mm", "20 mm"}) {
        b.dialog->tolerance()->setText(within);
        ASSERT_EQ(b.dialog->trouble(), QString());
        EXPECT_TRUE(b.dialog->told()->text().contains("flats, ")) << b.dialog->told()->text().toStdString();
        QTest::mouseClick(b.dialog->make(), Qt::LeftButton);
        const auto& made = std::get<ProfileShape>(b.session->project().forms.back().shape);
        EXPECT_EQ(made.curves.size(), made.outline.size()) << "curves stay curves";
        const QString told = b.dialog->told()->text();
        const std::size_t flats = told.section("; ", 1, 1).section(' ', 0, 0).toULong();
        EXPECT_LT(flats, before) << within;
        before = flats;
        std::printf("within %s: %zu flats; %s\n", within, before, told.toStdString().c_str());
    }
}

TEST(Outlines, OneTakesThePlaceOfAFormsOwn) {
    for (const char* scale : {"1", "1/2"}) {
        OutlineBench first(drawing, scale);
        first.dialog->units()->setCurrentIndex(
            first.dialog->units()->findText("millimetres", Qt::MatchStartsWith));
        first.tick("hull", false);
        first.tick("funnel", true);
        QTest::mouseClick(first.dialog->make(), Qt::LeftButton);
        Project project = first.session->project();
        auto& old = std::get<ProfileShape>(project.forms.at(0).shape);
        for (OutlinePoint& p : old.outline) p.x = "30 mm + " + p.x;
        old.outline[0].half_width = "77 mm";
        first.session->replace(project);
        OutlineDialog dialog(first.session.get(), fileOf(drawing), "tug.svg");
        dialog.show();
        dialog.units()->setCurrentIndex(dialog.units()->findText("millimetres", Qt::MatchStartsWith));
        EXPECT_EQ(dialog.replaced(), -1);
        dialog.uses()->setCurrentIndex(dialog.uses()->findText("in place of", Qt::MatchStartsWith));
        EXPECT_EQ(dialog.replaced(), 0);
        EXPECT_EQ(dialog.make()->text(), "Replace outline");
        dialog.list()->item(1)->setCheckState(Qt::Checked);
        EXPECT_TRUE(dialog.trouble().contains("Tick one")) << dialog.trouble().toStdString();
        dialog.list()->item(1)->setCheckState(Qt::Unchecked);
        ASSERT_EQ(dialog.trouble(), QString());
        QTest::mouseClick(dialog.make(), Qt::LeftButton);
        const Project& now = first.session->project();
        ASSERT_EQ(now.forms.size(), 1U) << "nothing is added";
        const auto& shape = std::get<ProfileShape>(now.forms[0].shape);
        ASSERT_EQ(shape.outline.size(), 4U) << "the hull's";
        EXPECT_TRUE(shape.curves.empty());
        EXPECT_EQ(shape.outline[0].half_width, "77 mm");
        double least = 1e9, most = -1e9;
        for (const OutlinePoint& p : shape.outline) {
            least = std::min(least, lengthOfText(now, p.x));
            most = std::max(most, lengthOfText(now, p.x));
        }
        EXPECT_NEAR(least, 30, 1e-3) << "where the old one began, scale " << scale;
        EXPECT_NEAR(most, 130, 1e-3);
        first.session->undo();
        EXPECT_EQ(first.session->project(), project) << "one step";
    }
}

TEST(Outlines, RandomPolygonsComeInAsTheyAreDrawn) {
    const std::uint64_t seed = testSeed(5);
    std::mt19937_64 random(seed);
    for (int round = 0; round < 20; ++round) {
        std::string text = "<svg xmlns=\"http://www.w3.org/2000/svg\"><path id=\"p\" d=\"";
        std::vector<Vec2> points;
        const int n = 3 + round % 9;
        for (int i = 0; i < n; ++i) {
            const double a = 2 * 3.14159265358979 * i / n, r = uniform(random, 20, 90);
            points.emplace_back(100 + r * std::cos(a), 100 + r * std::sin(a));
            text += (i ? " L " : "M ") + std::to_string(points.back().x()) + " " +
                    std::to_string(points.back().y());
        }
        const SvgFile file = fileOf(text + " Z\"/></svg>");
        OutlineWish wish;
        wish.use = OutlineUse::platePlan;
        wish.mmX = wish.mmY = 7;
        Scope scope;
        scope.unit = Unit::mm;
        const auto edit = importOutlines({}, scope, outlinesOf(file), wish);
        ASSERT_TRUE(edit) << edit.error().message << " seed " << seed;
        const Project made = edit->apply({}).value();
        const auto& outline = std::get<PlateShape>(made.forms.at(0).shape).outline;
        ASSERT_EQ(outline.size(), points.size()) << "seed " << seed;
        double drawn = 0, built = 0; // lengths of all diagonals from the first corner, whatever the start
        for (std::size_t i = 0; i < points.size(); ++i)
            for (std::size_t k = 0; k < i; ++k) {
                drawn += 7 * (points[i] - points[k]).norm();
                const auto at = [&](std::size_t j) {
                    return Vec2(lengthOfText(made, outline[j].x), lengthOfText(made, outline[j].y));
                };
                built += (at(i) - at(k)).norm();
            }
        EXPECT_NEAR(built, drawn, 0.01 * n * n) << "seed " << seed;
    }
}

} // namespace
} // namespace slab::ui
