// Whole runs through registration and ranking: what is stated must come true, wherever the run
// lies.
#include "model/matcher/run_prior.h"
#include "model/matcher/run_registration.h"
#include "model/matcher/sample.h"
#include "shifting_library.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>
#include <optional>
#include <random>

namespace cospot::matcher {
namespace {

/// Where a compound of the library stands in a run.
using Law = std::function<double(double)>;

/// What was stated of the likeliest answers, and what came true.
struct Score {
    double stated = 0.0;
    double right = 0.0;
    double count = 0.0;
    double sure = 0.0; ///< of these, stated above 0.9
    double sure_and_right = 0.0;
};

/// Eighty compounds between 900 and 2300 that scatter by half a unit.
class InventedRuns {
public:
    InventedRuns() : engine_(17) {
        std::uniform_real_distribution<double> place(900.0, 2300.0);
        for (std::size_t i = 0; i < 80; ++i) {
            truth_.push_back(place(engine_));
        }
        std::sort(truth_.begin(), truth_.end());
        knowledge_.systems.push_back(shifting_system(truth_, 0.5));
        nearby_ = nearby_candidates(knowledge_);
    }

    [[nodiscard]] const SystemModel &system() const { return knowledge_.systems[0]; }
    [[nodiscard]] std::mt19937 &engine() { return engine_; }

    /// Asks about a run of so many features, every fifth of which is unlisted.
    void ask(std::size_t features, const Law &law, Score &score) {
        std::vector<std::optional<std::size_t>> answers;
        std::vector<SampleFeature> observed;
        std::vector<std::size_t> compounds(truth_.size());
        std::iota(compounds.begin(), compounds.end(), std::size_t{0});
        std::shuffle(compounds.begin(), compounds.end(), engine_);
        std::uniform_real_distribution<double> place(900.0, 2300.0);
        std::normal_distribution<double> scatter(0.0, 0.5);
        for (std::size_t i = 0; i < features; ++i) {
            const bool is_unlisted = next_++ % 5 == 0;
            answers.push_back(is_unlisted ? std::nullopt : std::optional(compounds[i]));
            const double library = is_unlisted ? place(engine_) : truth_[compounds[i]];
            observed.push_back({{{0, law(library) + scatter(engine_), 0.0}}, {}});
        }
        (void)register_run(observed, knowledge_, nearby_, {});
        const SampleRanking ranking = rank_sample(observed, knowledge_, nearby_, {});
        for (std::size_t i = 0; i < features; ++i) {
            count(ranking.features[i], answers[i], score);
        }
    }

private:
    static void count(const Ranking &ranking, const std::optional<std::size_t> &answer,
                      Score &score) {
        std::optional<std::size_t> said;
        double stated = ranking.unlisted;
        if (!ranking.candidates.empty() && ranking.candidates[0].probability > stated) {
            stated = ranking.candidates[0].probability;
            said = ranking.candidates[0].compound;
        }
        const double right = said == answer ? 1.0 : 0.0;
        score.stated += stated;
        score.right += right;
        score.count += 1.0;
        if (stated > 0.9) {
            score.sure += 1.0;
            score.sure_and_right += right;
        }
    }

    std::mt19937 engine_;
    std::vector<double> truth_;
    Knowledge knowledge_;
    std::vector<NearbyCandidates> nearby_;
    std::size_t next_ = 0;
};

/// A run as the prior has it.
Law drawn_from(const RunPrior &prior, std::mt19937 &engine) {
    std::normal_distribution<double> usual;
    std::student_t_distribution<double> accident(4.0);
    std::bernoulli_distribution is_accident(prior.accident);
    double offset = prior.usual_offset * usual(engine);
    double slope = prior.usual_slope * usual(engine);
    if (is_accident(engine)) {
        offset = prior.accident_offset * accident(engine);
        slope = prior.accident_slope * accident(engine);
    }
    return [=](double library) { return library + offset + slope * (library - prior.centre); };
}

TEST(RegisteredRuns, StatedProbabilitiesComeTrueOnRunsDrawnFromThePrior) {
    for (const std::size_t features : {1U, 2U, 4U, 12U}) {
        InventedRuns runs;
        Score score;
        const RunPrior prior = run_prior(runs.system());
        for (std::size_t i = 0; i < 800 / features; ++i) {
            runs.ask(features, drawn_from(prior, runs.engine()), score);
        }
        EXPECT_NEAR(score.stated / score.count, score.right / score.count, 0.05) << features;
        EXPECT_GT(score.sure_and_right / score.sure, 0.85) << features << ' ' << score.sure;
    }
}

TEST(RegisteredRuns, AShiftedRunOfManyFeaturesIsIdentifiedAlmostAsWell) {
    double at_home = 0.0;
    for (const double shift : {0.0, 5.0, 10.0, 15.0}) {
        InventedRuns runs;
        Score score;
        for (int i = 0; i < 20; ++i) {
            runs.ask(
                20, [&](double x) { return x + shift; }, score);
        }
        const double right = score.right / score.count;
        at_home = shift == 0.0 ? right : at_home;
        EXPECT_GT(right, at_home - 0.03) << shift;
        EXPECT_GT(score.sure_and_right / score.sure, 0.93) << shift;
    }
    EXPECT_GT(at_home, 0.85);
}

TEST(RegisteredRuns, FewFeaturesAreSeldomSureAndWrong) {
    // Five features: of what is stated above 0.9 at least 0.85 are right, at any shift. Fewer
    // cannot show that their run was moved, so that is asked of runs drawn from the prior (above);
    // here, few of all answers may be stated above 0.9 and wrong.
    for (const std::size_t features : {1U, 2U, 3U, 5U}) {
        for (const double shift : {0.0, 2.0, 5.0, 15.0}) {
            InventedRuns runs;
            Score score;
            for (std::size_t i = 0; i < 60 + 20 / features; ++i) {
                runs.ask(
                    features, [&](double x) { return x + shift; }, score);
            }
            const double wrong = score.sure - score.sure_and_right;
            if (features > 3) {
                EXPECT_GE(score.sure_and_right, 0.85 * score.sure)
                    << features << " features, " << shift << ": " << score.sure_and_right << " of "
                    << score.sure;
            }
            EXPECT_LT(wrong, 0.1 * score.count)
                << features << " features, " << shift << ": " << wrong << " of " << score.count;
        }
    }
}

} // namespace
} // namespace cospot::matcher
