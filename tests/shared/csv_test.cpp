#include "shared/csv.h"

#include <gtest/gtest.h>

#include <sstream>
#include <string>
#include <vector>

namespace cospot {
namespace {

using Records = std::vector<std::vector<std::string>>;

Records read(const std::string &text) {
    std::istringstream in(text);
    CsvReader reader(in, "file.csv");
    Records records;
    while (reader.next()) {
        records.push_back(reader.fields());
    }
    return records;
}

std::string message_of(const std::string &text) {
    try {
        (void)read(text);
    } catch (const InputError &error) {
        return error.what();
    }
    return "no error";
}

TEST(CsvReader, ReadsCommaSemicolonAndTab) {
    const Records expected{{"a", "b"}, {"1", "2"}};
    EXPECT_EQ(read("a,b\n1,2\n"), expected);
    EXPECT_EQ(read("a;b\n1;2\n"), expected);
    EXPECT_EQ(read("a\tb\n1\t2\n"), expected);
}

TEST(CsvReader, ReadsAllLineEndsAndNoLastOne) {
    const Records expected{{"a", "b"}, {"1", "2"}};
    EXPECT_EQ(read("a,b\r\n1,2\r\n"), expected);
    EXPECT_EQ(read("a,b\r1,2\r"), expected);
    EXPECT_EQ(read("a,b\n1,2"), expected);
}

TEST(CsvReader, DropsByteOrderMark) {
    EXPECT_EQ(read("\xEF\xBB\xBF"
                   "a,b\n")[0][0],
              "a");
}

TEST(CsvReader, KeepsDelimitersQuotesAndLineEndsInsideQuotes) {
    // rfc4180, section 2, examples of rules 6 and 7, from memory.
    EXPECT_EQ(read("\"aaa\",\"b\nbb\",\"ccc\"\n"), (Records{{"aaa", "b\nbb", "ccc"}}));
    EXPECT_EQ(read("\"aaa\",\"b\"\"bb\",\"ccc\"\n"), (Records{{"aaa", "b\"bb", "ccc"}}));
    EXPECT_EQ(read("\"1,2\",3\n"), (Records{{"1,2", "3"}}));
}

TEST(CsvReader, PassesOverBlankLinesButCountsThem) {
    std::istringstream in("a,b\n\n , \n1,2\n");
    CsvReader reader(in, "f");
    ASSERT_TRUE(reader.next());
    ASSERT_TRUE(reader.next());
    EXPECT_EQ(reader.line(), 4U);
}

TEST(CsvReader, TellsDelimiterFromHeaderOnly) {
    EXPECT_EQ(read("a;b\n1,5;2,5\n"), (Records{{"a", "b"}, {"1,5", "2,5"}}));
}

TEST(CsvReader, RefusesWhatIsNoText) {
    EXPECT_NE(
        message_of(std::string("a,b\n1,\x81\n")).find("file.csv:2, column 3: found byte 0x81"),
        std::string::npos);
    EXPECT_NE(message_of(std::string("a,b\n1\0,2\n", 10)).find("byte 0x00"), std::string::npos);
    EXPECT_NE(message_of("a,\"b\n1,2\n").find("never closed"), std::string::npos);
}

TEST(CsvReader, RefusesEndlessLine) {
    EXPECT_NE(message_of(std::string(2U << 20U, 'x')).find("more than 1 MiB"), std::string::npos);
}

TEST(CsvField, ReadsBackAsWritten) {
    for (const std::string text : {"plain", "a,b", "say \"x\"", "two\nlines", "a;b", ""}) {
        const Records records = read("name,other\n" + csv_field(text) + ",1\n");
        EXPECT_EQ(records.at(1).at(0), text);
    }
}

TEST(CsvField, DisarmsSpreadsheetFormulas) {
    EXPECT_EQ(csv_field("=1+1"), "'=1+1");
    EXPECT_EQ(csv_field("@x"), "'@x");
    for (const char *text : {"\n=x", "\tx"}) {
        const std::string cell = read("a,b\n" + csv_field(text) + ",1\n").at(1).at(0);
        EXPECT_EQ(cell, std::string("'") + text);
        EXPECT_EQ(without_guard(cell), text);
    }
    EXPECT_EQ(csv_field("a=b"), "a=b");
    for (const char *text : {"=1+1", "'=x", "''-y", "'plain", "-3"}) {
        EXPECT_EQ(without_guard(csv_field(text)), text);
    }
}

} // namespace
} // namespace cospot
