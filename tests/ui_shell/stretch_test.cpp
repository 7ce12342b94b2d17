// The dialog that stretches the subject: what is typed stays whole, and the size it tells is the one built.
#include "tests/ui_shell/fakes.h"
#include "ui/ruler/scale_ruler.h"
#include "ui/window/stretch_dialog.h"
#include <QDialogButtonBox>
#include <QDoubleSpinBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTest>
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

/// Bodies and donors by the real pipeline, nothing else.
Engine builtEngine() {
    Engine engine = test::quickEngine();
    const auto evaluator = std::make_shared<Evaluator>();
    engine.evaluate = [evaluator](const Project& p, Effort, std::uint64_t revision, const Job& job) {
        return evaluator->evaluate(p, Effort::fitOnly, revision, job);
    };
    return engine;
}

struct StretchBench {
    Session session{builtEngine()};
    std::unique_ptr<StretchDialog> dialog;
    StretchBench() {
        session.replace(test::sample("moon-crawler"));
        EXPECT_TRUE(session.waitUntilAtRest(20000));
        dialog = std::make_unique<StretchDialog>(&session);
    }
    void type(int field, const QString& text) {
        auto* box = dialog->findChildren<QDoubleSpinBox*>()[field];
        auto* line = box->findChild<QLineEdit*>();
        line->selectAll();
        QTest::keyClicks(line, text);
        box->interpretText();
    }
    [[nodiscard]] double value(int field) const {
        return dialog->findChildren<QDoubleSpinBox*>()[field]->value();
    }
    [[nodiscard]] QString labelWith(const QString& words) const {
        for (const QLabel* label : dialog->findChildren<QLabel*>())
            if (label->text().contains(words)) return label->text();
        return {};
    }
    [[nodiscard]] bool canAccept() const {
        return dialog->findChild<QDialogButtonBox*>()->button(QDialogButtonBox::Ok)->isEnabled();
    }
};

TEST(Stretch, WhatIsTooMuchIsSaidAndNotCutOff) {
    StretchBench b;
    for (const char* text : {"60", "-60"}) {
        b.type(0, text);
        EXPECT_EQ(b.value(0), QString(text).toDouble());
        EXPECT_FALSE(b.labelWith("25 % at most").isEmpty()) << text;
        EXPECT_FALSE(b.canAccept());
    }
    b.type(0, "6");
    EXPECT_TRUE(b.labelWith("25 % at most").isEmpty());
    EXPECT_TRUE(b.canAccept());
}

TEST(Stretch, TheSizeThatIsToldIsBuilt) {
    StretchBench b;
    b.type(0, "10");
    b.type(2, "-3");
    const QString told = b.labelWith("built ");
    b.dialog->accept();
    ASSERT_TRUE(b.session.waitUntilAtRest(20000));
    EXPECT_EQ(told, "At the scale as it is, " + builtSize(b.session) + ".");
}

} // namespace
} // namespace slab::ui
