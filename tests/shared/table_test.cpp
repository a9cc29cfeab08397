#include "shared/table.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

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
    EXPECT_EQ(table.notes(), std::vector<std::string>{"column \"colour\" is not used"});
}

TEST(TableReader, NamesFileLineColumnFoundAndExpected) {
    EXPECT_EQ(table_message_of("peak,tR\n1,2.5\n2,abc\n"),
              "peaks.csv:3, column tR: found \"abc\"; expected a time in min");
    EXPECT_EQ(table_message_of("peak,tR\n,2.5\n"),
              "peaks.csv:2, column peak: found nothing; expected a name");
}

/// The numbers of column distance_mm in a table with the columns lane and `header`.
std::vector<double> distances_in(const std::string &text,
                                 const std::vector<ColumnAlias> &aliases = {},
                                 std::vector<std::string> *notes = nullptr) {
    std::istringstream in(text);
    TableReader table(in, "plate.csv", {{"lane", true}, {"distance_mm", true}, {"role", false}},
                      aliases);
    std::vector<double> numbers;
    for_each_row(table, [&] { numbers.push_back(table.number("distance_mm", "a distance")); });
    if (notes != nullptr) {
        *notes = table.notes();
    }
    return numbers;
}

std::string fault_of(const std::string &text, const std::vector<ColumnAlias> &aliases = {}) {
    try {
        (void)distances_in(text, aliases);
    } catch (const InputError &error) {
        return error.what();
    }
    return "no error";
}

TEST(TableReader, TakesADecimalCommaWhereItDividesNoFields) {
    std::vector<std::string> notes;
    EXPECT_EQ(distances_in("lane;distance_mm\n1;2,5\n2;-1,25e1\n3;7\n", {}, &notes),
              (std::vector<double>{2.5, -12.5, 7.0}));
    ASSERT_EQ(notes.size(), 1U);
    EXPECT_NE(notes[0].find("a comma is read as the decimal sign (line 2)"), std::string::npos);
    EXPECT_EQ(distances_in("lane\tdistance_mm\n1\t2,5\n"), std::vector<double>{2.5});
    EXPECT_EQ(distances_in("lane;distance_mm\n1;2.5\n"), std::vector<double>{2.5});
    EXPECT_NE(fault_of("lane,distance_mm\n1,\"2,5\"\n").find("with a decimal comma"),
              std::string::npos);
}

/// Else 1,234 would be read as 1.234 beside 987.5.
TEST(TableReader, TakesOneDecimalSignOnly) {
    EXPECT_NE(fault_of("lane;distance_mm\n1;2,5\n2;2.5\n").find("a decimal comma as in line 2"),
              std::string::npos);
    EXPECT_NE(fault_of("lane;distance_mm\n1;2.5\n2;1,5\n").find("a decimal point as in line 2"),
              std::string::npos);
    EXPECT_NE(fault_of("lane;distance_mm\n1;2,5\n2;1.234\n").find("can be told only beside"),
              std::string::npos);
}

TEST(TableReader, ReadsSignsBetweenThousandsAndSaysSo) {
    std::vector<std::string> notes;
    EXPECT_EQ(distances_in("lane;distance_mm\n1;5,180\n2;1.112,400\n3;1 112,4\n", {}, &notes),
              (std::vector<double>{5.18, 1112.4, 1112.4}));
    ASSERT_EQ(notes.size(), 2U);
    EXPECT_EQ(notes[1], "a sign or blank between thousands is passed over (line 3)");
    EXPECT_EQ(distances_in("lane,distance_mm\n1,\"1,112.4\"\n"), std::vector<double>{1112.4});
    EXPECT_NE(fault_of("lane,distance_mm\n1,\"1.112,4\"\n").find("\"1.112,4\""), std::string::npos);
}

TEST(TableReader, PassesOverARowOfSumsAndSaysSo) {
    std::istringstream in("run,peak,tR,area\na,1,2.5,3\nSumme,,,3\nTotal:,,,3\nSum,1,2.5,4\n");
    TableReader table(in, "f", {{"run"}, {"peak", true}, {"tR", true}, {"area"}});
    std::vector<double> areas;
    while (table.next()) {
        areas.push_back(table.number("area", ""));
    }
    EXPECT_EQ(areas, (std::vector<double>{3.0, 4.0})); // a run may be called Sum
    EXPECT_EQ(table.notes(), std::vector<std::string>{"2 rows of sums left out (lines 3, 4)"});
}

/// The areas that are read, and the notes.
std::pair<std::vector<double>, std::vector<std::string>> areas_of(const std::string &rows) {
    std::istringstream in("run;name;tR;area;remark\n" + rows);
    TableReader table(in, "f", {{"run"}, {"name"}, {"tR", true}, {"area"}});
    std::vector<double> areas;
    while (table.next()) {
        areas.push_back(table.number("area", ""));
    }
    return {areas, table.notes()};
}

