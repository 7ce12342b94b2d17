#include "core/survey/survey.h"
#include "tests/ui_shell/fakes.h"
#include "tests/ui_shell/ruler_bench.h"
#include "ui/ruler/margin_plot.h"
#include "ui/ruler/plot_paint.h"
#include "ui/ruler/rule_flags.h"
#include "ui/ruler/rule_strip.h"
#include "ui/ruler/scale_ruler.h"
#include <QImage>
#include <QLayout>
#include <QLineEdit>
#include <QPainter>
#include <QTest>
#include <QToolButton>
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

TEST(Ruler, ADragChangesTheScaleAndIsOneStep) {
    RulerBench b;
    QTest::mousePress(b.rule, Qt::LeftButton, {}, b.at(0.5));
    EXPECT_EQ(b.session.project().scale, "1/2") << "taking the handle changes nothing";
    for (const double s : {0.52, 0.55, 0.58, 0.6}) {
        QTest::mouseMove(b.rule, b.at(s));
        EXPECT_NEAR(b.scale(), s, 1.5 * b.rule->smallStep());
        EXPECT_TRUE(b.session.dragging());
    }
    QTest::mouseRelease(b.rule, Qt::LeftButton, {}, b.at(0.6));
    EXPECT_FALSE(b.session.dragging());
    b.session.undo();
    EXPECT_EQ(b.session.project().scale, "1/2");
    EXPECT_FALSE(b.session.history().canUndo());
    b.session.redo();
    EXPECT_NEAR(b.scale(), 0.6, 1.5 * b.rule->smallStep());
}

TEST(Ruler, TwoDragsAreTwoSteps) {
    RulerBench b;
    for (const double s : {0.6, 0.4}) {
        QTest::mousePress(b.rule, Qt::LeftButton, {}, b.at(s));
        QTest::mouseRelease(b.rule, Qt::LeftButton, {}, b.at(s));
    }
    b.session.undo();
    EXPECT_NEAR(b.scale(), 0.6, 1.5 * b.rule->smallStep());
    b.session.undo();
    EXPECT_EQ(b.session.project().scale, "1/2");
}

TEST(Ruler, KeysMoveTheHandle) {
    RulerBench b;
    const double step = b.rule->smallStep();
    b.rule->setFocus();
    QTest::keyClick(b.rule, Qt::Key_Right);
    EXPECT_NEAR(b.scale(), 0.5 + step, 1e-9);
    QTest::keyClick(b.rule, Qt::Key_PageUp);
    EXPECT_NEAR(b.scale(), 0.5 + 11 * step, 1e-9);
    QTest::keyClick(b.rule, Qt::Key_Home);
    EXPECT_NEAR(b.scale(), b.session.scaleRange().first, 1e-9);
    QTest::keyClick(b.rule, Qt::Key_End);
    EXPECT_NEAR(b.scale(), b.session.scaleRange().second, 1e-9);
    for (int i = 0; i < 4; ++i) b.session.undo();
    EXPECT_EQ(b.session.project().scale, "1/2") << "each key is a step of its own";
}

TEST(Ruler, TypedEntryTakesRatios) {
    RulerBench b;
    for (const char* text : {"2/5", "0.42", "1:2.5", "45 %"}) {
        b.ruler.entry()->clear();
        QTest::keyClicks(b.ruler.entry(), text);
        QTest::keyClick(b.ruler.entry(), Qt::Key_Return);
        EXPECT_EQ(b.session.project().scale, text);
    }
    for (const char* text : {"nonsense", "0", "-1"}) {
        b.ruler.entry()->clear();
        QTest::keyClicks(b.ruler.entry(), text);
        QTest::keyClick(b.ruler.entry(), Qt::Key_Return);
        EXPECT_EQ(b.session.project().scale, "45 %") << text;
        EXPECT_TRUE(b.ruler.entry()->property("wrong").toBool()) << text;
    }
}

TEST(Ruler, TicksAreRoundAndApart) {
    for (const double range : {0.01, 0.1, 0.45, 1.0, 3.7})
        for (const double pixels : {300.0, 900.0, 3700.0}) {
            const TickSteps t = tickSteps(range, pixels);
            EXPECT_GE(t.labelled / range * pixels, 74) << range << " " << pixels;
            EXPECT_GE(t.plain / range * pixels, 5);
            const double mantissa = t.labelled / std::pow(10.0, std::floor(std::log10(t.labelled) + 1e-9));
            EXPECT_TRUE(std::fabs(mantissa - 1) < 1e-6 || std::fabs(mantissa - 2) < 1e-6 ||
                        std::fabs(mantissa - 5) < 1e-6)
                << t.labelled;
            EXPECT_NEAR(QString::number(t.labelled, 'f', t.decimals).toDouble(), t.labelled, 1e-12);
        }
}

TEST(Ruler, ScaleTextReadsBack) {
    for (const double s : {0.5, 0.42, 0.4125, 1.0, 0.333333}) {
        const auto back = parseRatio(scaleText(s).toStdString());
        ASSERT_TRUE(back.has_value());
        EXPECT_NEAR(*back, s, 5e-5);
    }
    EXPECT_EQ(scaleText(0.5), "0.5");
    EXPECT_EQ(scaleText(2), "2");
}

