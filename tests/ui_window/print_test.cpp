// Which templates are printed: what the dialog promises is what the PDF holds.
#include "core/pack/drawings.h"
#include "tests/drawing/pdf_reader.h"
#include "tests/ui_window/bench.h"
#include "ui/panels/joint_edits.h"
#include "ui/window/exporter.h"
#include "ui/window/length_box.h"
#include "ui/window/print_dialog.h"
#include <QAbstractButton>
#include <QListWidget>
#include <QTest>

namespace slab::ui::test {
namespace {

using What = PrintDialog::What;

class Print : public WindowTest {
protected:
    /// Pages as the dialog says, once they are counted.
    static int promised(const PrintDialog& dialog) {
        EXPECT_TRUE(waitFor([&] { return dialog.summary() != QString::fromUtf8("counting pages…"); }));
        return dialog.summary().section(' ', 0, 0).toInt();
    }
    static int written(const PrintChoice& choice) {
        const QString pdf = folder() + "/templates.pdf";
        bool finished = false, good = false;
        auto* exporter = window().findChild<Exporter*>();
        const auto told = QObject::connect(exporter, &Exporter::finished, [&](bool done, const QString&) {
            finished = true;
            good = done;
        });
        exporter->templates(pdf, choice);
        EXPECT_TRUE(waitFor([&] { return finished; }));
        QObject::disconnect(told);
        EXPECT_TRUE(good);
        return static_cast<int>(hand::readPdf(bytesOf(pdf).toStdString()).size());
    }
    static const Panel& panel(std::size_t i) { return shown().panels->at(i); }
};

TEST_F(Print, TheDialogPromisesThePagesThatAreWritten) {
    choosePanel("wheelhouse/front");
    PrintDialog dialog(&session());
    EXPECT_EQ(dialog.summary(), QString::fromUtf8("counting pages…")) << "never counted while the hand waits";
    ASSERT_EQ(static_cast<std::size_t>(dialog.list()->count()), shown().panels->size());

    const int all = promised(dialog);
    Evaluation e = shown();
    EXPECT_EQ(static_cast<std::size_t>(all),
              templateDrawing(session().project(), e, *templatePaper(session().project())).pages.size());

    dialog.button(What::calibration)->click();
    EXPECT_EQ(promised(dialog), 1);
    EXPECT_TRUE(dialog.choice().panels.isEmpty());
    EXPECT_EQ(written(dialog.choice()), 1);

    dialog.button(What::chosen)->click();
    EXPECT_EQ(dialog.choice().panels, QStringList("wheelhouse/front"));
    EXPECT_EQ(written(dialog.choice()), promised(dialog));

    // A tick in the list is enough to say that ticked ones are wanted.
    dialog.list()->item(0)->setCheckState(Qt::Checked);
    EXPECT_TRUE(dialog.button(What::ticked)->isChecked());
    EXPECT_EQ(dialog.choice().panels,
              QStringList({QString::fromStdString(panel(0).name), "wheelhouse/front"}));
    const int letter = promised(dialog);
    EXPECT_EQ(written(dialog.choice()), letter);
    for (int i = 0; i < dialog.list()->count(); ++i) dialog.list()->item(i)->setCheckState(Qt::Unchecked);
    EXPECT_TRUE(dialog.summary().contains("Tick")) << dialog.summary().toStdString();
}

TEST_F(Print, BorderAndOverlapAreInTheDocumentsUnit) {
    ASSERT_TRUE(session().apply(setValue("/units", "\"in\"")));
    rest();
    PrintDialog dialog(&session());
    EXPECT_EQ(dialog.border()->text(), QString::fromUtf8("3/8″"));
    EXPECT_DOUBLE_EQ(dialog.choice().border, 25.4 * 3 / 8);
    dialog.border()->stepUp();
    EXPECT_DOUBLE_EQ(dialog.choice().border, 25.4 * 7 / 16);
    dialog.border()->selectAll();
    QTest::keyClicks(dialog.border(), "1/4\t");
    EXPECT_DOUBLE_EQ(dialog.choice().border, 25.4 / 4);
    dialog.border()->selectAll();
    QTest::keyClicks(dialog.border(), "12 mm\t");
    EXPECT_DOUBLE_EQ(dialog.choice().border, 12);
    dialog.border()->selectAll();
    QTest::keyClicks(dialog.border(), "two\t");
    EXPECT_DOUBLE_EQ(dialog.choice().border, 12) << "what is no length changes nothing";

    ASSERT_TRUE(session().apply(setValue("/units", "\"mm\"")));
    rest();
    PrintDialog metric(&session());
    EXPECT_EQ(metric.border()->text(), "10 mm");
    EXPECT_DOUBLE_EQ(metric.choice().border, 10);
}

TEST_F(Print, WhatIsCutAlreadyNeedsNoTemplate) {
    const Panel first = panel(0), second = panel(1);
    ASSERT_TRUE(session().apply(markCut(first.name, first.fingerprint, true)));
    ASSERT_TRUE(session().apply(markCut(second.name, "as it was before", true)));
    rest();
    PrintDialog dialog(&session());
    dialog.button(What::notCut)->click();
    const QStringList left = dialog.choice().panels;
    EXPECT_EQ(static_cast<std::size_t>(left.size()), shown().panels->size() - 1);
    EXPECT_FALSE(left.contains(QString::fromStdString(first.name)));
    EXPECT_TRUE(left.contains(QString::fromStdString(second.name))) << "changed since it was cut";
    EXPECT_FALSE(dialog.button(What::chosen)->isEnabled()) << "no panel is chosen";
}

} // namespace
} // namespace slab::ui::test
