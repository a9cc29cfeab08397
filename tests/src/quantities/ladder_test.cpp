#include "quantities/ladder.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <limits>
#include <string>

namespace cospot::quantities {
namespace {

/// The message of the refusal; empty if the ladder is accepted.
std::string refusal(const std::vector<LadderPoint> &points, LadderGaps gaps = LadderGaps::refuse) {
    try {
        check_ladder({IndexScale::n_alkane, points}, gaps);
    } catch (const InputError &error) {
        EXPECT_TRUE(error.where().file.empty());
        return error.what();
    }
    return "";
}

bool says(const std::string &message, const std::string &part) {
    return message.find(part) != std::string::npos;
}

TEST(Ladder, AcceptsAFullSeries) {
    EXPECT_EQ(refusal({{8, 4.0}, {9, 5.5}, {10, 7.2}, {11, 9.0}}), "");
}

TEST(Ladder, AcceptsEvenMembersAsARegularLadder) {
    const std::vector<LadderPoint> even = {{8, 4.0}, {10, 7.2}, {12, 10.9}};
    EXPECT_EQ(refusal(even), "");
    EXPECT_EQ(smallest_step({IndexScale::n_alkane, even}), 2.0);
}

TEST(Ladder, AcceptsTwoMembersFarApart) {
    EXPECT_EQ(refusal({{8, 4.0}, {14, 10.9}}), "");
}

TEST(Ladder, RefusesFewerThanTwoMembers) {
    EXPECT_TRUE(says(refusal({}), "without members"));
    EXPECT_TRUE(says(refusal({{8, 4.0}}), "C8 alone"));
}

TEST(Ladder, NamesAMemberThatIsThereTwice) {
    EXPECT_TRUE(says(refusal({{8, 4.0}, {9, 5.5}, {9, 5.6}, {10, 7.0}}), "C9 twice"));
}

TEST(Ladder, RefusesMembersNotInAscendingOrder) {
    EXPECT_TRUE(says(refusal({{8, 4.0}, {10, 7.2}, {9, 5.5}}), "C9 listed after C10"));
}

TEST(Ladder, NamesTwoMembersWhoseTimesRunTheWrongWay) {
    const std::string message = refusal({{8, 4.0}, {9, 7.2}, {10, 5.5}});
    EXPECT_TRUE(says(message, "C9 at 7.2 min, but C10 at 5.5 min")) << message;
    EXPECT_TRUE(says(refusal({{8, 4.0}, {9, 4.0}}), "C9 at 4 min"));
}

TEST(Ladder, RefusesTimesAndCarbonNumbersThatAreNotPositive) {
    EXPECT_TRUE(says(refusal({{8, 0.0}, {9, 4.0}}), "C8"));
    EXPECT_TRUE(says(refusal({{8, -1.0}, {9, 4.0}}), "C8"));
    EXPECT_TRUE(says(refusal({{0, 1.0}, {1, 4.0}}), "carbon number of 0"));
    EXPECT_NE(refusal({{8, 1.0}, {9, std::numeric_limits<double>::quiet_NaN()}}), "");
    EXPECT_NE(refusal({{8, 1.0}, {9, std::numeric_limits<double>::infinity()}}), "");
}

TEST(Ladder, NamesTheMemberMissingInAGap) {
    const std::string message = refusal({{7, 3.0}, {8, 4.0}, {10, 7.2}, {11, 9.0}});
    EXPECT_TRUE(says(message, "C9 missing between C8 and C10")) << message;
}

TEST(Ladder, NamesTheFirstAndLastOfSeveralMissing) {
    const std::string message = refusal({{7, 3.0}, {8, 4.0}, {12, 9.0}});
    EXPECT_TRUE(says(message, "C9 to C11 missing between C8 and C12")) << message;
    const std::string even = refusal({{8, 4.0}, {10, 7.2}, {14, 12.0}});
    EXPECT_TRUE(says(even, "C12 missing between C10 and C14")) << even;
}

TEST(Ladder, InterpolatesAGapOnlyWhenAsked) {
    EXPECT_EQ(refusal({{7, 3.0}, {8, 4.0}, {10, 7.2}}, LadderGaps::interpolate), "");
}

TEST(Ladder, ChecksOrderEvenWhereGapsAreInterpolated) {
    EXPECT_NE(refusal({{7, 3.0}, {8, 8.0}, {10, 7.2}}, LadderGaps::interpolate), "");
}

} // namespace
} // namespace cospot::quantities
