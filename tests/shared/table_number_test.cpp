#include "shared/table_number.h"

#include <gtest/gtest.h>

#include <optional>
#include <string>
#include <tuple>
#include <vector>

namespace cospot {
namespace {

std::optional<double> value_of(const std::string &text) {
    const auto written = written_number(text);
    return written ? std::optional(written->value) : std::nullopt;
}

TEST(WrittenNumber, TellsThousandsWhereBothSignsOrBlanksOrSeveralGroupsTellThem) {
    const std::vector<std::tuple<std::string, double, char>> numbers{
        {"1.112,400", 1112.4, ','},
        {"1,112.400", 1112.4, '.'},
        {"1 112,4", 1112.4, ','},
        {"1 112", 1112.0, '\0'},
        {"1\u00a0112,4", 1112.4, ','},
        {"1\u202f112", 1112.0, '\0'},
        {"-12.345.678,5", -12345678.5, ','},
        {"1.112.400", 1112400.0, ','},
        {"1,112,400", 1112400.0, '.'}};
    for (const auto &[text, value, decimal] : numbers) {
        EXPECT_EQ(value_of(text), value) << text;
        ASSERT_TRUE(written_number(text)) << text;
        EXPECT_EQ(written_number(text)->decimal, decimal) << text;
        EXPECT_TRUE(written_number(text)->has_groups) << text;
    }
}

/// A laboratory in which 1.240 ppm are 1240 must not be told that they are 1.24, nor the reverse.
TEST(WrittenNumber, OneSignAloneIsTheDecimalSign) {
    for (const auto &[text, value] : {std::pair("1.240", 1.24), std::pair("1,240", 1.24),
                                      std::pair("-0,5e3", -500.0), std::pair("7", 7.0)}) {
        EXPECT_EQ(value_of(text), value) << text;
        EXPECT_FALSE(written_number(text)->has_groups) << text;
    }
}

TEST(WrittenNumber, GroupsAreOfThree) {
    for (const char *text : {"1.12,4", "12.3456,7", "1 12", "1234.567,8", ".112,4", "1,1.2",
                             "1.2.3", "1.112,4.5", "1 112.400,5", "- 112,4", "x1 112", ""}) {
        EXPECT_FALSE(written_number(text)) << text;
    }
}

TEST(DecimalSign, OfATableIsOne) {
    DecimalSign sign;
    std::string contradiction;
    EXPECT_EQ(sign.read(*written_number("5,180"), 2, contradiction), 5.18);
    EXPECT_EQ(sign.read(*written_number("1.112,400"), 3, contradiction), 1112.4);
    EXPECT_EQ(contradiction, "");
    EXPECT_EQ(sign.read(*written_number("1.240"), 4, contradiction), std::nullopt);
    EXPECT_EQ(contradiction, "a decimal comma as in line 2");
    EXPECT_EQ(sign.line_with_comma(), 2U);
    EXPECT_EQ(sign.line_with_groups(), 3U);
}

} // namespace
} // namespace cospot
