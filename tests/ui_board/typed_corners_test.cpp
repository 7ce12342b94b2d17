// Corners typed while a form is drawn: every figure stays as it was typed, and names reach the strip.
#include "tests/ui_board/board_bench.h"
#include "ui/board/board_bar.h"
#include "ui/board/draw_strip.h"
#include "ui/board/draw_tool.h"
#include <QApplication>
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

using test::BoardBench;

Project typedIn(const char* units) {
    Project project;
    project.title = "blank";
    project.units = units;
    project.dimensions = {{"beam", "795 mm", Space::subject, {}, {}}};
    return project;
}

QLineEdit* box(const BoardBench& b, const QString& name) {
    for (auto* one : b.view->drawStrip()->findChildren<QLineEdit*>())
        if (one->accessibleName() == name) return one;
    return nullptr;
}
void typeInto(QLineEdit* one, const char* text) {
    ASSERT_TRUE(one);
    one->setFocus();
    QTest::keyClicks(one, text);
    QTest::keyClick(one, Qt::Key_Return);
}

TEST(TypedCorners, StayAsTypedWhateverTheUnitRoundsTo) {
    for (const char* units : {"mm", "in", "ft"}) {
        BoardBench b(typedIn(units));
        b.key(Qt::Key_P);
        const std::vector<std::pair<const char*, const char*>> corners{
            {"beam / 7", "beam * 1.03"}, {"1500.25 mm", "47-1/3 in"}, {"beam", "beam / 3"}};
        for (const auto& [x, z] : corners) {
            typeInto(box(b, "next x"), x);
            typeInto(box(b, "next z"), z);
        }
        typeInto(box(b, "next x"), "");
        ASSERT_EQ(b.project().forms.size(), 1U) << units;
        const auto& outline = std::get<ProfileShape>(b.project().forms[0].shape).outline;
        ASSERT_EQ(outline.size(), corners.size());
        for (const auto& [x, z] : corners)
            EXPECT_TRUE(std::any_of(outline.begin(), outline.end(),
                                    [&](const OutlinePoint& p) { return p.x == x && p.z == z; }))
                << units << ": " << x << ", " << z;
    }
}

TEST(TypedCorners, NamesGoToTheStripOnceACornerIsDrawn) {
    BoardBench b(typedIn("mm"));
    b.key(Qt::Key_P);
    b.click(BoardView::side, {0, 0});
    const bool grid = b.canvas().gridOn();
    QTest::keyClick(&b.canvas(), Qt::Key_G); // of "girth": no grid, no other tool
    EXPECT_EQ(b.canvas().gridOn(), grid);
    ASSERT_TRUE(box(b, "next x"));
    EXPECT_EQ(box(b, "next x")->text(), "g");
    const auto* tool = dynamic_cast<DrawTool*>(&b.canvas().tool());
    ASSERT_TRUE(tool);
    EXPECT_EQ(tool->count(), 1U) << "what was drawn is still there";
}

TEST(TypedCorners, AClickGivesOnlyWhatIsNotTyped) {
    BoardBench b(typedIn("mm"));
    b.key(Qt::Key_P);
    b.click(BoardView::side, {0, 0});
    typeInto(box(b, "next x"), "beam * 2");
    b.click(BoardView::side, {300, 500});
    EXPECT_EQ(box(b, "next x")->text(), "") << "used up";
    b.click(BoardView::side, {0, 500});
    b.key(Qt::Key_Return);
    ASSERT_EQ(b.project().forms.size(), 1U);
    const auto& outline = std::get<ProfileShape>(b.project().forms[0].shape).outline;
    EXPECT_EQ(std::count_if(outline.begin(), outline.end(),
                            [](const OutlinePoint& p) { return p.x == "beam * 2"; }),
              1);
}

} // namespace
} // namespace slab::ui
