// The readings of the measuring sheet in the table of the donor.
#include "core/document/fields.h"
#include "core/donor/donor.h"
#include "core/donor/measuring.h"
#include "tests/ui_shell/table_bench.h"
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

using test::TableBench;

Project chairProject() {
    Project p;
    p.donor.kind = "powered_chair";
    return p;
}

TEST(MeasuresTable, OffersEveryReadingWithItsLetterAndGenericValue) {
    TableBench bench(chairProject());
    for (const Measure& m : measuringSheet("powered_chair"))
        EXPECT_EQ(bench.shown("/donor/measures/" + m.name, DocumentModel::what).toStdString(),
                  m.letter + "  " + m.words);
    EXPECT_EQ(bench.shown("/donor/measures/floor_to_seat", DocumentModel::builds), "480 mm");
    EXPECT_EQ(bench.shown("/donor/measures/mass", DocumentModel::builds), "110") << "kg, no length";
    EXPECT_TRUE(bench.session.project().donor.measures.empty());
}

TEST(MeasuresTable, AReadingTypedChangesTheSizeAndTheDonor) {
    TableBench bench(chairProject());
    ASSERT_TRUE(bench.set("/donor/measures/floor_to_seat", "20 in"));
    ASSERT_TRUE(bench.session.waitUntilAtRest(20000));
    ASSERT_EQ(bench.session.project().donor.measures.size(), 1U);
    EXPECT_EQ(bench.session.project().donor.measures[0].name, "floor_to_seat");
    EXPECT_EQ(bench.shown("/donor/measures/floor_to_seat", DocumentModel::builds), "508 mm");
    ASSERT_TRUE(bench.set("/donor/measures/floor_to_seat", ""));
    EXPECT_TRUE(bench.session.project().donor.measures.empty());
}

// Seat, back and armrest, each from the floor and from each other: one of six is wrong by 30 mm.
TEST(MeasuresTable, EveryReadingShowsItsResidual) {
    Project p = chairProject();
    p.donor.measures = {{"floor_to_seat", "480 mm"},       {"floor_to_back_top", "1000 mm"},
                        {"floor_to_armrest", "740 mm"},    {"seat_to_back_top", "520 mm"},
                        {"back_top_to_armrest", "290 mm"}, {"armrest_to_seat", "230 mm"}};
    TableBench bench(p);
    ASSERT_TRUE(bench.session.waitUntilAtRest(20000));
    EXPECT_EQ(bench.shown("/donor/measures/floor_to_armrest", DocumentModel::builds),
              "left out: the others make it 710 mm");
    EXPECT_EQ(bench.shown("/donor/measures/floor_to_seat", DocumentModel::builds), "off by 0 mm");
    EXPECT_FALSE(bench.shown("/donor/measures/floor_to_seat", DocumentModel::what).contains("off by"))
        << "a name stays a name";
    const QString tip =
        bench.cell("/donor/measures/floor_to_armrest").second.data(Qt::ToolTipRole).toString();
    EXPECT_TRUE(tip.contains("armrest") && tip.contains("left out: the others make it 710 mm"))
        << tip.toStdString();
}

TEST(MeasuresTable, WhatIsOnlyOfferedIsNotCountedAsMeasured) {
    TableBench bench(chairProject());
    const auto count = measuringSheet("powered_chair").size();
    EXPECT_EQ(bench.shown("/donor/measures", DocumentModel::typed),
              QString("%1 to measure, none typed in").arg(count));
    ASSERT_TRUE(bench.set("/donor/measures/floor_to_seat", "20 in"));
    ASSERT_TRUE(bench.session.waitUntilAtRest(20000));
    EXPECT_EQ(bench.shown("/donor/measures", DocumentModel::typed), QString("1 of %1 typed in").arg(count));
}

TEST(MeasuresTable, AReadingByItsLetterKeepsTheOneRow) {
    Project p = chairProject();
    p.donor.measures = {{"A", "600 mm"}};
    TableBench bench(p);
    const Measure first = measuringSheet("powered_chair").front();
    EXPECT_EQ(bench.shown("/donor/measures/A", DocumentModel::what).toStdString(), "A  " + first.words);
    EXPECT_EQ(bench.shown("/donor/measures/" + first.name, DocumentModel::what), "no such row");
}

TEST(MeasuresTable, RowsStayInTheSheetsOrder) {
    TableBench bench(chairProject());
    const auto sheet = measuringSheet("powered_chair");
    ASSERT_TRUE(bench.set("/donor/measures/" + sheet[4].name, "20 in"));
    ASSERT_TRUE(bench.session.waitUntilAtRest(20000));
    for (std::size_t i = 0; i < sheet.size(); ++i)
        EXPECT_EQ(bench.cell("/donor/measures/" + sheet[i].name).second.row(), static_cast<int>(i))
            << sheet[i].name;
}

TEST(MeasuresTable, AnAngleIsOfferedAsOne) {
    Project p = chairProject();
    p.donor.kind = "scooter";
    TableBench bench(p);
    EXPECT_EQ(bench.shown("/donor/changes/steering_lock", DocumentModel::builds), "45.0°");
    EXPECT_EQ(bench.shown("/donor/kind", DocumentModel::typed), "scooter, three wheels");
}

} // namespace
} // namespace slab::ui
