// Fields of lists by the rules of RFC 4180, section 2.
#include "core/base/csv.h"
#include <gtest/gtest.h>
#include <limits>

namespace slab {
namespace {

TEST(Csv, FieldsAreQuotedWhereTheStandardAsksForIt) {
    EXPECT_EQ(csvField("aaa"), "aaa");
    EXPECT_EQ(csvField(""), "");
    EXPECT_EQ(csvField("b CRLF\r\nbb"), "\"b CRLF\r\nbb\""); // rule 6
    EXPECT_EQ(csvField("b,b"), "\"b,b\"");
    EXPECT_EQ(csvField("b\"bb"), "\"b\"\"bb\""); // rule 7
}

TEST(Csv, NumbersHaveAPointAndTheirDecimals) {
    EXPECT_EQ(csvNumber(14.5, 2), "14.50");
    EXPECT_EQ(csvNumber(-0.25, 1), "-0.2"); // to even, as to_chars rounds
    EXPECT_EQ(csvNumber(1e300, 2), "");
}

} // namespace
} // namespace slab
