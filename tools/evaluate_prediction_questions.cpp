#include "evaluate_prediction_questions.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <utility>

namespace cospot::evaluation {

using namespace prediction;

namespace {

using Cells = std::vector<std::map<std::size_t, double>>;

Cells cells_of(const RetentionTable &table) {
    Cells cells(table.compounds.size());
    for (const auto &value : table.values) {
        cells[value.compound][value.mixture] = value.value;
    }
    return cells;
}

} // namespace

std::vector<Question> between_neighbours(const Dataset &data) {
    const std::vector<std::vector<std::string>> series = {
        {"Hex", "Hex:EA 50:1", "Hex:EA 20:1", "Hex:EA 5:1", "Hex:EA 3:1", "Hex:EA 1:1",
         "Hex:EA 1:2", "EA"},
        {"Hex", "Hex:Et2O 2:1", "Hex:Et2O 1:1", "Et2O"},
        {"DCM", "DCM:MeOH 100:1", "DCM:MeOH 50:1", "DCM:MeOH 30:1", "DCM:MeOH 20:1",
         "DCM:MeOH 10:1"}};
    const auto position = [&](const std::string &label) {
        return static_cast<std::size_t>(std::find(data.labels.begin(), data.labels.end(), label) -
                                        data.labels.begin());
    };
    const Cells cells = cells_of(data.table);
    std::vector<Question> questions;
    for (const auto &eluents : series) {
        for (std::size_t i = 1; i + 1 < eluents.size(); ++i) {
            const std::size_t before = position(eluents[i - 1]);
            const std::size_t target = position(eluents[i]);
            const std::size_t behind = position(eluents[i + 1]);
            for (std::size_t c = 0; c < cells.size(); ++c) {
                if (cells[c].count(before) && cells[c].count(target) && cells[c].count(behind)) {
                    questions.push_back({c,
                                         {before, behind},
                                         {cells[c].at(before), cells[c].at(behind)},
                                         target,
                                         cells[c].at(target)});
                }
            }
        }
    }
    return questions;
}

std::vector<Question> from_nearest(const Dataset &data) {
    const Cells cells = cells_of(data.table);
    std::vector<Question> questions;
    for (std::size_t c = 0; c < cells.size(); ++c) {
        for (const auto &[target, truth] : cells[c]) {
            std::vector<std::pair<double, std::size_t>> others;
            for (const auto &[mixture, value] : cells[c]) {
                const double step = std::abs(data.table.mixtures[mixture].back() -
                                             data.table.mixtures[target].back());
                if (mixture != target) {
                    others.emplace_back(std::round(step * 1e4), mixture);
                }
            }
            if (others.size() < 2) {
                continue;
            }
            std::sort(others.begin(), others.end());
            const auto [low, high] = std::minmax(others[0].second, others[1].second);
            questions.push_back(
                {c, {low, high}, {cells[c].at(low), cells[c].at(high)}, target, truth});
        }
    }
    return questions;
}

std::vector<double> straight_line(const Dataset &data, const std::vector<Question> &questions,
                                  std::size_t /*fold*/) {
    std::vector<double> answers;
    for (const auto &q : questions) {
        const double x0 = data.table.mixtures[q.known[0]].back();
        const double x1 = data.table.mixtures[q.known[1]].back();
        const double x = data.table.mixtures[q.target].back();
        answers.push_back(q.values[0] + (q.values[1] - q.values[0]) * (x - x0) / (x1 - x0));
    }
    return answers;
}

std::vector<double> quadratic_regression(const Dataset &data,
                                         const std::vector<Question> &questions, std::size_t fold) {
    const auto terms = [](const Question &q) {
        const double a = q.values[0];
        const double b = q.values[1];
        return Eigen::RowVectorXd{{1.0, a, b, a * a, a * b, b * b}};
    };
    std::map<std::size_t, std::vector<const Question *>> training;
    for (const auto &q : questions) {
        if (data.fold[q.compound] != fold) {
            training[q.target].push_back(&q);
        }
    }
    std::map<std::size_t, Eigen::VectorXd> coefficients;
    for (const auto &[target, rows] : training) {
        Eigen::MatrixXd x(static_cast<Eigen::Index>(rows.size()), 6);
        Eigen::VectorXd y(x.rows());
        for (Eigen::Index i = 0; i < x.rows(); ++i) {
            x.row(i) = terms(*rows[static_cast<std::size_t>(i)]);
            y[i] = rows[static_cast<std::size_t>(i)]->truth;
        }
        coefficients[target] = x.colPivHouseholderQr().solve(y);
    }
    std::vector<double> answers;
    for (const auto &q : questions) {
        answers.push_back(terms(q) * coefficients[q.target]);
    }
    return answers;
}

} // namespace cospot::evaluation
