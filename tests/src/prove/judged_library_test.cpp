#include "prove/judged_library.h"

#include "../../library/sample_library.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <set>
#include <string>

namespace cospot {
namespace {

constexpr double kStep = 0.035;

/// Compounds A to Z, which stand 0.035 apart on a plate.
class JudgedLibrary : public testing::Test {
protected:
    JudgedLibrary() {
        for (char letter = 'A'; letter <= 'Z'; ++letter) {
            compounds_.push_back(library_.compound(letter, std::string("compound ") + letter));
        }
    }

    /// Values of all compounds in named runs, with a scatter of 0.003.
    void fill(library::SystemId system, int runs) {
        for (int run = 0; run < runs; ++run) {
            for (std::size_t i = 0; i < compounds_.size(); ++i) {
                library_.value(compounds_[i], system,
                               0.06 + kStep * static_cast<double>(i) + 0.003 * normal_(engine_),
                               "run " + std::to_string(run));
            }
        }
    }

    /// The same in runs of some days.
    void fill_days(library::SystemId system, int days, int runs_a_day) {
        library::Transaction transaction(library_.database);
        const auto change = library::begin_change(library_.database, "test", "");
        for (int run = 0; run < days * runs_a_day; ++run) {
            const std::string date = fmt::format("2026-03-{:02}", 1 + run / runs_a_day);
            for (std::size_t i = 0; i < compounds_.size(); ++i) {
                library::Measurement measurement;
                measurement.compound = compounds_[i];
                measurement.system = system;
                measurement.quantity = Quantity::Rf;
                measurement.run = library::find_or_add_run(
                    library_.database, system, {fmt::format("run {}", run), date, "", ""}, change);
                measurement.value =
                    0.06 + kStep * static_cast<double>(i) + 0.003 * normal_(engine_);
                library::insert_measurement(library_.database, measurement, change);
            }
        }
        transaction.commit();
    }

    std::vector<JudgedQuestion> all_questions(Technique technique = Technique::tlc) {
        std::vector<JudgedQuestion> all;
        for (std::size_t part = 0; part < kProofParts; ++part) {
            for (const JudgedQuestion &one :
                 judge_part(values_to_judge(library_.database, technique), part)) {
                EXPECT_EQ(one.part, part);
                all.push_back(one);
            }
        }
        return all;
    }

