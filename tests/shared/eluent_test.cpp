#include "shared/eluent.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

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

/// "PE 4, EE 1"
std::string words_of(std::string_view text) {
    std::string words;
    for (const SolventPart &part : parse_eluent(text, {})) {
        words += fmt::format("{}{} {:g}", words.empty() ? "" : ", ", part.solvent, part.parts);
    }
    return words;
}

// How laboratories write eluents, in English and German: common practice, no source.
TEST(Eluent, IsReadInWhateverOrderAndSignsItIsWritten) {
    for (const char *text : {"PE/EE 4:1", "PE:EE 4/1", "PE-EE 4:1", "4:1 PE/EE", "PE/EE (4:1)",
                             "PE / EE 4 : 1", "PE + EE 4:1", "PE/EE 4:1 (v/v)", "PE EE 4:1"}) {
        EXPECT_EQ(words_of(text), "PE 4, EE 1") << text;
    }
    EXPECT_EQ(words_of("EE 4:1 PE"), "EE 4, PE 1");
    EXPECT_EQ(words_of("PE/EE 9,5:0,5"), "PE 9.5, EE 0.5");
    EXPECT_EQ(words_of("n-hexane-ethyl acetate 9:1"), "n-hexane 9, ethyl acetate 1");
    EXPECT_EQ(words_of("1,4-dioxane:water 9:1"), "1,4-dioxane 9, water 1");
    EXPECT_EQ(words_of("20 % EtOAc in hexane"), "hexane 80, EtOAc 20");
}

TEST(Eluent, ABoilingRangeIsNoPart) {
    EXPECT_EQ(words_of("PE 40/60"), "PE 40/60 1");
    EXPECT_EQ(words_of("PE 40/60/EE 4:1"), "PE 40/60 4, EE 1");
    EXPECT_EQ(words_of("PE (60-80 °C):EE 4:1"), "PE (60-80 °C) 4, EE 1");
    EXPECT_EQ(words_of("EE/PE 40/60"), "EE 40, PE 60"); // else it had no parts
}

TEST(Eluent, WhatIsAddedInPerCentIsOfTheMixture) {
    EXPECT_EQ(words_of("DCM/MeOH 95:5 + 1 % Et3N"), "DCM 95, MeOH 5, Et3N 1");
    EXPECT_EQ(words_of("PE/EE 3:1 + 1% AcOH"), "PE 3, EE 1, AcOH 0.04");
    EXPECT_EQ(words_of("DCM + 5% MeOH"), "DCM 100, MeOH 5");
    const auto rest = without_additives(parse_eluent("DCM/MeOH 95:5 + 1 % Et3N", {}));
    ASSERT_EQ(rest.size(), 2U);
    EXPECT_EQ(rest[1].solvent, "MeOH"); // 5 % of a solvent are no additive
}

TEST(Eluent, WhatIsNotUnderstoodIsNamed) {
    using Names = std::vector<std::string>;
    const auto unknown = [](const char *text) { return unknown_solvents(parse_eluent(text, {})); };
    EXPECT_EQ(unknown("PE/EE 4:1"), Names{});
    EXPECT_EQ(unknown("PE/XYZ 4:1"), Names{"XYZ"});
    EXPECT_EQ(unknown("DCM/MeOH 95:5 + Et3N"), Names{"DCM/MeOH 95:5 + Et3N"}); // no amount
    EXPECT_EQ(unknown("PE/EE"), Names{"PE/EE"});                               // no parts
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

TEST(Eluent, RefusesPartsBeyondAMillion) {
    EXPECT_THROW((void)parse_eluent("hexane:ethyl acetate 1000001:1", {}), InputError);
}

} // namespace
} // namespace cospot
