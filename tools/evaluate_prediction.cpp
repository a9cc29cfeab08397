// Expected retention on held-out compounds, by five-fold cross-validation over compounds:
//     evaluate_prediction DATA_DIR
// DATA_DIR holds tlc-xu2022, hplc-isocratic, hplc-report and gc-pnnl2023. One table goes to
// standard output: root mean square error, that of a plain baseline, median absolute error, and how
// many values the 90 % intervals hold. The same input gives the same table.

#include "evaluate_prediction_data.h"
#include "evaluate_prediction_questions.h"
#include "prediction/composition_curve.h"
#include "prediction/neighbour_regression.h"
#include "prediction/structure_model.h"
#include "shared/error.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <map>
#include <numbers>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace {

using namespace cospot;
using namespace cospot::evaluation;
using namespace cospot::prediction;

/// What a task collects.
struct Score {
    double squares = 0.0;
    double baseline_squares = 0.0;
    std::size_t covered = 0;
    std::size_t count = 0;
    std::vector<double> misses; ///< absolute errors

    void add(double error, double baseline_error, bool is_covered) {
        squares += error * error;
        baseline_squares += baseline_error * baseline_error;
        covered += is_covered ? 1 : 0;
        ++count;
        misses.push_back(std::abs(error));
    }
    void add(const Score &other) {
        squares += other.squares;
        baseline_squares += other.baseline_squares;
        covered += other.covered;
        count += other.count;
        misses.insert(misses.end(), other.misses.begin(), other.misses.end());
    }
};

using Scores = std::map<std::string, Score>; ///< by mixture

