// Forms over the system's clipboard, by keys in the table and by the menu.
#include "tests/ui_shell/table_bench.h"
#include "ui/tables/form_clipboard.h"
#include "ui/tables/table_tree.h"
#include <QClipboard>
#include <QGuiApplication>
#include <QMimeData>
#include <QTest>
#include <gtest/gtest.h>

namespace slab::ui::test {
namespace {

/// The table of forms with its `index`th row current.
TableSection* formsOf(TableBench& bench, int index) {
    for (TableSection* section : bench.tables.sections())
        if (section->spec().name == "Forms") {
            EXPECT_TRUE(section->reveal("/forms/" + std::to_string(index)));
            return section;
        }
    return nullptr;
}

TEST(Clipboard, AFormGoesFromOneDocumentToAnother) {
    TableBench from(sample("moon-crawler"));
    TableSection* table = formsOf(from, 0);
    ASSERT_NE(table, nullptr);
    QTest::keyClick(table->tree(), Qt::Key_C, Qt::ControlModifier);
    const QMimeData* data = QGuiApplication::clipboard()->mimeData();
    ASSERT_TRUE(data->hasFormat(formsMime));
    EXPECT_EQ(data->text().toUtf8(), data->data(formsMime));
    EXPECT_TRUE(clipboardHoldsForms());

    TableBench to(sample("harbour-fire-boat"));
    const Project before = to.session.project();
    TableSection* other = formsOf(to, 0);
    QTest::keyClick(other->tree(), Qt::Key_V, Qt::ControlModifier);
    const Project& now = to.session.project();
    ASSERT_EQ(now.forms.size(), before.forms.size() + 1);
    EXPECT_EQ(now.forms.back().shape.index(), from.session.project().forms[0].shape.index());
    EXPECT_TRUE(std::equal(before.forms.begin(), before.forms.end(), now.forms.begin()));
    EXPECT_EQ(to.session.selection().form.toStdString(), now.forms.back().name);
    EXPECT_TRUE(to.session.history().undoLabel().starts_with("Paste "));
    to.session.undo();
    EXPECT_EQ(to.session.project(), before) << "one step";
}

TEST(Clipboard, DuplicateCutAndDeleteAreOneStepEach) {
    TableBench bench(sample("harbour-fire-boat"));
    const Project before = bench.session.project();
    TableSection* table = formsOf(bench, 1);
    QTest::keyClick(table->tree(), Qt::Key_D, Qt::ControlModifier);
    ASSERT_EQ(bench.session.project().forms.size(), before.forms.size() + 1);
    EXPECT_EQ(bench.session.project().forms.back().name, before.forms[1].name + " 2");
    QTest::keyClick(table->tree(), Qt::Key_X, Qt::ControlModifier);
    EXPECT_EQ(bench.session.project().forms.size(), before.forms.size()) << "the new row was current";
    QTest::keyClick(table->tree(), Qt::Key_V, Qt::ControlModifier);
    EXPECT_EQ(bench.session.project().forms.back().name, before.forms[1].name + " 2");
    for (int i = 0; i < 3; ++i) bench.session.undo();
    EXPECT_EQ(bench.session.project(), before);
}

TEST(Clipboard, OtherTextIsRefusedInWordsAndOtherRowsGiveTheirText) {
    TableBench bench(sample("moon-crawler"));
    const Project before = bench.session.project();
    QGuiApplication::clipboard()->setText("ten metres of rope");
    EXPECT_FALSE(clipboardHoldsForms());
    std::string said;
    QObject::connect(&bench.session, &Session::refused, [&](const Error& error) { said = error.message; });
    EXPECT_FALSE(pasteForms(bench.session));
    EXPECT_FALSE(said.empty());
    EXPECT_EQ(bench.session.project(), before);
    for (TableSection* section : bench.tables.sections())
        if (section->spec().name == "Dimensions" && section->reveal("/dimensions/0")) {
            QTest::keyClick(section->tree(), Qt::Key_C, Qt::ControlModifier);
            EXPECT_EQ(QGuiApplication::clipboard()->text().toStdString(), before.dimensions[0].value);
        }
    EXPECT_FALSE(copyForm(bench.session, {"nobody"}));
}

TEST(Clipboard, TheChosenPlateTellsItsForm) {
    TableBench bench(sample("harbour-fire-boat"));
    for (const Form& form : bench.session.project().forms) {
        const std::string hand = form.name + (form.mirror ? " port" : "");
        bench.session.selectPlate(QString::fromStdString(hand + "/top"));
        EXPECT_EQ(chosenForm(bench.session).toStdString(), form.name);
    }
    bench.session.select({});
    EXPECT_TRUE(chosenForm(bench.session).isEmpty());
}

} // namespace
} // namespace slab::ui::test
