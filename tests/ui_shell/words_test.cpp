// Words of the window where there is little room, or nothing to say yet.
#include "tests/ui_shell/fakes.h"
#include "ui/findings/findings_card.h"
#include "ui/findings/findings_model.h"
#include "ui/theme/empty_state.h"
#include "ui/theme/theme.h"
#include "ui/window/document_file.h"
#include "ui/window/main_window.h"
#include "ui/window/measure_prompt.h"
#include "ui/window/notice.h"
#include "ui/window/titles.h"
#include "ui/window/top_bar.h"
#include <QCoreApplication>
#include <QLabel>
#include <QToolButton>
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

TEST(Words, CountsAreWordsOfTheirOwn) {
    EXPECT_EQ(countWords(Severity::stop, 1), "1 stop");
    EXPECT_EQ(countWords(Severity::stop, 2), "2 stops");
    EXPECT_EQ(countWords(Severity::look, 1), "1 look");
    EXPECT_EQ(countWords(Severity::look, 3), "3 looks");
    EXPECT_EQ(countWords(Severity::note, 1), "1 note");
}

TEST(Words, ALabelGivesUpItsLastPartsFirst) {
    ElidedLabel label("hull/starboard · cut 2 · outside face up");
    label.setFont(Theme::words(12));
    const QFontMetrics metrics(label.font());
    const auto shownAt = [&](const QString& room) {
        label.resize(metrics.horizontalAdvance(room) + 2, 20);
        return label.shown();
    };
    EXPECT_EQ(shownAt(label.text()), label.text());
    EXPECT_EQ(shownAt("hull/starboard · cut 2 · outs"), "hull/starboard · cut 2");
    EXPECT_EQ(shownAt("hull/starboard · c"), "hull/starboard");
    EXPECT_TRUE(shownAt("hull/star").contains(QChar(0x2026))) << "then in the middle";
}

TEST(Words, TheFitTitleNamesThePlateWholeAndTheSolidShortly) {
    Engine engine = test::quickEngine();
    engine.evaluate = [](const Project& p, Effort, std::uint64_t revision, const Job&) {
        Evaluation e = test::scopeOnly(p, revision);
        FitResult fit;
        fit.confirmed = true;
        FitPair pair;
        pair.plate = "wheelhouse/starboard";
        pair.solid = "donor/joystick hand";
        pair.clearance = 37;
        pair.wanted = 20;
        pair.state = FitState::fits;
        fit.pairs.push_back(pair);
        e.fit = std::make_shared<FitResult>(fit);
        return e;
    };
    Session session(engine);
    session.replace(test::sample("moon-crawler"));
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    EXPECT_EQ(titlesOf(session).note[0], "least gap 37 mm · wheelhouse/starboard · to joystick hand");
}

TEST(Words, AnEmptyPunchListSaysWhatComesNext) {
    Session session(test::quickEngine());
    FindingsCard card(&session);
    const auto words = [&] {
        QString all;
        for (const auto* label : card.findChild<EmptyState*>()->findChildren<QLabel*>()) all += label->text();
        return all;
    };
    session.replace(Project{});
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    EXPECT_TRUE(words().contains("Add a form")) << words().toStdString();
    Project formed = test::sample("moon-crawler");
    formed.stock.sheets.clear();
    session.replace(formed);
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    EXPECT_TRUE(words().contains("Add the sheets")) << words().toStdString();
    session.replace(test::sample("moon-crawler"));
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    EXPECT_TRUE(words().contains("Drag the scale")) << words().toStdString();
}

TEST(Words, TheMeasureBannerGoesWithItsDocument) {
    MainWindow window(std::make_unique<Session>(test::quickEngine()));
    window.file()->take(test::sample("harbour-fire-boat"), {}, true);
    window.show();
    MeasurePrompt prompt(window.session(), window.notice(), &window);
    prompt.offer();
    ASSERT_TRUE(window.notice()->isVisible());
    const QString before = window.notice()->words();
    window.session()->apply(measureSheets({{"xps_13", "12.4 mm", "1218 mm", "2440 mm", true}}));
    EXPECT_TRUE(window.notice()->isVisible());
    EXPECT_NE(window.notice()->words(), before) << "one sheet less";
    window.session()->markSaved();
    ASSERT_TRUE(window.file()->newEmpty());
    EXPECT_FALSE(window.notice()->isVisible());
    // Another message is left alone.
    window.notice()->tell(Notice::Kind::bad, "Could not write.");
    window.file()->take(test::sample("moon-crawler"), {}, true);
    EXPECT_TRUE(window.notice()->isVisible());
}

TEST(Words, ButtonsOfTheBarSayWhatAClickDoes) {
    MainWindow window(std::make_unique<Session>(test::quickEngine()));
    window.file()->take(test::sample("harbour-fire-boat"), {}, true);
    window.show();
    QCoreApplication::processEvents();
    window.resize(1600, 900);
    QCoreApplication::processEvents();
    QAbstractButton *units = nullptr, *colours = nullptr;
    for (auto* button : window.findChild<TopBar*>()->findChildren<QAbstractButton*>()) {
        if (button->accessibleName().startsWith("Units")) units = button;
        if (button->accessibleName().contains("change to")) colours = button;
    }
    ASSERT_TRUE(units && colours);
    EXPECT_TRUE(units->text().startsWith("Units: ")) << units->text().toStdString();
    EXPECT_TRUE(units->toolTip().startsWith("Choose"));
    EXPECT_TRUE(colours->toolTip().startsWith("Change to"));
}

} // namespace
} // namespace slab::ui
