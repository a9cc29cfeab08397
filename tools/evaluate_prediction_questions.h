#pragma once

#include "evaluate_prediction_data.h"

#include <array>
#include <cstddef>
#include <vector>

namespace cospot::evaluation {

/// A compound with values in two known mixtures and a target.
struct Question {
    std::size_t compound;
    std::array<std::size_t, 2> known;
    std::array<double, 2> values;
    std::size_t target;
    double truth;
};

/// Every value between two neighbouring eluents of one solvent pair.
[[nodiscard]] std::vector<Question> between_neighbours(const Dataset &data);

/// Every value of a compound with two others, from the two nearest modifier fractions (of two
/// equally near ones the lower).
[[nodiscard]] std::vector<Question> from_nearest(const Dataset &data);

/// Answers to all questions by plain means, in their order: the straight line through the two known
/// values against the modifier fraction, and the quadratic regression on the two known values,
/// fitted to the compounds outside the fold.
[[nodiscard]] std::vector<double>
straight_line(const Dataset &data, const std::vector<Question> &questions, std::size_t fold);
[[nodiscard]] std::vector<double>
quadratic_regression(const Dataset &data, const std::vector<Question> &questions, std::size_t fold);

} // namespace cospot::evaluation
