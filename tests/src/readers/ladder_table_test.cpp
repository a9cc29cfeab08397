// Ladders as data systems write them: titles above the header, headers of their own, sums at the
// end. All times are invented.
#include "readers/ladder_table.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <sstream>
#include <string>

namespace cospot {
namespace {

const std::string kTitles = "Report of the ladder\nColumn 30 m; 40 C\n\n";
const std::string kMembers = "1;3,10;18000;n-Pentane\n2;5,30;20000;n-Hexane\n";

quantities::Ladder ladder_of(const std::string &text,
                             const std::vector<ColumnAlias> &aliases = {}) {
    std::istringstream in(text);
    return read_ladder(in, "ladder.txt", quantities::IndexScale::n_alkane,
                       quantities::LadderGaps::refuse, aliases);
}

TEST(LadderTable, IsReadUnderTitleLines) {
    const auto ladder = ladder_of(kTitles + "Peak;tR;Area;standard\n" + kMembers);
    ASSERT_EQ(ladder.points.size(), 2U);
    EXPECT_EQ(ladder.points[0].carbon, 5.0);
    EXPECT_EQ(ladder.points[1].retention_time_min, 5.3);
    const auto mapped = ladder_of(kTitles + "Peak;RT [min];Area;Name\n" + kMembers,
                                  {{"tR", "RT [min]"}, {"standard", "Name"}});
    EXPECT_EQ(mapped.points.size(), 2U);
}

TEST(LadderTable, SumsAndRemarksAreNoMembers) {
    const std::string header = "Peak;tR;Area;standard\n";
    for (const std::string end :
         {";;Sum;38000", "Total;;38000;", ";;38000;", "Summe;;;38000", "integrated by hand;;;"}) {
        EXPECT_EQ(ladder_of(header + kMembers + end + "\n").points.size(), 2U) << end;
    }
    EXPECT_THROW((void)ladder_of(header + kMembers + "3;;21000;n-Heptane\n"), InputError);
}

TEST(LadderTable, ProposesHeadersOfTheUsersOwn) {
    try {
        (void)ladder_of(kTitles + "Peak;RT [min];Area [pA*s];Name\n" + kMembers);
        FAIL() << "no column is called tR";
    } catch (const InputError &error) {
        EXPECT_EQ(error.where().line, 4U);
        EXPECT_NE(
            error.expected().find("--ladder-map standard=\"Name\" --ladder-map tR=\"RT [min]\""),
            std::string::npos)
            << error.expected();
    }
}

} // namespace
} // namespace cospot
