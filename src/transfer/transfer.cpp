#include "transfer/transfer.h"

#include "shared/robust.h"

#include <boost/math/special_functions/gamma.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>

namespace cospot::transfer {

namespace {

constexpr Eigen::Index kParts = 5;
constexpr std::array<double, 6> kFreedoms = {2.0, 3.0, 4.0, 7.0, 15.0, 60.0};
/// Others must bring the typical miss below this share of the spread of the values.
constexpr double kInforms = 0.8;
constexpr double kNothing = std::numeric_limits<double>::quiet_NaN();

/// A compound's value on a target, and what the relation expects there from its other values.
struct LeftOut {
    double value;
    double expected;
    double deviation; ///< that the relation expects of a reading
};

bool is_known(double value) {
    return !std::isnan(value);
}

std::vector<Eigen::Index> rows_of_part(Eigen::Index rows, Eigen::Index part, bool inside) {
    std::vector<Eigen::Index> chosen;
    for (Eigen::Index c = 0; c < rows; ++c) {
        if ((c % kParts == part) == inside) {
            chosen.push_back(c);
        }
    }
    return chosen;
}

double reading_deviation(const Relation &relation, const Expectation &expectation,
                         Eigen::Index system) {
    return std::sqrt(std::max(expectation.covariance(system, system), 0.0) +
                     relation.noise[system]);
}

std::vector<std::vector<LeftOut>> leave_out(const Eigen::MatrixXd &values,
                                            const Eigen::VectorXd &noise,
                                            const std::vector<Eigen::Index> &targets) {
    std::vector<std::vector<LeftOut>> left_out(targets.size());
    for (Eigen::Index part = 0; part < kParts; ++part) {
        const Relation relation =
            fit_relation(values(rows_of_part(values.rows(), part, false), Eigen::all), noise);
        for (const Eigen::Index c : rows_of_part(values.rows(), part, true)) {
            for (std::size_t t = 0; t < targets.size(); ++t) {
                Eigen::VectorXd row = values.row(c);
                const double value = row[targets[t]];
                row[targets[t]] = kNothing;
                if (is_known(value) && row.array().isNaN().count() < row.size()) {
                    const Expectation expectation = expect(relation, row);
                    left_out[t].push_back({value, expectation.mean[targets[t]],
                                           reading_deviation(relation, expectation, targets[t])});
                }
            }
        }
    }
    return left_out;
}

double log_t(double z, double freedom) {
    return boost::math::lgamma((freedom + 1) / 2) - boost::math::lgamma(freedom / 2) -
           0.5 * std::log(freedom * std::numbers::pi) -
           (freedom + 1) / 2 * std::log1p(z * z / freedom);
}

/// Scale of a Student t with given freedom by maximum likelihood (fixed-point form of EM).
double scale_of(const std::vector<double> &misses, double freedom) {
    double variance = 1.0;
    for (int round = 0; round < 50; ++round) {
        double sum = 0.0;
        for (const double miss : misses) {
            sum += (freedom + 1) * miss * miss / (freedom + miss * miss / variance);
        }
        variance = std::max(sum / static_cast<double>(misses.size()), 1e-12);
    }
    return std::sqrt(variance);
}

/// Scale and freedom under which the misses are likeliest.
void calibrate(Target &target, const std::vector<double> &misses) {
    double best = -std::numeric_limits<double>::infinity();
    for (const double freedom : kFreedoms) {
        const double scale = scale_of(misses, freedom);
        double likelihood = 0.0;
        for (const double miss : misses) {
            likelihood += log_t(miss / scale, freedom) - std::log(scale);
        }
        if (likelihood > best) {
            best = likelihood;
            target.factor = scale;
            target.freedom = freedom;
        }
    }
}

std::optional<Target> fit_target(Eigen::Index system, std::vector<LeftOut> left_out) {
    if (std::ssize(left_out) < kFewestCompounds) {
        return std::nullopt;
    }
    std::stable_sort(left_out.begin(), left_out.end(), [](const LeftOut &a, const LeftOut &b) {
        return a.expected < b.expected; // the order in which a trend keeps its points
    });
    std::vector<double> positions;
    std::vector<double> misses; // in units of what the relation expects
    std::vector<double> values;
    for (const LeftOut &one : left_out) {
        positions.push_back(one.expected);
        misses.push_back((one.value - one.expected) / one.deviation);
        values.push_back(one.value);
    }
    Target target;
    target.system = system;
    target.trend = fit_trend(positions, misses);
    std::vector<double> standardised;
    std::vector<double> in_units;
    for (std::size_t i = 0; i < left_out.size(); ++i) {
        in_units.push_back(target.trend.misses[i] * left_out[i].deviation);
        standardised.push_back(target.trend.misses[i] /
                               scatter_at(target.trend, target.trend.positions[i]));
    }
    calibrate(target, standardised);
    target.typical_miss = deviation_about_median(in_units);
    target.typical_spread = deviation_about_median(values);
    return target.typical_miss < kInforms * target.typical_spread ? std::optional(target)
                                                                  : std::nullopt;
}

std::vector<Source> sources_of(const Eigen::MatrixXd &values, const Eigen::MatrixXd &correlation,
                               Eigen::Index target) {
    std::vector<Source> sources;
    for (Eigen::Index s = 0; s < values.cols(); ++s) {
        Source source{s, correlation(target, s), 0};
        for (Eigen::Index c = 0; c < values.rows(); ++c) {
            source.common += is_known(values(c, s)) && is_known(values(c, target)) ? 1 : 0;
        }
        if (s != target && source.common > 0) {
            sources.push_back(source);
        }
    }
    std::stable_sort(sources.begin(), sources.end(), [](const Source &a, const Source &b) {
        return std::abs(a.correlation) > std::abs(b.correlation);
    });
    return sources;
}

} // namespace

TransferModel fit_transfer(const Eigen::MatrixXd &values, const Eigen::VectorXd &noise,
                           const std::vector<Eigen::Index> &targets) {
    TransferModel model;
    model.relation = fit_relation(values, noise);
    const auto left_out = leave_out(values, noise, targets);
    const Eigen::MatrixXd correlation = reading_correlation(model.relation);
    for (std::size_t t = 0; t < targets.size(); ++t) {
        if (auto target = fit_target(targets[t], left_out[t])) {
            target->sources = sources_of(values, correlation, targets[t]);
            model.targets.push_back(std::move(*target));
        }
    }
    return model;
}

TransferredCompound transfer(const TransferModel &model, const Eigen::VectorXd &values) {
    TransferredCompound compound;
    if (values.array().isNaN().count() == values.size()) {
        return compound;
    }
    const Expectation expectation = expect(model.relation, values);
    std::vector<Eigen::Index> systems;
    for (const Target &target : model.targets) {
        if (is_known(values[target.system])) {
            continue;
        }
        const double expected = expectation.mean[target.system];
        const double deviation = reading_deviation(model.relation, expectation, target.system);
        compound.readings.push_back(
            {target.system, expected + deviation * trend_at(target.trend, expected),
             deviation * target.factor * scatter_at(target.trend, expected), target.freedom});
        systems.push_back(target.system);
    }
    Eigen::MatrixXd covariance = expectation.covariance(systems, systems);
    covariance.diagonal() += model.relation.noise(systems);
    const Eigen::VectorXd inverse = covariance.diagonal().cwiseSqrt().cwiseInverse();
    compound.correlation = inverse.asDiagonal() * covariance * inverse.asDiagonal();
    return compound;
}

Eigen::MatrixXd reading_correlation(const Relation &relation) {
    Eigen::MatrixXd covariance = relation.covariance;
    covariance.diagonal() += relation.noise;
    const Eigen::VectorXd inverse = covariance.diagonal().cwiseSqrt().cwiseInverse();
    return inverse.asDiagonal() * covariance * inverse.asDiagonal();
}

} // namespace cospot::transfer
