#include "quantities/stains.h"

#include "shared/text.h"

#include <gtest/gtest.h>

namespace cospot {
namespace {

TEST(Stains, TableHoldsProbabilitiesAndNamesEachReagentOnce) {
    std::set<std::string> names;
    ASSERT_GT(stains().size(), 10U);
    EXPECT_EQ(uv254().name, "uv254");
    EXPECT_EQ(find_stain("uv254"), nullptr);
    for (const Stain &stain : stains()) {
        EXPECT_FALSE(stain.reacts.empty()) << stain.name;
        EXPECT_GT(stain.if_none, 0.0) << stain.name;
        EXPECT_LE(stain.if_none, stain.if_reacts) << stain.name;
        EXPECT_LT(stain.if_reacts, 1.0) << stain.name;
        EXPECT_TRUE(names.insert(lower_ascii(stain.name)).second) << stain.name;
        for (const std::string &alias : stain.aliases) {
            EXPECT_TRUE(names.insert(lower_ascii(alias)).second) << alias;
            EXPECT_EQ(find_stain(alias), &stain) << alias;
        }
    }
}

TEST(Stains, AreFoundByTradeNames) {
    EXPECT_EQ(find_stain("kmno4"), find_stain("Potassium permanganate"));
    EXPECT_EQ(find_stain("2,4-DNP"), find_stain("2,4-dinitrophenylhydrazine"));
    EXPECT_EQ(find_stain("PMA"), find_stain("phosphomolybdic acid"));
    EXPECT_EQ(find_stain("tea"), nullptr);
}

TEST(Stains, WeakGroupsCountHalfway) {
    const Stain &ninhydrin = *find_stain("ninhydrin");
    const double weak = seen_probability(ninhydrin, {"any", "secondary_amine"});
    EXPECT_DOUBLE_EQ(weak, (seen_probability(ninhydrin, {"any", "primary_amine"}) +
                            seen_probability(ninhydrin, {"any"})) /
                               2);
}

} // namespace
} // namespace cospot
