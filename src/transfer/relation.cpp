#include "transfer/relation.h"

#include "shared/robust.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace cospot::transfer {

namespace {

constexpr int kRounds = 40;
constexpr double kFreedom = 5.0;        ///< of the Student t
constexpr double kPriorCompounds = 2.0; ///< weight of "systems do not go together"
constexpr double kSmallestVariance = 1e-9;

std::vector<Eigen::Index> measured_in(const Eigen::VectorXd &values) {
    std::vector<Eigen::Index> systems;
    for (Eigen::Index s = 0; s < values.size(); ++s) {
        if (!std::isnan(values[s])) {
            systems.push_back(s);
        }
    }
    return systems;
}

/// Variance about the median; of values more than half of which are equal, the plain one.
double variance_of(const std::vector<double> &values, double median) {
    const double robust = deviation_about_median(values);
    double squares = 0.0;
    for (const double value : values) {
        squares += (value - median) * (value - median);
    }
    const double variance =
        robust > 0.0 ? robust * robust : squares / static_cast<double>(values.size());
    return std::max(variance, kSmallestVariance);
}

/// The relation before anything is known of how systems go together. Its medians keep mistyped
/// values out of the prior, which would weaken all correlations of a system.
Relation independent(const Eigen::MatrixXd &values, const Eigen::VectorXd &noise) {
    const Eigen::Index systems = values.cols();
    Relation relation{Eigen::VectorXd::Zero(systems),
                      kSmallestVariance * Eigen::MatrixXd::Identity(systems, systems), noise};
    for (Eigen::Index s = 0; s < systems; ++s) {
        std::vector<double> known;
        for (const double value : values.col(s)) {
            if (!std::isnan(value)) {
                known.push_back(value);
            }
        }
        if (!known.empty()) {
            relation.mean[s] = upper_median(known);
            relation.covariance(s, s) = variance_of(known, relation.mean[s]);
        }
    }
    return relation;
}

/// What the values say beyond the mean: the gain, and the squared distance from the mean.
struct Update {
    Expectation expectation;
    double squared_distance = 0.0;
};

Update update(const Relation &relation, const Eigen::VectorXd &values,
              const std::vector<Eigen::Index> &known) {
    if (known.empty()) {
        return {{relation.mean, relation.covariance}, 0.0};
    }
    Eigen::MatrixXd among = relation.covariance(known, known);
    among.diagonal() += relation.noise(known);
    const Eigen::LLT<Eigen::MatrixXd> factor(among);
    const Eigen::MatrixXd cross = relation.covariance(known, Eigen::all);
    const Eigen::VectorXd deviation = values(known) - relation.mean(known);
    const Eigen::VectorXd solved = factor.solve(deviation);
    Update result;
    result.expectation.mean = relation.mean + cross.transpose() * solved;
    result.expectation.covariance = relation.covariance - cross.transpose() * factor.solve(cross);
    result.squared_distance = deviation.dot(solved);
    return result;
}

} // namespace

Relation fit_relation(const Eigen::MatrixXd &values, const Eigen::VectorXd &noise) {
    Relation relation = independent(values, noise);
    const Eigen::MatrixXd prior = kPriorCompounds * relation.covariance;
    const Eigen::Index systems = values.cols();
    for (int round = 0; round < kRounds; ++round) {
        Eigen::VectorXd sum = Eigen::VectorXd::Zero(systems);
        Eigen::MatrixXd squares = Eigen::MatrixXd::Zero(systems, systems);
        Eigen::MatrixXd spread = Eigen::MatrixXd::Zero(systems, systems);
        double weights = 0.0;
        double count = 0.0;
        for (Eigen::Index c = 0; c < values.rows(); ++c) {
            const Eigen::VectorXd row = values.row(c);
            const auto known = measured_in(row);
            if (known.empty()) {
                continue;
            }
            const Update compound = update(relation, row, known);
            const double weight = (kFreedom + static_cast<double>(known.size())) /
                                  (kFreedom + compound.squared_distance);
            const Eigen::VectorXd &mean = compound.expectation.mean;
            sum += weight * mean;
            squares += weight * mean * mean.transpose();
            spread += compound.expectation.covariance;
            weights += weight;
            count += 1.0;
        }
        if (count < 1.0) {
            break;
        }
        relation.mean = sum / weights;
        squares -= weights * relation.mean * relation.mean.transpose();
        relation.covariance = (squares + spread + prior) / (count + kPriorCompounds);
    }
    return relation;
}

Expectation expect(const Relation &relation, const Eigen::VectorXd &values) {
    return update(relation, values, measured_in(values)).expectation;
}

} // namespace cospot::transfer
