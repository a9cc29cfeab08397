#include "shared/eluent.h"

#include <gtest/gtest.h>

namespace cospot {
namespace {

TEST(Eluent, ReadsSolventsAndParts) {
    const auto eluent = parse_eluent("hexane:ethyl acetate 3:1", {});
    ASSERT_EQ(eluent.size(), 2U);
    EXPECT_EQ(eluent[0].solvent, "hexane");
    EXPECT_EQ(eluent[1].solvent, "ethyl acetate");
    EXPECT_EQ(volume_fractions(eluent), (std::vector<double>{0.75, 0.25}));
}

TEST(Eluent, ReadsThreeSolventsAndDecimalParts) {
    const auto eluent = parse_eluent("butanol:acetic acid:water 4:1:5", {});
    ASSERT_EQ(eluent.size(), 3U);
    EXPECT_EQ(eluent[2].parts, 5.0);
    EXPECT_EQ(parse_eluent("methanol:ammonia 100:1.5", {})[1].parts, 1.5);
}

TEST(Eluent, TextWithoutPartsIsOneSolvent) {
    ASSERT_EQ(parse_eluent("ethyl acetate", {}).size(), 1U);
    EXPECT_EQ(parse_eluent("ethyl acetate", {})[0].solvent, "ethyl acetate");
    EXPECT_EQ(parse_eluent("helium", {})[0].parts, 1.0);
}

TEST(Eluent, RefusesPartsThatDoNotMatchTheSolvents) {
    EXPECT_THROW((void)parse_eluent("hexane:ethyl acetate 3:1:1", {}), InputError);
    EXPECT_THROW((void)parse_eluent("hexane 3:1", {}), InputError);
    EXPECT_THROW((void)parse_eluent("hexane:ethyl acetate 3:0", {}), InputError);
    EXPECT_THROW((void)parse_eluent("hexane: 3:1", {}), InputError);
}

TEST(Eluent, RefusesPartsWhoseSumNoNumberHolds) {
    EXPECT_THROW((void)parse_eluent("hexane:ethyl acetate 1e308:1e308", {}), InputError);
}

} // namespace
} // namespace cospot