TEST(TableReader, KnowsARowOfSumsByItsWordWhereverItStands) {
    for (const std::string sum :
         {"a;Summe;;7;", "a;;;7;Total", "a;Sum:;-;7;", ";;;7;gesamt", "a;total;;7", "a;;Sum;7;",
          ";;Sum;7;", "12.03.2024;Total;;7;100,0 %"}) {
        const auto [areas, notes] = areas_of("a;x;2,5;3;\n" + sum + "\nb;y;2,5;4;\n");
        EXPECT_EQ(areas, (std::vector<double>{3.0, 4.0})) << sum;
        EXPECT_EQ(notes.back(), "1 row of sums left out (line 3)") << sum;
    }
}

TEST(TableReader, ANumberAloneBehindThePeaksIsASum) {
    const auto [areas, notes] = areas_of("a;x;2,5;3;\n;;;7,5;\n");
    EXPECT_EQ(areas, std::vector<double>{3.0});
    EXPECT_EQ(notes.back(), "1 row of sums left out (line 3)");
}

TEST(TableReader, ATextAloneIsARemarkAndIsNamed) {
    for (const std::string remark :
         {"Remark: vial 12 capped again;;;;", ";;;;capped again", "Remark: vial 12 capped again",
          ";integrated by hand, see log;;;"}) {
        const auto [areas, notes] = areas_of("a;x;2,5;3;\n" + remark + "\n");
        EXPECT_EQ(areas, std::vector<double>{3.0}) << remark;
        EXPECT_EQ(notes.back().find("1 row left out, a text without any number: line 3, "), 0U)
            << notes.back();
    }
}

TEST(TableReader, LosesNoMeasuredRowAsSumOrRemark) {
    for (const std::string row :
         {"a;x;;7;", ";acetone;;;", "a;;;7;8 x", "a;Summe;;7;see page 3", "a;;;;", "a;x;2,5"}) {
        std::istringstream in("run;name;tR;area;remark\na;z;2,5;3;\n" + row + "\n");
        TableReader table(in, "f", {{"run"}, {"name"}, {"tR", true}, {"area"}});
        ASSERT_TRUE(table.next());
        try {
            EXPECT_TRUE(table.next()) << row; // then the reader finds no time
            EXPECT_TRUE(table.text("tR").empty()) << row;
        } catch (const InputError &error) {
            EXPECT_EQ(error.where().line, 3U) << row;
        }
    }
}

TEST(TableReader, ProposesWhatAHeaderUsuallyMeans) {
    EXPECT_NE(
        table_message_of("peak,Ret. Time [min]\n").find("perhaps --map tR=\"Ret. Time [min]\""),
        std::string::npos);
    std::istringstream in("peak,tR,Area [pA*s]\n");
    const TableReader table(in, "f", kColumns);
    EXPECT_EQ(table.notes(),
              std::vector<std::string>{
                  "column \"Area [pA*s]\" is not used; --map area=\"Area [pA*s]\" reads it"});
}

TEST(TableReader, OfSeveralHeadersForOneColumnTakesTheOneThatIsThere) {
    const std::vector<ColumnAlias> both{{"tR", "RT"}, {"tR", "Time"}};
    for (const char *header : {"peak,RT\n1,2.5\n", "peak,Time\n1,2.5\n"}) {
        std::istringstream in(header);
        TableReader table(in, "f", kColumns, both);
        ASSERT_TRUE(table.next());
        EXPECT_EQ(table.number("tR", ""), 2.5) << header;
        EXPECT_TRUE(table.notes().empty()) << header;
    }
    std::istringstream in("peak,RT,Time\n1,2.5,3\n");
    EXPECT_THROW((TableReader(in, "f", kColumns, both)), InputError);
}

TEST(TableReader, ConvertsTheUnitThatTheHeaderSays) {
    std::vector<std::string> notes;
    EXPECT_EQ(distances_in("lane,Distance (cm)\n1,2.5\n", {}, &notes), std::vector<double>{25.0});
    EXPECT_EQ(notes, std::vector<std::string>{
                         "column \"Distance (cm)\" is read in cm and converted to mm"});
    EXPECT_EQ(distances_in("lane,distance/mm\n1,2.5\n"), std::vector<double>{2.5});
    EXPECT_NE(fault_of("lane,distance\n1,2.5\n").find("found a column without its unit"),
              std::string::npos);
    EXPECT_NE(fault_of("lane,distance (s)\n1,2.5\n").find("found a column in s"),
              std::string::npos);
    EXPECT_NE(fault_of("lane,distance_mm\n1,7.2 cm\n").find("\"7.2 cm\""), std::string::npos);
}

