// Expected retention on held-out compounds, by five-fold cross-validation over compounds:
//     evaluate_prediction DATA_DIR
// DATA_DIR holds tlc-xu2022, hplc-isocratic, hplc-report and gc-pnnl2023. One table goes to
// standard output: root mean square error, that of a plain baseline, median absolute error, and how
// many values the 90 % intervals hold. The same input gives the same table.

#include "evaluate_prediction_data.h"
#include "evaluate_prediction_questions.h"
#include "model/prediction/structure_model.h"
#include "model/transfer/transfer.h"
#include "shared/error.h"

#include <Eigen/Dense>
#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>
#include <map>
#include <numbers>
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
    double reading; ///< standard deviation of a reading, as the matcher assumes it
};

const Scale kArcsine{arcsine, from_arcsine, {0.0, std::numbers::pi / 2}, 0.03};
const Scale kAsMeasured{same, same, {}, 0.021};

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

/// Compounds x mixtures on the model scale, NaN where nothing was measured.
Eigen::MatrixXd cells_of(const Dataset &data, const Scale &scale) {
    Eigen::MatrixXd cells =
        Eigen::MatrixXd::Constant(std::ssize(data.table.compounds), std::ssize(data.table.mixtures),
                                  std::numeric_limits<double>::quiet_NaN());
    for (const auto &value : data.table.values) {
        cells(static_cast<Eigen::Index>(value.compound), static_cast<Eigen::Index>(value.mixture)) =
            scale.to(value.value);
    }
    return cells;
}

/// Scores `transfer` on the questions of one fold: the compound's values in all other mixtures are
/// known, and in the target those of the compounds outside the fold.
void score_questions(const Dataset &data, const std::vector<Question> &questions, Baseline baseline,
                     const Scale &scale, std::size_t fold, Scores &scores) {
    const Eigen::MatrixXd cells = cells_of(data, scale);
    const Eigen::VectorXd noise =
        Eigen::VectorXd::Constant(cells.cols(), scale.reading * scale.reading);
    const auto answers = baseline(data, questions, fold);
    std::map<std::size_t, std::pair<Eigen::MatrixXd, transfer::TransferModel>> fitted;
    for (std::size_t i = 0; i < questions.size(); ++i) {
        const Question &q = questions[i];
        if (data.fold[q.compound] != fold) {
            continue;
        }
        const auto target = static_cast<Eigen::Index>(q.target);
        const auto [at, is_new] = fitted.try_emplace(q.target);
        auto &[known, model] = at->second;
        if (is_new) {
            known = cells;
            for (std::size_t c = 0; c < data.fold.size(); ++c) {
                if (data.fold[c] == fold) {
                    known(static_cast<Eigen::Index>(c), target) =
                        std::numeric_limits<double>::quiet_NaN();
                }
            }
            model = transfer::fit_transfer(known, noise, {target});
        }
        const auto reading =
            transfer::transfer(model, known.row(static_cast<Eigen::Index>(q.compound)));
        if (reading.readings.empty()) {
            continue;
        }
        const transfer::Transferred &expected = reading.readings.front();
        scores[data.labels[q.target]].add(
            scale.from(std::clamp(expected.location, scale.range.low, scale.range.high)) - q.truth,
            answers[i] - q.truth,
            covers({expected.location, expected.scale, expected.freedom}, scale.to(q.truth)));
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
              const std::vector<Question> &questions, Baseline baseline) {
    Scores single;
    score_single_systems(data, scale, single);
    print(name + ", unseen compound, each system by itself; baseline: mean", single);
    Scores unseen;
    Scores transferred;
    for (std::size_t fold = 0; fold < kFolds; ++fold) {
        const auto model =
            fit_structure_model(on_scale(training_part(data, fold), scale), scale.range);
        score_unseen(data, *model, scale, fold, unseen);
        score_questions(data, questions, baseline, scale, fold, transferred);
    }
    print(name + ", unseen compound, all systems jointly; baseline: mean", unseen);
    const std::string other = baseline == straight_line ? "straight line" : "quadratic regression";
    print(name + ", from all other mixtures; baseline, from two: " + other, transferred);
}

int run(const std::string &folder) {
    fmt::print("{:<26} {:>5}  {:>6}  {:>6}  {:>6}  {}\n", "task and system", "n", "RMSE", "base",
               "median", "in 90 %");
    const Dataset plates = read_plates(folder);
    evaluate("R_F", plates, kArcsine, between_neighbours(plates), quadratic_regression);
    const Dataset columns = read_columns(folder);
    evaluate("log10 k", columns, kAsMeasured, from_nearest(columns), straight_line);
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
