// The sentences of an explanation, from terms that are given.
#include "identification/explanation_words.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot {
namespace {

/// A feature at R_F 0.21 beside another one, and one candidate of 10 with terms to be changed.
class ExplanationWordsTest : public testing::Test {
protected:
    ExplanationWordsTest() {
        feature.observations.push_back({});
        feature.observations[0].system = "silica";
        feature.observations[0].value = 0.21;
        other.name = "spot 2";
        ProposedCompound candidate;
        candidate.name = "coumarin";
        identification.candidates.push_back(candidate);
        identification.compounds = 10;
        terms.log_prior = std::log(1.0 / 12);
        ReadingTerm reading;
        reading.log_ratio = std::log(5.0);
        reading.comparison = {0, 0.23, 0.04, -0.02, matcher::Basis::measured, 3};
        reading.comparison.in_library = 0.23;
        terms.readings.push_back(reading);
    }

    std::vector<std::string> because() const {
        const std::vector<const Feature *> run{&feature, &other};
        return explanation_words({{terms}, {}}, feature, identification, run).because.at(0);
    }

    Feature feature;
    Feature other;
    Identification identification;
    CandidateTerms terms;
};

TEST_F(ExplanationWordsTest, TellTheReadingAndThePrior) {
    EXPECT_EQ(because(),
              (std::vector<std::string>{
                  "Rf 0.21 on silica is 0.5 spreads below the expected 0.23, measured in 3 "
                  "independent runs: 5 times as likely as from an unlisted compound",
                  "before measuring: 12 times less likely than unlisted, as one of 10 compounds"}));
}

TEST_F(ExplanationWordsTest, TellAWeightThatTheUserGave) {
    terms.weight = 3;
    EXPECT_TRUE(because().back().ends_with("as one of 10 compounds and with the weight 3"))
        << because().back();
}

TEST_F(ExplanationWordsTest, TellWhatIsTransferredOrPredictedAndHowWideItIs) {
    terms.readings[0].comparison.basis = matcher::Basis::transferred;
    terms.readings[0].widening = 3.2;
    EXPECT_NE(because()[0].find("transferred from its values on other systems, with 3.2 times the "
                                "spread of a measured one: "),
              std::string::npos)
        << because()[0];
    terms.readings[0].comparison.basis = matcher::Basis::predicted;
    EXPECT_NE(because()[0].find("predicted from its structure, with 3.2 times the spread"),
              std::string::npos)
        << because()[0];
}

TEST_F(ExplanationWordsTest, TellTheShiftOfTheRun) {
    terms.readings[0].comparison.in_library = 0.20;
    EXPECT_NE(because()[0].find("the expected 0.23 (0.20 in the library, moved with this run)"),
              std::string::npos)
        << because()[0];
    terms.readings[0].comparison.in_library = 0.23;
    EXPECT_EQ(because()[0].find("in the library"), std::string::npos) << because()[0];
}

TEST_F(ExplanationWordsTest, TellOfTheStandardBesideIt) {
    matcher::Comparison &comparison = terms.readings[0].comparison;
    comparison.basis = matcher::Basis::same_run;
    comparison.beside = 0.23;
    EXPECT_NE(because()[0].find("the expected 0.23, from its standard in the same run: "),
              std::string::npos)
        << because()[0];
    comparison.in_library = 0.20;
    EXPECT_NE(because()[0].find("the expected 0.23 (0.20 in the library), from its standard"),
              std::string::npos)
        << because()[0];
}

TEST_F(ExplanationWordsTest, TellFactorsWithTwoDigits) {
    terms.readings[0].log_ratio = -std::log(148413.0);
    EXPECT_TRUE(because()[0].ends_with(": 150000 times less likely than from an unlisted compound"))
        << because()[0];
    terms.readings[0].log_ratio = -50.0;
    EXPECT_TRUE(because()[0].ends_with(": more than a million times less likely than from an "
                                       "unlisted compound"))
        << because()[0];
    terms.readings[0].log_ratio = 0.01;
    EXPECT_TRUE(because()[0].ends_with(": about as likely as from an unlisted compound"))
        << because()[0];
}

TEST_F(ExplanationWordsTest, TellFurtherEvidenceAndDependence) {
    feature.further.uv254 = true;
    terms.log_further = std::log(2.5);
    terms.log_together = -std::log(1.8);
    EXPECT_EQ(because()[1], "the readings are not independent of each other: together they count "
                            "1.8 times less than one by one");
    EXPECT_EQ(because()[2],
              "what was seen beside retention is 2.5 times as likely as from an unlisted compound");
}

TEST_F(ExplanationWordsTest, TellCompetitionWithinTheRun) {
    terms.alone = 0.62;
    terms.joint = terms.stated = 0.31;
    terms.rival = Rival{1, 0.64};
    EXPECT_EQ(because().back(), "a compound explains only one feature and spot 2 may be it too "
                                "(0.64): 0.31 instead of 0.62 by itself");
    terms.joint = terms.stated = 0.81;
    EXPECT_EQ(because().back(), "compounds that compete with it explain other features of the run: "
                                "0.81 instead of 0.62 by itself");
}

TEST_F(ExplanationWordsTest, TellTheCorrectionByTheProof) {
    terms.alone = terms.joint = 0.84;
    terms.stated = 0.79;
    EXPECT_EQ(because().back(), "corrected by the proof of this library: 0.79 instead of 0.84");
}

} // namespace
} // namespace cospot
