// The strip under the sheet: neither the sheet nor a button moves while the builder goes from step to step.
#include "tests/ui_board/sheet_bench.h"
#include "ui/board/draw_strip.h"
#include "ui/board/draw_tool.h"
#include "ui/board/edge_strip.h"
#include "ui/board/strip_room.h"
#include <QAbstractButton>
#include <QApplication>
#include <gtest/gtest.h>
#include <map>

namespace slab::ui {
namespace {

using test::BoardBench;

void settle() {
    for (int i = 0; i < 3; ++i) QCoreApplication::processEvents();
}

std::map<QString, QRect> buttonsOf(const QWidget* strip) {
    std::map<QString, QRect> all;
    for (const auto* one : strip->findChildren<QAbstractButton*>())
        if (one->isVisible() && !one->objectName().startsWith("qt_") && one->inherits("QWidget") &&
            !one->accessibleName().isEmpty())
            all[one->accessibleName()] = QRect(one->mapToGlobal(QPoint()), one->size());
    return all;
}

QLineEdit* field(const QWidget* strip, const QString& name) {
    for (auto* one : strip->findChildren<QLineEdit*>())
        if (one->accessibleName() == name) return one;
    return nullptr;
}

const QSize boards[] = {{874, 560}, {874, 420}, {1108, 800}, {2500, 1700}};

TEST(StripRoom, TheSheetKeepsItsSizeAndPlaceFromStepToStep) {
    for (const QSize& size : boards) {
        BoardBench b(test::hull());
        b.view->resize(size);
        settle();
        b.canvas().fit();
        const QRect sheet = b.canvas().geometry();
        const QPoint place = b.px(BoardView::side, {0, 1000});
        const auto still = [&](const char* step) {
            settle();
            EXPECT_EQ(b.canvas().geometry(), sheet) << step << " at " << size.width();
            EXPECT_EQ(b.px(BoardView::side, {0, 1000}), place) << step << " at " << size.width();
            const QWidget* strip = b.view->stripRoom()->shown();
            ASSERT_TRUE(strip) << step;
            const QRect on(strip->mapTo(b.view.get(), QPoint()), strip->size());
            EXPECT_LE(on.bottom(), b.view->stripRoom()->geometry().bottom() + 1) << step;
            EXPECT_GE(on.top(), sheet.bottom() - 110) << step << ": at most three rows over the sheet";
        };
        b.click(BoardView::side, b.at(BoardView::side, "hull/deck"));
        still("a point");
        b.click(BoardView::side, b.at(BoardView::side, "hull/stern"), Qt::ShiftModifier);
        still("two points");
        b.key(Qt::Key_P);
        still("drawing");
        b.key(Qt::Key_T);
        still("a taper");
        b.key(Qt::Key_O);
        still("a round");
        b.key(Qt::Key_M);
        still("measuring");
        b.key(Qt::Key_C);
        still("nothing");
        b.session->select({});
        b.desk().chooseNone();
        b.desk().choose({BoardView::side, {}, {"/forms/0/outline/0"}});
        still("an edge");
    }
}

TEST(StripRoom, ButtonsKeepTheirPlacesWhileFiguresAreTyped) {
    for (const QSize& size : boards) {
        BoardBench b(test::hull());
        b.view->resize(size);
        b.key(Qt::Key_T);
        settle();
        const auto before = buttonsOf(b.view->drawStrip());
        ASSERT_GE(before.size(), 2U);
        for (const auto& [name, typed] :
             {std::pair{"name", "wheelhouse with a long name"},
              std::pair{"height", "length * 3 / 4 + 12.5 mm"}, std::pair{"next x", "1200 mm + nobody"},
              std::pair{"next y", "length / 7"}}) {
            QLineEdit* one = field(b.view->drawStrip(), name);
            ASSERT_TRUE(one) << name;
            one->setFocus();
            QTest::keyClicks(one, typed);
            settle();
            EXPECT_EQ(buttonsOf(b.view->drawStrip()), before) << name << " at " << size.width();
        }
    }
}

TEST(StripRoom, AReasonThatIsLongerThanItsRoomStandsOverTheLine) {
    BoardBench b(test::hull());
    b.key(Qt::Key_P);
    QLineEdit* one = field(b.view->drawStrip(), "next x");
    ASSERT_TRUE(one);
    one->setFocus();
    QTest::keyClicks(one, "1200 mm + nobody_at_all");
    settle();
    const auto reason = [&]() -> QLabel* {
        for (auto* label : b.view->findChildren<QLabel*>())
            if (label->property("role") == "reason" && label->isVisible()) return label;
        return nullptr;
    };
    ASSERT_TRUE(reason());
    EXPECT_TRUE(reason()->text().contains("nobody_at_all")) << reason()->text().toStdString();
    EXPECT_LT(reason()->geometry().bottom(), one->mapTo(b.view.get(), QPoint()).y());
    one->clear();
    QTest::keyClicks(one, "1200 mm");
    EXPECT_FALSE(reason());
}

} // namespace
} // namespace slab::ui