TEST(TableReader, TakesTheUsersNamesOfColumnsWithTheirUnits) {
    const std::string text = "Bahn,Weg\n1,2.5\n";
    EXPECT_EQ(distances_in(text, {{"lane", "Bahn"}, {"distance_mm", "Weg"}}),
              std::vector<double>{2.5});
    EXPECT_EQ(distances_in(text, {{"lane", "Bahn"}, {"distance_cm", "Weg"}}),
              std::vector<double>{25.0});
    EXPECT_EQ(
        distances_in("Bahn,Weg (cm)\n1,2.5\n", {{"lane", "Bahn"}, {"distance_mm", "Weg (cm)"}}),
        std::vector<double>{25.0});
    // A name for another of several tables: the own one is read, and it is said.
    std::vector<std::string> notes;
    EXPECT_EQ(distances_in("lane,distance_mm\n1,2.5\n",
                           {{"lane", "Bahn"}, {"front_mm", "Front"}, {"role", "Rolle"}}, &notes),
              std::vector<double>{2.5});
    EXPECT_EQ(notes, std::vector<std::string>{"--map: there is no column \"Rolle\" for role"});
    (void)distances_in("lane,distance_mm\n1,2.5\n", {{"colour", "lane"}}, &notes);
    EXPECT_EQ(notes,
              std::vector<std::string>{"--map: no column \"colour\" is read from this table"});
}

TEST(TableReader, TellsAllFaultsOfAFileAtOnce) {
    std::string text = "lane,distance_mm\n1,x\n2,2.5\n3,y\n4\n";
    EXPECT_EQ(fault_of(text), "3 faults\n"
                              "plate.csv:2, column distance_mm: found \"x\"; expected a distance\n"
                              "plate.csv:4, column distance_mm: found \"y\"; expected a distance\n"
                              "plate.csv:5: found 1 fields; expected 2 fields as in the header (a "
                              "decimal comma, or a delimiter inside a text, must stand in quotes)");
    EXPECT_NE(
        fault_of(text + "5,y\n6,y\n").find("found \"y\"; expected a distance (and in lines 6, 7)"),
        std::string::npos)
        << "those that differ by their lines alone are told once";
    for (int i = 0; i < 40; ++i) {
        text += "5,z" + std::to_string(i) + "\n";
    }
    const std::string many = fault_of(text);
    EXPECT_EQ(std::count(many.begin(), many.end(), '\n'), 20);
    EXPECT_NE(many.find("43 faults, the first 20\n"), std::string::npos);
}

TEST(TableReader, TellsAllFaultsOfARowAtOnce) {
    std::istringstream in("lane,distance_mm,front_mm\n,x,-1\n2,,80\n3,2,80\n");
    TableReader table(in, "plate.csv",
                      {{"lane", true}, {"distance_mm", true}, {"front_mm", false}});
    std::vector<double> read;
    try {
        for_each_row(table, [&] {
            (void)table.required_text("lane", "a lane");
            const double distance = table.number("distance_mm", "a distance");
            (void)table.optional_amount("front_mm", "a front");
            // What follows from a fault of the same column is not told.
            table.keep_fault([&] {
                if (!(distance > 0.0)) {
                    throw InputError(table.where("distance_mm"), "NaN", "above 0");
                }
            });
            read.push_back(distance);
        });
        FAIL() << "no error";
    } catch (const InputError &error) {
        EXPECT_EQ(error.heading(), "4 faults");
        ASSERT_EQ(error.each().size(), 4U);
        EXPECT_STREQ(error.each()[0].what(),
                     "plate.csv:2, column lane: found nothing; expected a lane");
        EXPECT_EQ(error.each()[1].where().column, "distance_mm");
        EXPECT_EQ(error.each()[1].found(), "\"x\"");
        EXPECT_EQ(error.each()[2].where().column, "front_mm");
        EXPECT_EQ(error.each()[3].where().line, 3U);
    }
    EXPECT_EQ(read.back(), 2.0);
}

/// Also where rows are not read through for_each_row.
TEST(TableReader, NextLosesNoFaultOfTheRowBefore) {
    std::istringstream in("lane\nx\n");
    TableReader table(in, "plate.csv", {{"lane", true}});
    ASSERT_TRUE(table.next());
    EXPECT_TRUE(std::isnan(table.number("lane", "a number")));
    EXPECT_THROW((void)table.next(), InputError);
    EXPECT_FALSE(table.next());
}

/// Whose row it is cannot be told, so the row before must not be taken for it.
TEST(TableReader, ARowThatCannotBeDividedHasNoFields) {
    for (const std::string row : {"2", "2,1,1", "2,\x81"}) {
        std::istringstream in("distance_mm,lane\n7,1\n" + row + "\n");
        TableReader table(in, "plate.csv", {{"distance_mm", true}, {"lane", true}});
        ASSERT_TRUE(table.next());
        EXPECT_EQ(table.text("lane"), "1");
        EXPECT_THROW((void)table.next(), InputError);
        EXPECT_EQ(table.text("lane"), "") << row;
    }
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
