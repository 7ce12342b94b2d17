// The head of the ruler: typed scale, why nothing fits, what is to spare, and the words of bands and pick.
#include "core/survey/survey.h"
#include "tests/ui_shell/fakes.h"
#include "tests/ui_shell/ruler_bench.h"
#include "ui/ruler/margin_plot.h"
#include "ui/ruler/rule_flags.h"
#include "ui/ruler/rule_paint.h"
#include "ui/ruler/scale_ruler.h"
#include <QApplication>
#include <QKeyEvent>
#include <QLineEdit>
#include <QTest>
#include <QToolButton>
#include <QToolTip>
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

TEST(RulerHead, UndoIsTheDocumentsWhileNothingIsTypedInTheScale) {
    RulerBench b;
    QLineEdit* entry = b.ruler.entry();
    const auto keeps = [&] {
        QKeyEvent undo(QEvent::ShortcutOverride, Qt::Key_Z, Qt::ControlModifier);
        undo.ignore();
        QApplication::sendEvent(entry, &undo);
        return undo.isAccepted();
    };
    EXPECT_FALSE(keeps()) << "a shortcut of the window";
    entry->selectAll();
    QTest::keyClicks(entry, "0.4");
    EXPECT_TRUE(keeps()) << "takes back what is typed";
    QTest::keyClick(entry, Qt::Key_Return);
    EXPECT_FALSE(keeps());
}

TEST(RulerHead, TheEndsOfABandTellTheirOwnReasons) {
    FitBand band{0.2, 0.6, FitState::hits, {{0.2, "donor/seat – hull/port"}, {0.5, "gate, above: mast"}}};
    const auto told = bandTold(band, QRectF(0, 0, 900, 27), 2000);
    ASSERT_EQ(told.size(), 2U);
    EXPECT_EQ(told[0].second, "hits: seat – hull/port");
    EXPECT_EQ(told[1].second, "gate, above: mast");
    EXPECT_LT(told[0].first.right(), told[1].first.left() + 1);
    EXPECT_EQ(bandTold(band, QRectF(0, 0, 200, 27), 2000).size(), 1U) << "no room for both";
    band.bindings.pop_back();
    EXPECT_EQ(bandTold(band, QRectF(0, 0, 900, 27), 2000).size(), 1U) << "one reason";
}

TEST(RulerHead, WhyNothingFitsIsAButton) {
    Engine engine = test::quickEngine();
    const auto survey = engine.survey;
    engine.survey = [survey](const Project& p, double from, double to, const Job& job) {
        ScaleSurvey s = survey(p, from, to, job);
        for (FitBand& band : s.bands) band.state = FitState::hits;
        s.pick.scale.reset();
        s.pick.reasons = {"The seat meets the side."};
        return s;
    };
    Session session(engine);
    ScaleRuler ruler(&session);
    ruler.resize(1200, 160);
    ruler.show();
    session.replace(test::sample("moon-crawler"));
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    ASSERT_TRUE(QTest::qWaitFor([&] { return session.surveyIsCurrent(); }, 5000));
    QToolButton* why = nullptr;
    for (QToolButton* button : ruler.findChildren<QToolButton*>())
        if (button->text() == "Why?") why = button;
    ASSERT_NE(why, nullptr);
    EXPECT_TRUE(why->isVisible());
    EXPECT_NE(why->focusPolicy() & Qt::TabFocus, 0);
    QTest::keyClick(why, Qt::Key_Return);
    EXPECT_TRUE(QToolTip::text().contains("The seat meets the side.")) << QToolTip::text().toStdString();
    QToolTip::hideText();
}

TEST(RulerHead, ThePickTellsTheSheetsThatTheRuleShows) {
    ScaleSurvey survey;
    survey.pick.scale = 0.4;
    survey.pick.reasons = {"Everything holds.",
                           "7 sheets at most, $ 99 to buy; laid out better, it may be fewer."};
    survey.sheetSteps = {{0.2, 3}, {0.38, 6}, {0.5, 8}};
    survey.sheetSteps[1].cost = 84.5;
    survey.currency = "$";
    const QString words = pickWords(survey);
    EXPECT_TRUE(words.contains("6 sheets, $ 84.50 to buy")) << words.toStdString();
    EXPECT_FALSE(words.contains("7 sheets")) << words.toStdString();
}

TEST(RulerHead, WhatIsToSpareAsksForRoomWhereItIsFoldedAway) {
    RulerBench b;
    int asked = 0;
    QObject::connect(&b.ruler, &ScaleRuler::roomWanted, [&] {
        ++asked;
        b.ruler.setFolded(false);
    });
    QToolButton* curves = nullptr;
    for (QToolButton* button : b.ruler.findChildren<QToolButton*>())
        if (button->text() == "To spare") curves = button;
    ASSERT_NE(curves, nullptr);
    b.ruler.setFolded(true);
    EXPECT_TRUE(curves->isEnabled());
    QTest::mouseClick(curves, Qt::LeftButton);
    EXPECT_EQ(asked, 1);
    EXPECT_TRUE(b.ruler.plot()->isVisibleTo(&b.ruler));
    EXPECT_TRUE(curves->isChecked());
    QTest::mouseClick(curves, Qt::LeftButton);
    EXPECT_FALSE(b.ruler.plot()->isVisibleTo(&b.ruler));
    EXPECT_EQ(asked, 1);
}

} // namespace
} // namespace slab::ui