/// Bands are told by pattern as well as colour: without colour they still differ.
TEST(Ruler, BandsDifferWithoutColour) {
    const auto picture = [](FitState state) {
        ScaleSurvey survey;
        survey.from = 0;
        survey.to = 1;
        survey.bands = {{0, 1, state, {{0, "x"}}}};
        QImage image(400, 120, QImage::Format_ARGB32);
        image.fill(Qt::white);
        QPainter painter(&image);
        RulePicture p;
        p.body = QRectF(10, 34, 380, 27);
        p.stepsY = 100;
        p.from = 0;
        p.to = 1;
        p.scale = 0.99;
        p.survey = &survey;
        p.current = true;
        p.xOf = [](double s) { return 10 + s * 380; };
        paintRule(painter, p);
        painter.end();
        return image.copy(20, 38, 120, 18).convertToFormat(QImage::Format_Grayscale8);
    };
    const auto spread = [](const QImage& image) {
        int low = 255, high = 0;
        for (int y = 0; y < image.height(); ++y)
            for (int x = 0; x < image.width(); ++x) {
                low = std::min(low, qGray(image.pixel(x, y)));
                high = std::max(high, qGray(image.pixel(x, y)));
            }
        return high - low;
    };
    EXPECT_LT(spread(picture(FitState::fits)), 4) << "plain";
    EXPECT_GT(spread(picture(FitState::tight)), 20) << "dots";
    EXPECT_GT(spread(picture(FitState::hits)), 20) << "slanted lines";
    EXPECT_NE(picture(FitState::tight), picture(FitState::hits));
    EXPECT_EQ(bandWords({0, 1, FitState::hits, {{0, "donor/seat – hull/port"}}}, 0.5),
              "hits: seat – hull/port");
}

TEST(Ruler, KeepsItsHeightWhenTheWayToTheLeastScaleComesAndGoes) {
    RulerBench b;
    QToolButton* least = nullptr;
    for (auto* button : b.ruler.findChildren<QToolButton*>())
        if (button->text().startsWith("Go to") || button->accessibleName().startsWith("Go to"))
            least = button;
    ASSERT_TRUE(least);
    const auto height = [&](bool there) {
        least->setVisible(there);
        b.ruler.layout()->activate();
        return b.ruler.sizeHint().height();
    };
    EXPECT_EQ(height(true), height(false));
}

TEST(Ruler, ShowsTheSurveyOfTheDocument) {
    RulerBench b;
    for (int i = 0; i < 2000 && !b.session.surveyIsCurrent(); ++i) QTest::qWait(5);
    ASSERT_TRUE(b.session.surveyIsCurrent());
    EXPECT_FALSE(b.rule->grab().toImage().isNull());
    EXPECT_GE(b.session.scaleRange().second, 0.5);
    EXPECT_LE(b.session.scaleRange().first, 0.5);
}

/// With its survey shown.
struct SurveyedBench : RulerBench {
    SurveyedBench() {
        for (int i = 0; i < 2000 && !session.surveyIsCurrent(); ++i) QTest::qWait(5);
        EXPECT_TRUE(session.surveyIsCurrent());
        std::tie(from, to) = session.scaleRange();
    }
    [[nodiscard]] QToolButton* button(const QString& text) const {
        for (auto* b : ruler.findChildren<QToolButton*>())
            if (b->text().startsWith(text)) return b;
        return nullptr;
    }
    double from = 0, to = 1;
};

TEST(Ruler, TakesThePickAsOneStep) {
    SurveyedBench b;
    QToolButton* pick = b.button("Pick");
    ASSERT_TRUE(pick);
    const double wanted = b.from + (b.to - b.from) * 0.75;
    EXPECT_EQ(pick->text(), "Pick " + scaleText(wanted));
    EXPECT_TRUE(pick->toolTip().contains("Everything holds.")) << pick->toolTip().toStdString();
    EXPECT_TRUE(pick->accessibleDescription().contains("Everything holds."));
    QTest::mouseClick(pick, Qt::LeftButton);
    EXPECT_NEAR(b.scale(), wanted, 1e-4);
    b.session.undo();
    EXPECT_EQ(b.session.project().scale, "1/2");
}

TEST(Ruler, FlagsTellThePickTheLeastScaleAndStockParts) {
    SurveyedBench b;
    const ScaleSurvey& survey = *b.session.survey();
    const auto flags = flagsOf(survey);
    ASSERT_EQ(flags.size(), 3U);
    EXPECT_EQ(flags[0].kind, RuleFlag::Kind::pick);
    EXPECT_EQ(flags[1].kind, RuleFlag::Kind::least);
    EXPECT_EQ(flags[2].words, "4 in pipe = funnel");
    const double at = survey.stock.matches[0].scale;
    EXPECT_TRUE(flagWords(survey, at, 0.001).contains("4 in pipe = funnel"));
    EXPECT_EQ(flagWords(survey, b.from, 0.001), "");
    EXPECT_TRUE(b.rule->wordsAt(at).contains("4 in pipe = funnel")) << b.rule->wordsAt(at).toStdString();
    EXPECT_TRUE(b.rule->wordsAt(b.from).contains("3 sheets, $ 60")) << b.rule->wordsAt(b.from).toStdString();
    EXPECT_TRUE(b.rule->wordsAt(*survey.pick.scale).endsWith("the pick"));
    ScaleSurvey without = survey;
    without.pick = {};
    without.leastFitting.reset();
    without.stock = {};
    EXPECT_TRUE(flagsOf(without).empty());
}