    library::SampleLibrary library_;
    std::vector<library::CompoundId> compounds_;
    std::mt19937 engine_{3};
    std::normal_distribution<double> normal_;
};

std::size_t absent(const std::vector<JudgedQuestion> &questions) {
    return static_cast<std::size_t>(
        std::count_if(questions.begin(), questions.end(), [](const JudgedQuestion &one) {
            return one.judged.truth == matcher::kUnlisted;
        }));
}

TEST_F(JudgedLibrary, AsksForEveryValueOnce) {
    fill(library_.system("silica", "hexane"), 8);
    const auto questions = all_questions();
    EXPECT_EQ(questions.size(), 8 * compounds_.size());
    // Every fifth compound is absent from a part, so about a fifth of all values is of absent ones.
    EXPECT_GT(absent(questions), questions.size() / 10);
    EXPECT_LT(absent(questions), questions.size() / 3);
}

TEST_F(JudgedLibrary, NineInTenHeldCompoundsRankFirst) {
    fill(library_.system("silica", "hexane"), 8);
    std::size_t held = 0;
    std::size_t right = 0;
    for (const JudgedQuestion &one : all_questions()) {
        if (one.judged.truth != matcher::kUnlisted) {
            ++held;
            right += one.judged.ranking.candidates.front().compound == one.judged.truth ? 1 : 0;
        }
    }
    EXPECT_GT(right, held * 9 / 10);
}

TEST_F(JudgedLibrary, IsDeterministic) {
    fill(library_.system("silica", "hexane"), 6);
    const auto first = judge_part(values_to_judge(library_.database, Technique::tlc), 2);
    const auto second = judge_part(values_to_judge(library_.database, Technique::tlc), 2);
    ASSERT_EQ(first.size(), second.size());
    for (std::size_t i = 0; i < first.size(); ++i) {
        EXPECT_EQ(first[i].judged.truth, second[i].judged.truth);
        EXPECT_EQ(first[i].judged.ranking.unlisted, second[i].judged.ranking.unlisted);
    }
}

TEST_F(JudgedLibrary, CompoundsWithOneValueAreAskedOnlyAsAbsent) {
    fill(library_.system("silica", "hexane"), 1); // one value of each
    const auto questions = all_questions();
    EXPECT_EQ(absent(questions), questions.size());
    EXPECT_LT(questions.size(), compounds_.size() / 2);
}

TEST_F(JudgedLibrary, CompoundsOnSeveralSystemsMakeFurtherQuestions) {
    fill(library_.system("silica", "hexane"), 6);
    fill(library_.system("alumina", "toluene"), 6);
    const auto questions = all_questions();
    const auto several = std::count_if(questions.begin(), questions.end(),
                                       [](const JudgedQuestion &one) { return one.systems > 1; });
    EXPECT_EQ(questions.size() - static_cast<std::size_t>(several), 12 * compounds_.size());
    EXPECT_GT(several, 0);
}

/// Invented compounds on one system, in one run or several of which each holds all of them.
SystemValues one_system(std::int64_t compounds, std::int64_t runs, std::int64_t replicates) {
    std::mt19937 engine(5);
    std::normal_distribution<double> normal;
    SystemValues values;
    values.modelled.system.id = library::SystemId{1};
    values.modelled.system.technique = Technique::tlc;
    for (std::int64_t c = 0; c < compounds; ++c) {
        const double place = 0.05 + 0.9 * static_cast<double>(c) / static_cast<double>(compounds);
        for (std::int64_t run = 0; run < runs; ++run) {
            for (std::int64_t i = 0; i < replicates; ++i) {
                values.held.push_back({library::CompoundId{c + 1}, library::RunId{run + 1}, true,
                                       place + 0.01 * normal(engine), run + 1});
            }
        }
    }
    return values;
}

std::size_t candidates_in(const std::vector<JudgedQuestion> &questions) {
    std::size_t sum = 0;
    for (const JudgedQuestion &one : questions) {
        sum += one.judged.ranking.candidates.size();
    }
    return sum;
}

TEST(JudgedLibrarySize, OneBigRunIsAskedInPieces) {
    const auto questions = judge_part({one_system(1000, 1, 2)}, 0);
    EXPECT_GE(questions.size(), 50U); // some 200 values are left out
    EXPECT_LE(questions.size(), kMostQuestions + kMostJoint);
    EXPECT_GT(absent(questions), 0U);
    EXPECT_LT(absent(questions), questions.size() / 2);
}

TEST(JudgedLibrarySize, ABigRunBesideManySmallOnesIsAsked) {
    SystemValues values = one_system(40, 30, 1);
    SystemValues big = one_system(900, 1, 2);
    for (library::HeldValue &value : big.held) {
        value.session = 1000;
        value.run = library::RunId{1000};
        value.compound = library::CompoundId{library::as_number(value.compound) + 1000};
    }
    const std::size_t few = values.held.size();
    values.held.insert(values.held.end(), big.held.begin(), big.held.end());
    // As runs the values are left out whole: the part that has the big one asks about it too.
    std::size_t most = 0;
    for (std::size_t part = 0; part < kProofParts; ++part) {
        const auto questions = judge_part({values}, part);
        EXPECT_LE(questions.size(), kMostQuestions + kMostJoint) << part;
        most = std::max(most, absent(questions));
    }
    EXPECT_GT(few, 0U);
    EXPECT_GT(most, 50U); // of compounds that only the big run holds
}

TEST(JudgedLibrarySize, ManyRunsAreAskedUpToTheSameNumber) {
    for (const std::int64_t runs : {120, 300}) {
        const auto questions = judge_part({one_system(40, runs, 1)}, 0);
        EXPECT_GE(questions.size(), kMostQuestions) << runs;
        EXPECT_LE(questions.size(), kMostQuestions + 40) << runs;
    }
}

TEST(JudgedLibrarySize, WhereEachValueHasThousandsOfCandidatesFewerAreAsked) {
    SystemValues values = one_system(2000, 1, 2);
    for (library::HeldValue &value : values.held) {
        value.value = 0.5;
    }
    const auto questions = judge_part({values}, 0);
    EXPECT_GE(questions.size(), 10U);
    EXPECT_LE(candidates_in(questions), kMostCandidates + 20U * 2000U);
}

TEST(JudgedLibrarySize, EachSystemHasItsShareOfTheQuestions) {
    // Three quarters of the values lie on the second system.
    SystemValues first = one_system(40, 50, 1);
    SystemValues second = one_system(40, 150, 1);
    second.modelled.system.id = library::SystemId{2};
    for (library::HeldValue &value : second.held) {
        value.session += 1000;
        value.run = library::RunId{value.session};
        value.value = 0.3 * value.value; // so that its questions are told by their compounds
        value.compound = library::CompoundId{library::as_number(value.compound) + 100};
    }
    std::size_t on_second = 0;
    std::size_t all = 0;
    for (std::size_t part = 0; part < 3; ++part) {
        for (const JudgedQuestion &one : judge_part({first, second}, part)) {
            if (one.judged.truth != matcher::kUnlisted) {
                ++all;
                on_second += one.judged.truth >= 32 ? 1 : 0; // a fifth of 40 is left out
            }
        }
    }
    ASSERT_GT(all, 450U);
    EXPECT_NEAR(static_cast<double>(on_second) / static_cast<double>(all), 0.75, 0.08);
}

/// Of the questions about one feature on one system.
std::set<library::ProofQuestion> asked(const std::vector<JudgedQuestion> &questions) {
    std::set<library::ProofQuestion> found;
    for (const JudgedQuestion &one : questions) {
        found.insert(one.question);
    }
    return found;
}

TEST_F(JudgedLibrary, RunsWithoutADayAreAskedAsRuns) {
    fill(library_.system("silica", "hexane"), 8);
    EXPECT_EQ(asked(all_questions()), std::set{library::ProofQuestion::run});
}

TEST_F(JudgedLibrary, DaysOfOneRunAreAskedAsDays) {
    fill_days(library_.system("silica", "hexane"), 8, 1);
    const auto questions = all_questions();
    EXPECT_EQ(asked(questions), std::set{library::ProofQuestion::day});
    EXPECT_EQ(questions.size(), 8 * compounds_.size());
}

TEST_F(JudgedLibrary, DaysOfSeveralRunsAreAskedAsDaysAndAsRuns) {
    fill_days(library_.system("silica", "hexane"), 12, 2);
    const auto questions = all_questions();
    EXPECT_EQ(asked(questions),
              (std::set{library::ProofQuestion::day, library::ProofQuestion::run}));
}

TEST_F(JudgedLibrary, OtherTechniquesAreNotAsked) {
    fill(library_.system("silica", "hexane"), 6);
    EXPECT_TRUE(all_questions(Technique::gc).empty());
    EXPECT_FALSE(all_questions(Technique::tlc).empty());
}

} // namespace
} // namespace cospot
