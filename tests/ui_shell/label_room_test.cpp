// Room between the columns of the tables.
#include "tests/ui_shell/table_bench.h"
#include "ui/tables/table_tree.h"
#include "ui/theme/theme.h"
#include <QTest>

namespace slab::ui {
namespace {

using test::TableBench;

DocumentModel* dimensionsOf(TableBench& b) {
    for (TableSection* section : b.tables.sections())
        for (const std::string& root : section->spec().roots)
            if (root == "/dimensions") return section->model();
    return nullptr;
}

void settled() {
    QTest::qWait(1);
    QCoreApplication::processEvents();
}

TEST(LabelRoom, LongNamesTakeWhatShortFiguresLeave) {
    const QString longName = "height_of_the_rail_over_deck";
    Project project;
    project.units = "mm";
    project.dimensions = {{longName.toStdString(), "1 m", Space::subject, {}, {}}};
    TableBench b(project);
    DocumentModel* model = dimensionsOf(b);
    ASSERT_TRUE(model);
    TableTree tree;
    tree.setModel(model);
    tree.resize(420, 300);
    tree.show();
    settled();
    const int width = tree.viewport()->width();
    const int label = QFontMetrics(Theme::words(12)).horizontalAdvance(longName);
    ASSERT_GT(label, width * 38 / 100) << "else this shows nothing";
    EXPECT_GE(tree.columnWidth(0), label + tree.indentation() + 6) << "whole";
    EXPECT_GE(tree.columnWidth(1), width / 4) << "what is typed keeps a quarter";
    EXPECT_LE(tree.columnWidth(0) + tree.columnWidth(1) + tree.columnWidth(2), width);
    b.session.apply(setValue("/dimensions/0/name", "\"rail\""));
    ASSERT_TRUE(b.session.waitUntilAtRest(20000));
    settled();
    EXPECT_EQ(tree.columnWidth(0), width * 38 / 100) << "short names take no more than their share";
}

} // namespace
} // namespace slab::ui