TEST(Ruler, CostsAreToldAsInTheTotals) {
    EXPECT_EQ(costWords({0.4, 3, 0, 60}, "$"), "$ 60");
    EXPECT_EQ(costWords({0.4, 3, 0, 84.5}, "$"), "$ 84.50");
    EXPECT_EQ(costWords({0.4, 3, 0, 84.5}, ""), "84.50");
    EXPECT_EQ(costWords({0.4, 3, 0, 0}, "$"), "") << "nothing is bought";
    EXPECT_EQ(costWords({0.4, 3, 1, 60}, "$"), "") << "not all of it lies on sheets";
}

TEST(MarginPlot, ReadsWhereThePointerIsAndSetsByAClick) {
    SurveyedBench b;
    EXPECT_FALSE(b.ruler.plot()->isVisible());
    b.ruler.showPlot(true);
    QCoreApplication::processEvents();
    MarginPlot* plot = b.ruler.plot();
    ASSERT_TRUE(plot->isVisible());
    ASSERT_EQ(plot->x(), b.rule->x()) << "on the rule's own scale";
    const double at = b.from + (b.to - b.from) * 0.8;
    const QPoint there(static_cast<int>(std::lround(b.rule->xOf(at))), plot->height() / 2);
    QTest::mouseMove(plot, there);
    ASSERT_TRUE(plot->reading());
    EXPECT_NEAR(*plot->reading(), at, (b.to - b.from) / 500);
    EXPECT_TRUE(plot->accessibleDescription().contains("seat to hull/port: "))
        << plot->accessibleDescription().toStdString();
    EXPECT_EQ(b.session.project().scale, "1/2") << "reading changes nothing";
    QTest::mouseClick(plot, Qt::LeftButton, {}, there);
    EXPECT_NEAR(b.scale(), at, 1.5 * b.rule->smallStep());
    b.session.undo();
    EXPECT_EQ(b.session.project().scale, "1/2") << "one step";
    b.ruler.showPlot(false);
    EXPECT_FALSE(plot->isVisible());
}

TEST(MarginPlot, ReadsAndSetsByTheKeys) {
    SurveyedBench b;
    b.ruler.showPlot(true);
    MarginPlot* plot = b.ruler.plot();
    QTest::keyClick(plot, Qt::Key_Home);
    ASSERT_TRUE(plot->reading());
    EXPECT_NEAR(*plot->reading(), b.from, 1e-9);
    QTest::keyClick(plot, Qt::Key_Right);
    EXPECT_NEAR(*plot->reading(), b.from + b.rule->smallStep(), 1e-9);
    QTest::keyClick(plot, Qt::Key_PageUp);
    EXPECT_NEAR(*plot->reading(), b.from + 11 * b.rule->smallStep(), 1e-9);
    EXPECT_EQ(b.session.project().scale, "1/2");
    QTest::keyClick(plot, Qt::Key_Return);
    EXPECT_NEAR(b.scale(), *plot->reading(), b.rule->smallStep());
}

TEST(MarginPlot, SaysWhatIsToSpareOrShort) {
    SurveyedBench b;
    const ScaleSurvey& survey = *b.session.survey();
    const UnitStyle mm{Unit::mm, 16, 0, true};
    EXPECT_EQ(plotWords(survey.constraints[0], b.from, mm), "seat to hull/port: 100 mm short");
    EXPECT_EQ(plotWords(survey.constraints[0], b.to, mm), "seat to hull/port: 100 mm to spare");
    EXPECT_EQ(plotWords(survey.constraints[0], b.to * 2, mm), "");
    Constraint moving{"moves:shell", "moving parts past the shell"};
    moving.points = {{0.3, 0, 1, "", Known::atLeast}, {0.4, -1, -1, "tube – drum", Known::atMost}};
    EXPECT_EQ(plotWords(moving, 0.3, mm), "moving parts past the shell: clear");
    EXPECT_EQ(plotWords(moving, 0.4, mm), "moving parts past the shell: tube – drum meet");
    const auto [low, high] = plotRange(survey);
    EXPECT_LT(low, 0);
    EXPECT_GT(high, 0);
    const auto lines = plotLines(survey);
    ASSERT_EQ(lines.size(), 1U);
    EXPECT_TRUE(lines[0].strong) << "it binds";
}

/// Neighbours differ without colour.
TEST(MarginPlot, LinesDifferByPattern) {
    for (int i = 0; i < 8; ++i) {
        const QPen one = plotPen(i), next = plotPen(i + 1);
        EXPECT_TRUE(one.style() != next.style() || one.dashPattern() != next.dashPattern()) << i;
    }
}

} // namespace
} // namespace slab::ui
