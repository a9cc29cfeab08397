// What leaves first, and whether a library's own values agree.
#include "evidence/elution_order.h"

#include "../../library/sample_library.h"
#include "library/descriptions.h"

#include <gtest/gtest.h>

#include <array>
#include <stdexcept>

namespace cospot {
namespace {

library::System system(Technique technique, const std::string &stationary,
                       const std::string &mobile = "") {
    library::System result;
    result.technique = technique;
    result.stationary_phase = stationary;
    result.mobile_phase = mobile;
    return result;
}

TEST(ElutionOrder, MechanismsByWords) {
    EXPECT_EQ(mechanism_of(system(Technique::tlc, "silica gel", "hexane")), Mechanism::adsorption);
    EXPECT_EQ(mechanism_of(system(Technique::hplc, "octadecylsilica (C18)", "water:methanol 1:1")),
              Mechanism::reversed_phase);
    EXPECT_EQ(mechanism_of(system(Technique::tlc, "RP-18 silica", "water")),
              Mechanism::reversed_phase);
    EXPECT_EQ(mechanism_of(system(Technique::paper, "cellulose paper")), Mechanism::partition);
    EXPECT_EQ(mechanism_of(system(Technique::gc, "polyethylene glycol")), Mechanism::polar_gas);
    EXPECT_EQ(mechanism_of(system(Technique::gc, "5 % phenyl methylsilicone")),
              Mechanism::volatility);
    EXPECT_EQ(mechanism_of(system(Technique::hplc, "silica", "water:acetonitrile 1:9")),
              Mechanism::unknown);
    EXPECT_NE(elution_principle(Mechanism::reversed_phase).find("most polar compound leaves first"),
              std::string::npos);
}

TEST(ElutionOrder, RankCorrelationByHand) {
    // Spearman: 1 - 6 sum d^2 / (n (n^2 - 1)); ranks differ by 1, 1, 0: 1 - 12 / 24.
    EXPECT_NEAR(rank_correlation(std::vector<double>{1, 2, 3}, std::vector<double>{20, 10, 30}),
                0.5, 1e-12);
    EXPECT_NEAR(rank_correlation(std::vector<double>{1, 2, 3}, std::vector<double>{3, 2, 1}), -1.0,
                1e-12);
    // Ties at their mean rank: ranks 1.5, 1.5, 3 against 1, 2, 3 correlate with sqrt(3) / 2.
    EXPECT_NEAR(rank_correlation(std::vector<double>{5, 5, 9}, std::vector<double>{1, 2, 3}),
                0.866025, 1e-6);
    EXPECT_EQ(rank_correlation(std::vector<double>{5, 5}, std::vector<double>{1, 2}), 0.0);
    EXPECT_THROW((void)rank_correlation(std::vector<double>{1}, std::vector<double>{1}),
                 std::invalid_argument);
}

/// Twelve compounds on silica, with these values of R_F in the order of their polar surface.
std::vector<std::string> words_of(const std::array<double, 12> &rf) {
    library::SampleLibrary library;
    const auto id = library.system("silica", "hexane:ethyl acetate 3:1");
    library.database.execute("UPDATE system SET stationary_phase = 'silica gel'");
    for (int i = 0; i < 12; ++i) {
        const auto compound =
            library.compound(static_cast<char>('A' + i), "compound " + std::to_string(i));
        library::Transaction transaction(library.database);
        library::Description description;
        description.polar_surface = 10.0 * i;
        library::add_description(library.database, compound, description);
        transaction.commit();
        library.value(compound, id, rf.at(static_cast<std::size_t>(i)), "plate 1");
    }
    return elution_words(library.database, *library::find_system(library.database, "silica"));
}

TEST(ElutionOrder, SaysWhatStandsOut) {
    const auto words =
        words_of({0.05, 0.83, 0.76, 0.69, 0.62, 0.55, 0.48, 0.41, 0.34, 0.27, 0.20, 0.13});
    ASSERT_EQ(words.size(), 3U);
    EXPECT_NE(words[0].find("Normal phase"), std::string::npos);
    EXPECT_NE(words[1].find("12 compounds"), std::string::npos) << words[1];
    EXPECT_EQ(words[2], "Far later than that says: compound 0.");
}

TEST(ElutionOrder, NamesNoCompoundWhereOrderDoesNotFollowPolarity) {
    const auto words =
        words_of({0.50, 0.05, 0.83, 0.20, 0.76, 0.27, 0.69, 0.34, 0.62, 0.41, 0.55, 0.48});
    ASSERT_EQ(words.size(), 2U);
    EXPECT_NE(words[1].find("The Rf of 12 compounds here does not go with polar surface"),
              std::string::npos)
        << words[1];
}

TEST(ElutionOrder, WarnsWhereTheWholeOrderIsReversed) {
    const auto words =
        words_of({0.05, 0.17, 0.24, 0.31, 0.38, 0.45, 0.52, 0.59, 0.66, 0.73, 0.80, 0.87});
    ASSERT_EQ(words.size(), 3U);
    EXPECT_NE(words[2].find("contradicts"), std::string::npos) << words[2];
}

} // namespace
} // namespace cospot
