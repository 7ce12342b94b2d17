// The tables of body sizes against copies of what they were taken from: percentiles computed from the public
// records of ANSUR II (Natick/TR-15/007) and of Snyder et al. 1977 (UM-HSRI-77-17), linear interpolation.
#include "core/donor/rider.h"
#include "core/donor/rider_table.h"
#include <fstream>
#include <gmock/gmock.h>
#include <sstream>

namespace slab {
namespace {

std::vector<std::vector<std::string>> rowsOf(const std::string& file) {
    std::ifstream in(std::string(SLABSIDE_SOURCE_DIR) + "/tests/donor/" + file);
    EXPECT_TRUE(in.good()) << file;
    std::vector<std::vector<std::string>> rows;
    std::string line;
    std::getline(in, line); // names of the columns
    while (std::getline(in, line)) {
        std::istringstream fields(line);
        rows.emplace_back();
        for (std::string field; std::getline(fields, field, ',');) rows.back().push_back(field);
    }
    return rows;
}

TEST(BodyTables, AdultsEqualTheirSource) {
    const auto rows = rowsOf("ansur_percentiles.csv");
    ASSERT_EQ(rows.size(), 2 * adultRows().size());
    for (const auto& row : rows) {
        ASSERT_EQ(row.size(), 2 + adultPercentiles.size());
        const BodyTable table{false, row[0], 0};
        for (std::size_t i = 0; i < adultPercentiles.size(); ++i)
            EXPECT_EQ(table.at(row[1], adultPercentiles[i]), std::stod(row[i + 2]))
                << row[0] << ", " << row[1] << " at " << adultPercentiles[i];
    }
}

TEST(BodyTables, ChildrenEqualTheirSource) {
    const auto rows = rowsOf("snyder1977_percentiles.csv");
    ASSERT_EQ(rows.size(), childRows().size());
    for (const auto& row : rows) {
        ASSERT_EQ(row.size(), 4 + childPercentiles.size());
        const BodyTable table{true, row[2], std::stod(row[0])};
        for (std::size_t i = 0; i < childPercentiles.size(); ++i)
            EXPECT_EQ(table.at(row[3], childPercentiles[i]), std::stod(row[i + 4]))
                << row[0] << ", " << row[2] << ", " << row[3] << " at " << childPercentiles[i];
    }
}

// A summary of the same records by others prints 246.47 mm as the mean abdominal extension depth, sitting, of
// all 4,082 men and 1,986 women. The mean is the area under the percentiles; beyond the first and last they
// are taken as level.
TEST(BodyTables, TheMeanDepthIsTheOnePrintedElsewhere) {
    const auto meanOf = [](const char* sex) {
        const BodyTable table{false, sex, 0};
        double sum = 0.01 * (table.at("abdomen depth", 1) + table.at("abdomen depth", 99));
        for (std::size_t i = 0; i + 1 < adultPercentiles.size(); ++i)
            sum += (adultPercentiles[i + 1] - adultPercentiles[i]) / 200 *
                   (table.at("abdomen depth", adultPercentiles[i]) +
                    table.at("abdomen depth", adultPercentiles[i + 1]));
        return sum;
    };
    EXPECT_NEAR((4082 * meanOf("male") + 1986 * meanOf("female")) / (4082 + 1986), 246.47, 0.3);
}

TEST(BodyTables, PercentilesOfSizesInvertTheTables) {
    for (const bool child : {false, true})
        for (const char* sex : {"female", "male", "both"}) {
            const BodyTable table{child, sex, 8};
            for (const std::string& name : table.dimensions())
                for (const double p : {5.0, 12.5, 50.0, 83.0, 95.0})
                    EXPECT_NEAR(table.percentileOf(name, table.at(name, p)), p, 1e-6) << sex << " " << name;
        }
}

/// Range of a size over stature that the table's own percentiles span.
std::pair<double, double> spanOf(const BodyTable& table, const std::string& name) {
    double low = 1e9, high = 0;
    for (double p = table.lowest(); p <= table.highest(); p += 1) {
        const double share = table.at(name, p) / table.at("stature", p);
        low = std::min(low, share);
        high = std::max(high, share);
    }
    return {low, high};
}

// Lengths never leave that span. What goes loosely with stature leaves it by less than 4 %, all of it of slim
// tall and stout short ones: people of one percentile in everything are a narrower lot than people are.
TEST(ByStature, ProportionsStayWithinWhatTheTableSpans) {
    for (const bool child : {false, true})
        for (const char* sex : {"female", "male", "both"})
            for (const double age : {4.0, 8.0, 12.0}) {
                const BodyTable table{child, sex, age};
                for (const std::string& name : table.dimensions()) {
                    if (name == "stature") continue;
                    const bool strict = name.find("height") != std::string::npos || name == "mass" ||
                                        name == "buttock-knee length" || name == "foot length";
                    const double slack = strict ? 1e-9 : 0.04;
                    const auto [low, high] = spanOf(table, name);
                    for (const double p : {5.0, 25.0, 50.0, 75.0, 95.0}) {
                        const double stature = table.at("stature", p);
                        const double share = sizeByStature(table, name, stature) / stature;
                        EXPECT_GE(share, low * (1 - slack)) << sex << " " << name << " " << p << " " << age;
                        EXPECT_LE(share, high * (1 + slack)) << sex << " " << name << " " << p << " " << age;
                    }
                }
            }
}

TEST(ByStature, LengthsKeepInProportionAndBreadthsAreNoExtremes) {
    const BodyTable men{false, "male", 0};
    for (const double stature : {1601.6, 1755.0, 1927.0, 2050.0}) {
        EXPECT_NEAR(sizeByStature(men, "stature", stature), stature, 1e-9);
        EXPECT_NEAR(sizeByStature(men, "sitting height", stature) / stature, 918.0 / 1755, 1e-9);
        EXPECT_NEAR(sizeByStature(men, "knee height", stature) / stature, 553.0 / 1755, 1e-9);
    }
    // z of the 95th percentile is 1.645; 0.4 z lies at the 74.5th, 0.5 z at the 79.5th (normal distribution).
    EXPECT_NEAR(men.percentileOf("hip breadth", sizeByStature(men, "hip breadth", 1870)), 74.5, 0.1);
    EXPECT_NEAR(men.percentileOf("mass", sizeByStature(men, "mass", 1870)), 79.5, 0.1);
    EXPECT_NEAR(sizeByStature(men, "hip breadth", 1755), 378, 1e-6);
}

TEST(ByStature, BeyondTheTableMassGoesOnWithTheSquare) { // constant body mass index: common practice
    for (const BodyTable& table : {BodyTable{false, "male", 0}, BodyTable{true, "both", 4}}) {
        const double last = table.at("stature", table.highest()), first = table.at("stature", table.lowest());
        for (const double end : {first, last}) {
            const double mass = sizeByStature(table, "mass", end),
                         hips = sizeByStature(table, "hip breadth", end);
            const double f = end == last ? 1.2 : 0.8;
            EXPECT_NEAR(sizeByStature(table, "mass", f * end), f * f * mass, 1e-6 * mass);
            EXPECT_NEAR(sizeByStature(table, "hip breadth", f * end), std::sqrt(f) * hips, 1e-6 * hips);
        }
    }
}

} // namespace
} // namespace slab
