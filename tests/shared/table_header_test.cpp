// Which line of a table is its header, and what it names.
#include "shared/table.h"

#include <gtest/gtest.h>

#include <memory>
#include <sstream>
#include <string>
#include <vector>

namespace cospot {
namespace {

const std::vector<TableColumn> kPlate{{"lane", true}, {"distance_mm"}, {"Rf"}, {"label"}, {"role"}};
const std::vector<std::vector<std::string>> kPlaces{{"distance_mm"}, {"Rf"}};

struct ReadTable {
    std::vector<std::string> lanes;
    std::vector<std::string> labels;
    std::vector<std::string> notes;
    std::string fault;
};

ReadTable table_of(const std::string &text, const std::vector<ColumnAlias> &aliases = {}) {
    std::istringstream in(text);
    ReadTable result;
    try {
        TableReader table(in, "plate.csv", kPlate, aliases, kPlaces);
        while (table.next()) {
            result.lanes.emplace_back(table.text("lane"));
            result.labels.emplace_back(table.text("label"));
        }
        result.notes = table.notes();
    } catch (const InputError &error) {
        result.fault = error.what();
    }
    return result;
}

using Texts = std::vector<std::string>;

TEST(TableHeader, LinesAboveItArePassedOver) {
    const ReadTable found = table_of("Plates of Monday, groups 1, 2, 3\n\n\"Room\" 4\n"
                                     "lane;label;distance_mm\n1;x;2,5\n2;y;3,5\n");
    EXPECT_EQ(found.fault, "");
    EXPECT_EQ(found.lanes, (Texts{"1", "2"}));
    ASSERT_EQ(found.notes.size(), 1U);
    EXPECT_EQ(found.notes[0], "the header is line 4; 2 lines above it are not read");
}

TEST(TableHeader, FirstLineIsItWhereNoneIsBetter) {
    const ReadTable found = table_of("Bahn,Weg\n1,2\n3,4\n");
    EXPECT_NE(found.fault.find("plate.csv:1: found a header without the columns lane, "
                               "distance_mm: \"Bahn\", \"Weg\""),
              std::string::npos)
        << found.fault;
}

TEST(TableHeader, FaultIsAboutTheLineThatNamesMostColumns) {
    const ReadTable found = table_of("Monday,,\nlane,label,role\n1,x,sample\n");
    EXPECT_NE(found.fault.find("plate.csv:2, column distance_mm: found a header without it"),
              std::string::npos)
        << found.fault;
    EXPECT_NE(found.fault.find("the columns lane and distance_mm or Rf (optional: label,role)"),
              std::string::npos)
        << found.fault;
}

TEST(TableHeader, OfOtherWordsIsFoundUnderTitlesByWhatTheyUsuallyMean) {
    std::istringstream in("Working standard;;\nMethod: 17;Instrument: 2;\n"
                          "Solvent;Ret. time (min);Area\nx;2,5;3\n");
    try {
        const TableReader table(in, "f.csv", {{"tR", true, "min"}, {"compound"}, {"area"}});
        FAIL() << "no column is called tR";
    } catch (const InputError &error) {
        EXPECT_EQ(error.where().line, 3U);
        EXPECT_NE(error.expected().find("--map tR=\"Ret. time (min)\" --map compound=\"Solvent\""),
                  std::string::npos)
            << error.expected();
    }
}

TEST(TableHeader, BlanksHyphensUnderscoresAndCaseDoNotCount) {
    std::istringstream in("LANE;UV 254;Stationary Phase;Distance-mm\n1;yes;silica;25\n");
    const TableReader table(in, "t.csv",
                            {{"lane", true}, {"uv254"}, {"stationary_phase"}, {"distance_mm"}});
    for (const char *column : {"lane", "uv254", "stationary_phase", "distance_mm"}) {
        EXPECT_TRUE(table.has(column)) << column;
    }
}

TEST(TableHeader, WordsUnderATitleAreProposed) {
    std::istringstream in("our compounds, march;;\nName;SMILES;MW [g/mol]\nx;CCO;46\n");
    try {
        const TableReader table(in, "c.csv", {{"compound", true}, {"smiles", true}});
        FAIL() << "no column is called compound";
    } catch (const InputError &error) {
        EXPECT_EQ(error.where().line, 2U);
        EXPECT_NE(error.found().find("\"Name\", \"SMILES\""), std::string::npos) << error.found();
        EXPECT_NE(error.expected().find("perhaps --map compound=\"Name\""), std::string::npos)
            << error.expected();
    }
}

TEST(TableHeader, IsLookedForInTheFirstTwentyRecords) {
    std::string titles;
    for (int i = 0; i < 19; ++i) {
        titles += "title\n";
    }
    const std::string table = "lane,Rf\n1,0.5\n";
    EXPECT_EQ(table_of(titles + table).lanes, Texts{"1"});
    EXPECT_NE(table_of(titles + "title\n" + table).fault, "");
}

TEST(TableHeader, FaultsOfRowsKeepTheirLines) {
    const ReadTable found = table_of("Monday\nlane,Rf\n1,0.5\n2\n");
    EXPECT_NE(found.fault.find("plate.csv:4: found 1 fields"), std::string::npos) << found.fault;
}

TEST(TableHeader, OneHeaderServesSeveralColumns) {
    const ReadTable both =
        table_of("Lane,Rf\nsample 1,0.5\n", {{"lane", "Lane"}, {"label", "Lane"}});
    EXPECT_EQ(both.lanes, Texts{"sample 1"});
    EXPECT_EQ(both.labels, Texts{"sample 1"});
    // What must be there stays.
    const ReadTable label = table_of("Lane,Rf\nsample 1,0.5\n", {{"label", "Lane"}});
    EXPECT_EQ(label.lanes, Texts{"sample 1"});
    EXPECT_EQ(label.labels, Texts{"sample 1"});
}

TEST(TableHeader, AHeaderForOneColumnIsNoOtherThatNeedNotBeThere) {
    std::istringstream in("lane,Rf\n1,25\n");
    const TableReader table(in, "plate.csv", kPlate, {{"distance_mm", "Rf"}}, kPlaces);
    EXPECT_TRUE(table.has("distance_mm"));
    EXPECT_FALSE(table.has("Rf"));
}

TEST(TableHeader, TellsWhichAliasHadNoEffect) {
    const auto alias = [](const char *column, const char *header) {
        return ColumnAlias{column, header, std::make_shared<bool>(false)};
    };
    const std::vector<ColumnAlias> aliases{alias("lane", "Bahn"), alias("label", "Probe"),
                                           alias("lane", "Spur"), alias("role", "Rolle")};
    const ReadTable found = table_of("Bahn,Rf,Probe\n1,0.5,x\n", aliases);
    EXPECT_TRUE(*aliases[0].is_settled);
    EXPECT_TRUE(*aliases[1].is_settled);
    EXPECT_FALSE(*aliases[2].is_settled);
    EXPECT_TRUE(*aliases[3].is_settled) << "a note says that there is none";
    EXPECT_EQ(found.notes, Texts{"--map: there is no column \"Rolle\" for role"});
}

TEST(TableReader, ADashIsNothingInAColumnThatNeedNotBeThere) {
    const ReadTable found =
        table_of("lane,Rf,label\n-,0.5,-\n1,0.5,–\n2,0.5,—\n3,0.5,N/A\n4,0.5,x-y\n");
    EXPECT_EQ(found.lanes, (Texts{"-", "1", "2", "3", "4"}));
    EXPECT_EQ(found.labels, (Texts{"", "", "", "", "x-y"}));
}

} // namespace
} // namespace cospot