double median(std::vector<double> values) {
    const auto middle = values.begin() + std::ssize(values) / 2;
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

void print(const std::string &task, const Scores &scores) {
    const auto line = [](const std::string &name, const Score &score) {
        const auto count = static_cast<double>(score.count);
        fmt::print("  {:<24} {:>5}  {:6.4f}  {:6.4f}  {:6.4f}  {:5.1f} %\n", name, score.count,
                   std::sqrt(score.squares / count), std::sqrt(score.baseline_squares / count),
                   median(score.misses), 100.0 * static_cast<double>(score.covered) / count);
    };
    fmt::print("{}\n", task);
    Score all;
    double sum = 0.0;
    double baseline_sum = 0.0;
    for (const auto &[name, score] : scores) {
        line(name, score);
        all.add(score);
        sum += std::sqrt(score.squares / static_cast<double>(score.count));
        baseline_sum += std::sqrt(score.baseline_squares / static_cast<double>(score.count));
    }
    line("all values", all);
    const auto groups = static_cast<double>(scores.size());
    fmt::print("  {:<24}        {:6.4f}  {:6.4f}\n", "mean of the rows above", sum / groups,
               baseline_sum / groups);
    std::fflush(stdout);
}

double arcsine(double rf) {
    return std::asin(std::sqrt(std::clamp(rf, 0.0, 1.0)));
}
double from_arcsine(double scaled) {
    return std::pow(std::sin(scaled), 2);
}
double same(double value) {
    return value;
}

/// The scale that a model works on.
struct Scale {
    double (*to)(double);
    double (*from)(double);
    Range range;
};

const Scale kArcsine{arcsine, from_arcsine, {0.0, std::numbers::pi / 2}};
const Scale kFraction{same, same, {0.0, 1.0}};
const Scale kAsMeasured{same, same, {}};

RetentionTable on_scale(RetentionTable table, const Scale &scale) {
    for (auto &value : table.values) {
        value.value = scale.to(value.value);
    }
    return table;
}

using Baseline = std::vector<double> (*)(const Dataset &, const std::vector<Question> &,
                                         std::size_t fold);

bool covers(const Prediction &prediction, double value) {
    return std::abs(value - prediction.location) <= prediction.half_width();
}

std::vector<double> mixture_means(const RetentionTable &table) {
    std::vector<double> sums(table.mixtures.size());
    std::vector<double> counts(table.mixtures.size());
    for (const auto &value : table.values) {
        sums[value.mixture] += value.value;
        counts[value.mixture] += 1.0;
    }
    for (std::size_t e = 0; e < sums.size(); ++e) {
        sums[e] /= std::max(counts[e], 1.0);
    }
    return sums;
}

/// Scores the predictions by structure of the compounds of one fold.
void score_unseen(const Dataset &data, const StructureModel &model, const Scale &scale,
                  std::size_t fold, Scores &scores) {
    const auto means = mixture_means(training_part(data, fold));
    std::map<std::size_t, std::vector<Prediction>> predicted;
    for (const auto &value : data.table.values) {
        if (data.fold[value.compound] != fold) {
            continue;
        }
        auto &predictions = predicted[value.compound];
        if (predictions.empty()) {
            predictions = predict_retention(model, data.table.compounds[value.compound]);
        }
        const Prediction &prediction = predictions[value.mixture];
        scores[data.labels[value.mixture]].add(scale.from(prediction.location) - value.value,
                                               means[value.mixture] - value.value,
                                               covers(prediction, scale.to(value.value)));
    }
}

/// Scores `fit_neighbours` on the questions of one fold, and `predict_curve_through` beside it.
void score_questions(const Dataset &data, const std::vector<Question> &questions, Baseline baseline,
                     const CompositionCurves &curves, const Scale &scale, const Scale &curve_scale,
                     std::size_t fold, Scores &scores, Scores &curve_scores) {
    const RetentionTable training = on_scale(training_part(data, fold), scale);
    const auto answers = baseline(data, questions, fold);
    using Key = std::pair<std::size_t, std::array<std::size_t, 2>>;
    std::map<Key, std::optional<NeighbourRegression>> regressions;
    for (std::size_t i = 0; i < questions.size(); ++i) {
        const Question &q = questions[i];
        if (data.fold[q.compound] != fold) {
            continue;
        }
        const CompoundFeatures &compound = data.table.compounds[q.compound];
        const auto through =
            predict_curve_through(curves, compound,
                                  {{q.known[0], curve_scale.to(q.values[0])},
                                   {q.known[1], curve_scale.to(q.values[1])}})[q.target];
        const double miss = answers[i] - q.truth;
        const std::string &label = data.labels[q.target];
        const double curve_error = curve_scale.from(through.location) - q.truth;
        const bool curve_covers = covers(through, curve_scale.to(q.truth));
        curve_scores[label].add(curve_error, miss, curve_covers);
        const auto [at, is_new] = regressions.try_emplace({q.target, q.known});
        if (is_new) {
            at->second = fit_neighbours(training, {q.known[0], q.known[1]}, q.target, scale.range);
        }
        if (!at->second) { // as a user would: the curve where too few compounds are in common
            scores[label].add(curve_error, miss, curve_covers);
            continue;
        }
        const Prediction prediction = predict_from_neighbours(
            *at->second, compound, {scale.to(q.values[0]), scale.to(q.values[1])});
        scores[label].add(scale.from(prediction.location) - q.truth, miss,
                          covers(prediction, scale.to(q.truth)));
    }
}

/// Each mixture as a system of its own.
void score_single_systems(const Dataset &data, const Scale &scale, Scores &scores) {
    for (std::size_t e = 0; e < data.labels.size(); ++e) {
        Dataset single{{data.table.compounds, {{}}, {}}, {data.labels[e]}, data.fold};
        for (const auto &value : data.table.values) {
            if (value.mixture == e) {
                single.table.values.push_back({value.compound, 0, value.value});
            }
        }
        for (std::size_t fold = 0; fold < kFolds; ++fold) {
            RetentionTable training = training_part(single, fold);
            std::vector<bool> measured(training.compounds.size(), false);
            for (const auto &value : training.values) {
                measured[value.compound] = true;
            }
            std::vector<Eigen::Index> compounds;
            for (std::size_t c = 0; c < measured.size(); ++c) {
                if (measured[c]) {
                    compounds.push_back(static_cast<Eigen::Index>(c));
                }
            }
            const auto model =
                fit_structure_model(on_scale(part_of(training, compounds), scale), scale.range);
            if (model) {
                score_unseen(single, *model, scale, fold, scores);
            }
        }
    }
}

void evaluate(const std::string &name, const Dataset &data, const Scale &scale,
              const Scale &neighbour_scale, const std::vector<Question> &questions,
              Baseline baseline) {
    Scores single;
    score_single_systems(data, scale, single);
    print(name + ", unseen compound, each system by itself; baseline: mean", single);
    Scores unseen;
    Scores neighbours;
    Scores through;
    for (std::size_t fold = 0; fold < kFolds; ++fold) {
        const auto model =
            fit_structure_model(on_scale(training_part(data, fold), scale), scale.range);
        score_unseen(data, *model, scale, fold, unseen);
        const auto curves = fit_structure_model(on_scale(training_part(data, fold), scale),
                                                scale.range, SearchGoal::own_curves);
        score_questions(data, questions, baseline, fit_composition_curves(*curves), neighbour_scale,
                        scale, fold, neighbours, through);
    }
    print(name + ", unseen compound, all systems jointly; baseline: mean", unseen);
    const std::string other = baseline == straight_line ? "straight line" : "quadratic regression";
    print(name + ", from two other mixtures, regression; baseline: " + other, neighbours);
    print(name + ", from two other mixtures, curves; baseline: " + other, through);
}

int run(const std::string &folder) {
    fmt::print("{:<26} {:>5}  {:>6}  {:>6}  {:>6}  {}\n", "task and system", "n", "RMSE", "base",
               "median", "in 90 %");
    const Dataset plates = read_plates(folder);
    evaluate("R_F", plates, kArcsine, kFraction, between_neighbours(plates), quadratic_regression);
    const Dataset columns = read_columns(folder);
    evaluate("log10 k", columns, kAsMeasured, kAsMeasured, from_nearest(columns), straight_line);
    Scores times;
    score_single_systems(read_gradients(folder), kAsMeasured, times);
    print("retention time (min), unseen compound, each system by itself; baseline: mean", times);
    Scores indices;
    score_single_systems(read_indices(folder), kAsMeasured, indices);
    print("retention index of derivatives, from the free compounds; baseline: mean", indices);
    return 0;
}

} // namespace

int main(int argc, char **argv) {
    if (argc != 2) {
        fmt::print(stderr, "usage: evaluate_prediction DATA_DIR\n");
        return 2;
    }
    try {
        return run(argv[1]);
    } catch (const InputError &error) {
        fmt::print(stderr, "{}\n", error.what());
        return 2;
    }
}
