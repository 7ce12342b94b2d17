#include "core/donor/donor.h"
#include "core/units/units.h"
#include "tests/ui_shell/everything.h"
#include "tests/ui_shell/table_bench.h"
#include "ui/tables/table_tree.h"
#include <QMenu>
#include <QToolButton>
#include <gmock/gmock.h>

namespace slab::ui {
namespace {

using test::TableBench;

TableSection* sectionWith(LeftColumn& tables, const std::string& root) {
    for (TableSection* section : tables.sections())
        for (const std::string& own : section->spec().roots)
            if (own == root) return section;
    return nullptr;
}

/// Words of the menu behind a section's "+".
QStringList offered(TableSection& section) {
    QStringList words;
    for (QToolButton* button : section.findChildren<QToolButton*>())
        if (button->text() == "+" && button->menu()) {
            Q_EMIT button->menu()->aboutToShow();
            for (const QAction* action : button->menu()->actions())
                if (action->isEnabled()) words << action->text();
        }
    return words;
}

TEST(AddMenu, OffersEveryListOfASectionThoughNoRowIsChosen) {
    TableBench b(test::sample("moon-crawler"));
    TableSection* donor = sectionWith(b.tables, "/donor");
    ASSERT_NE(donor, nullptr);
    EXPECT_THAT(offered(*donor), testing::Contains(testing::ResultOf(
                                     [](const QString& w) { return w.contains("own solids"); }, true)))
        << offered(*donor).join("; ").toStdString();
    donor->addEntryTo("/donor/solids");
    ASSERT_EQ(b.session.project().donor.solids.size(), 1U);
    b.session.undo();
    EXPECT_TRUE(b.session.project().donor.solids.empty());
}

TEST(AddMenu, AGenericSizeIsAddedAsItIs) {
    Project blank;
    blank.donor.kind = "powered_chair";
    TableBench b(blank);
    TableSection* donor = sectionWith(b.tables, "/donor");
    ASSERT_NE(donor, nullptr);
    donor->addEntryTo("/donor/changes");
    ASSERT_EQ(b.session.project().donor.changes.size(), 1U);
    const std::vector<DonorSize> sizes = donorSizes("powered_chair");
    const NamedText added = b.session.project().donor.changes.front();
    EXPECT_EQ(added.name, sizes.front().name);
    EXPECT_EQ(parseLength(added.value, Unit::mm).value_or(-1), sizes.front().value) << added.value;
    // The chosen one, where one is chosen.
    ASSERT_TRUE(donor->reveal("/donor/changes/" + sizes[4].name));
    donor->addEntryHere();
    ASSERT_EQ(b.session.project().donor.changes.size(), 2U);
    EXPECT_EQ(b.session.project().donor.changes.back().name, sizes[4].name);
}

/// Every "+" of every table, at every row: it adds something, or at the least it is not refused.
TEST(AddMenu, NoEntryOfAnyMenuIsRefused) {
    Project blank;
    blank.donor.kind = "powered_chair";
    for (const Project& project : {blank, test::sample("moon-crawler"), test::everything()}) {
        TableBench b(project);
        QString refusal, where;
        QObject::connect(&b.session, &Session::refused,
                         [&](const Error& e) { refusal = QString::fromStdString(e.message); });
        int tried = 0;
        for (TableSection* section : b.tables.sections())
            for (QToolButton* button : section->findChildren<QToolButton*>()) {
                if (button->text() != "+" || !button->menu()) continue;
                for (const bool atLast : {false, true}) {
                    Q_EMIT button->menu()->aboutToShow();
                    const int count = static_cast<int>(button->menu()->actions().size());
                    for (int i = 0; i < count; ++i) {
                        const QModelIndex row =
                            section->model()->index(atLast ? section->model()->rowCount() - 1 : 0, 0);
                        section->tree()->setCurrentIndex(row);
                        Q_EMIT button->menu()->aboutToShow();
                        if (i >= button->menu()->actions().size()) continue;
                        QAction* action = button->menu()->actions().at(i);
                        refusal.clear();
                        action->trigger();
                        ++tried;
                        EXPECT_TRUE(refusal.isEmpty())
                            << section->spec().name.toStdString() << ": " << action->text().toStdString()
                            << ": " << refusal.toStdString();
                        while (b.session.history().canUndo()) b.session.undo();
                    }
                }
            }
        EXPECT_GT(tried, 10);
        EXPECT_EQ(b.session.project(), project);
    }
}

TEST(AddMenu, TheFirstSheetIsWhatEverythingIsCutFrom) {
    TableBench b(Project{});
    TableSection* stock = sectionWith(b.tables, "/stock/sheets");
    ASSERT_NE(stock, nullptr);
    stock->addEntryTo("/stock/sheets");
    ASSERT_EQ(b.session.project().stock.sheets.size(), 1U);
    EXPECT_EQ(b.session.project().materials.fallback, b.session.project().stock.sheets.front().name);
    stock->addEntryTo("/stock/sheets");
    ASSERT_EQ(b.session.project().stock.sheets.size(), 2U);
    EXPECT_EQ(b.session.project().materials.fallback, b.session.project().stock.sheets.front().name);
    b.session.undo();
    b.session.undo();
    EXPECT_EQ(b.session.project(), Project{});
}

TEST(Names, AnEmptiedNameIsKeptAsItWas) {
    TableBench b(test::sample("moon-crawler"));
    const Project before = b.session.project();
    const auto [model, at] = b.cell("/forms/1", DocumentModel::what);
    ASSERT_NE(model, nullptr);
    EXPECT_FALSE(model->setData(at, "  "));
    EXPECT_EQ(b.session.project(), before);
}

TEST(Rows, OneRowIsChosenInAllTablesTogether) {
    TableBench b(test::sample("moon-crawler"));
    TableSection *forms = sectionWith(b.tables, "/forms"), *stock = sectionWith(b.tables, "/stock/sheets");
    ASSERT_TRUE(forms->reveal("/forms/0"));
    ASSERT_TRUE(stock->reveal("/stock/sheets/0"));
    EXPECT_FALSE(forms->tree()->selectionModel()->hasSelection());
    EXPECT_TRUE(stock->tree()->selectionModel()->hasSelection());
}

} // namespace
} // namespace slab::ui
