#include "shared/table.h"

#include <gtest/gtest.h>

#include <sstream>
#include <string>

namespace cospot {
namespace {

const std::vector<TableColumn> kColumns{{"peak", true}, {"tR", true}, {"area", false}};

/// The message of the first error in reading the table to its end.
std::string table_message_of(const std::string &text) {
    std::istringstream in(text);
    try {
        TableReader table(in, "peaks.csv", kColumns);
        while (table.next()) {
            (void)table.required_text("peak", "a name");
            (void)table.number("tR", "a time in min");
            (void)table.optional_number("area", "an area");
        }
    } catch (const InputError &error) {
        return error.what();
    }
    return "no error";
}

TEST(TableReader, FindsColumnsInAnyOrderAndCase) {
    std::istringstream in("AREA, tr ,Peak\n5,1.5,one\n");
    TableReader table(in, "f", kColumns);
    ASSERT_TRUE(table.next());
    EXPECT_EQ(table.text("peak"), "one");
    EXPECT_EQ(table.number("tR", ""), 1.5);
    EXPECT_EQ(table.optional_number("area", ""), 5.0);
    EXPECT_FALSE(table.next());
}

TEST(TableReader, AbsentOptionalColumnIsEmpty) {
    std::istringstream in("peak,tR\n1,2\n");
    TableReader table(in, "f", kColumns);
    ASSERT_TRUE(table.next());
    EXPECT_FALSE(table.has("area"));
    EXPECT_EQ(table.optional_number("area", ""), std::nullopt);
}

TEST(TableReader, TellsUnusedColumns) {
    std::istringstream in("peak,tR,colour,\n");
    const TableReader table(in, "f", kColumns);
    EXPECT_EQ(table.unused(), std::vector<std::string>{"colour"});
}

TEST(TableReader, NamesFileLineColumnFoundAndExpected) {
    EXPECT_EQ(table_message_of("peak,tR\n1,2.5\n2,abc\n"),
              "peaks.csv:3, column tR: found \"abc\"; expected a time in min");
    EXPECT_EQ(table_message_of("peak,tR\n,2.5\n"),
              "peaks.csv:2, column peak: found nothing; expected a name");
}

TEST(TableReader, NamesDecimalComma) {
    EXPECT_EQ(table_message_of("peak;tR\n1;2,5\n"),
              "peaks.csv:2, column tR: found \"2,5\" with a decimal "
              "comma; expected a time in min, written with a "
              "decimal point");
}

TEST(TableReader, RefusesEmptyFileMissingAndDoubleColumns) {
    EXPECT_NE(table_message_of("").find("peaks.csv:1: found an empty file"), std::string::npos);
    EXPECT_NE(table_message_of("\n\n").find("an empty file"), std::string::npos);
    EXPECT_NE(table_message_of("peak,area\n").find("column tR: found a header without it"),
              std::string::npos);
    EXPECT_NE(table_message_of("peak,tR,tr\n").find("the column twice"), std::string::npos);
}

TEST(TableReader, RefusesRowsOfAnotherLength) {
    EXPECT_NE(table_message_of("peak,tR\n1,2,5\n").find("peaks.csv:2: found 3 fields"),
              std::string::npos);
    EXPECT_NE(table_message_of("peak,tR\n1\n").find("found 1 fields"), std::string::npos);
}

} // namespace
} // namespace cospot
