#include "shared/edit_distance.h"

#include <gtest/gtest.h>

namespace cospot {
namespace {

TEST(EditDistance, EachOfTheFourSlipsCountsOnce) { // the four kinds of damerau1964
    EXPECT_EQ(edit_distance("eugenol", "eugenol"), 0U);
    EXPECT_EQ(edit_distance("eugenol", "eugnol"), 1U);
    EXPECT_EQ(edit_distance("eugenol", "eugennol"), 1U);
    EXPECT_EQ(edit_distance("eugenol", "eugemol"), 1U);
    EXPECT_EQ(edit_distance("eugenol", "euegnol"), 1U);
}

TEST(EditDistance, SlipsAddUpAndNoPlaceIsTouchedTwice) {
    EXPECT_EQ(edit_distance("kitten", "sitting"), 3U);
    EXPECT_EQ(edit_distance("ca", "abc"), 3U); // 2 where a place may be touched twice
    EXPECT_EQ(edit_distance("", "abc"), 3U);
    EXPECT_EQ(edit_distance("abc", ""), 3U);
    EXPECT_EQ(edit_distance("abc", "xyz"), edit_distance("xyz", "abc"));
}

} // namespace
} // namespace cospot
