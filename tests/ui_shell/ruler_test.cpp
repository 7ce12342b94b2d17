#include "core/survey/survey.h"
#include "tests/ui_shell/fakes.h"
#include "ui/ruler/rule_paint.h"
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

struct RulerBench {
    Session session{test::quickEngine()};
    ScaleRuler ruler{&session};
    RuleStrip* rule = ruler.rule();

    RulerBench() {
        session.replace(test::sample("moon-crawler"));
        EXPECT_TRUE(session.waitUntilAtRest(20000));
        ruler.resize(1200, 160);
        ruler.show();
        QCoreApplication::processEvents();
    }
    [[nodiscard]] QPoint at(double scale) const {
        return {static_cast<int>(std::lround(rule->xOf(scale))), 45};
    }
    [[nodiscard]] double scale() const { return parseRatio(session.project().scale).value_or(0); }
};

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

} // namespace
} // namespace slab::ui
