#include "model/transfer/transfer.h"

#include "model/prediction/calibration.h"
#include "shared/student_t.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <utility>

namespace cospot::transfer {

namespace {

constexpr Eigen::Index kParts = 5; ///< of a cross-validation, as usual
/// From tails as heavy as the variance allows to those of a normal distribution.
constexpr std::array<double, 5> kFreedoms = {2.0, 3.0, 4.0, 7.0, 15.0};
/// Others must make left-out readings so much likelier, in natural logarithms: a reading, and all
/// together, which chance brings to unrelated systems.
constexpr double kInforms = 0.05;
constexpr double kChance = 3.0;
constexpr double kNothing = std::numeric_limits<double>::quiet_NaN();

bool is_known(double value) {
    return !std::isnan(value);
}

/// Compounds measured on a target and on another system.
std::vector<Eigen::Index> common_compounds(const Eigen::MatrixXd &values, Eigen::Index target) {
    std::vector<Eigen::Index> compounds;
    for (Eigen::Index c = 0; c < values.rows(); ++c) {
        const Eigen::Index missing = values.row(c).array().isNaN().count();
        if (is_known(values(c, target)) && missing < values.cols() - 1) {
            compounds.push_back(c);
        }
    }
    return compounds;
}

Expectation without_target(const Relation &relation, Eigen::VectorXd values, Eigen::Index target) {
    values[target] = kNothing;
    return expect(relation, values);
}

prediction::Moments reading_of(const Relation &relation, const Expectation &expectation,
                               Eigen::Index system) {
    return {expectation.mean[system],
            std::max(expectation.covariance(system, system), 0.0) + relation.noise[system]};
}

/// A compound's values on all systems as inputs of a curve: in deviations, 0 on the target.
Eigen::VectorXd inputs_of(const Relation &relation, const Expectation &expectation,
                          Eigen::Index target) {
    Eigen::VectorXd sources = (expectation.mean - relation.mean)
                                  .cwiseQuotient(relation.covariance.diagonal().cwiseSqrt());
    sources[target] = 0.0;
    return sources;
}

/// Correlations of readings: of true values with this covariance, each with its noise.
Eigen::MatrixXd correlation_of(Eigen::MatrixXd covariance, const Eigen::VectorXd &noise) {
    covariance.diagonal() += noise;
    const Eigen::VectorXd inverse = covariance.diagonal().cwiseSqrt().cwiseInverse();
    return inverse.asDiagonal() * covariance * inverse.asDiagonal();
}

/// What two ways expect of one reading.
struct TwoWays {
    prediction::Moments relation;
    prediction::Moments curve;
};

/// Both made one: the weighted mean of the expectations, and of the logarithms of their variances.
prediction::Moments stacked(const TwoWays &ways, double share_of_relation) {
    const double rest = 1.0 - share_of_relation;
    return {share_of_relation * ways.relation.mean + rest * ways.curve.mean,
            std::exp(share_of_relation * std::log(ways.relation.variance) +
                     rest * std::log(ways.curve.variance))};
}

/// A target with the compounds that it can be learned from.
struct Learnable {
    Eigen::Index system = 0;
    std::vector<Eigen::Index> compounds;
    std::vector<prediction::Moments> from_relation; ///< of their readings, each when left out
};

std::vector<Learnable> learnable(const Eigen::MatrixXd &values,
                                 const std::vector<Eigen::Index> &targets) {
    std::vector<Learnable> result;
    for (const Eigen::Index target : targets) {
        auto compounds = common_compounds(values, target);
        if (std::ssize(compounds) >= kFewestCompounds) {
            std::vector<prediction::Moments> readings(compounds.size());
            result.push_back({target, std::move(compounds), std::move(readings)});
        }
    }
    return result;
}

/// Asks the relation for the readings of compounds that it was not fitted to: those of one part of
/// all compounds after the other.
void leave_out(const Eigen::MatrixXd &values, const Eigen::VectorXd &noise,
               std::vector<Learnable> &targets) {
    for (Eigen::Index part = 0; part < kParts && !targets.empty(); ++part) {
        std::vector<Eigen::Index> kept;
        for (Eigen::Index c = 0; c < values.rows(); ++c) {
            if (c % kParts != part) {
                kept.push_back(c);
            }
        }
        const Eigen::MatrixXd training = values(kept, Eigen::all);
        const Relation relation = fit_relation(training, noise);
        for (Learnable &target : targets) {
            const Relation sharp = sharpened(relation, training, target.system);
            for (std::size_t i = 0; i < target.compounds.size(); ++i) {
                const Eigen::Index c = target.compounds[i];
                if (c % kParts == part) {
                    target.from_relation[i] = reading_of(
                        sharp, without_target(sharp, values.row(c), target.system), target.system);
                }
            }
        }
    }
}

/// Of each calibration, so many misses are assumed: most as expected, one three times as large. Few
/// compounds can't show how rare large misses are.
constexpr double kAssumedMisses = 4.0;
constexpr double kAssumedLarge = 1.0;

/// Scale of a Student t with given freedom by maximum likelihood (fixed-point form of EM).
double scale_of(const std::vector<double> &misses, double freedom) {
    double variance = 1.0;
    for (int round = 0; round < 50; ++round) {
        double sum = kAssumedMisses;
        for (const double miss : misses) {
            sum += (freedom + 1) * miss * miss / (freedom + miss * miss / variance);
        }
        variance = std::max(sum / (static_cast<double>(misses.size()) + kAssumedMisses), 1e-12);
    }
    return std::sqrt(variance);
}

/// The scale with which nine in ten of further misses lie within the 90 % interval (conformal
/// prediction: vovk2005, from memory).
double covering_scale(const std::vector<double> &misses, double freedom) {
    return prediction::interval_quantile(misses) /
           student_t_reach(freedom, prediction::kIntervalCoverage);
}

/// Scale and freedom under which the misses are likeliest, the scale not below one that covers;
/// returns the sum of their log densities.
double calibrate(Target &target, const std::vector<double> &misses) {
    double best = -std::numeric_limits<double>::infinity();
    double sum = 0.0;
    for (const double freedom : kFreedoms) {
        const double scale = scale_of(misses, freedom);
        double likelihood = 0.0;
        for (const double miss : misses) {
            likelihood += log_student_t(miss / scale, freedom) - std::log(scale);
        }
        const double assumed = kAssumedMisses * log_student_t(1.0 / scale, freedom) +
                               kAssumedLarge * log_student_t(3.0 / scale, freedom) -
                               (kAssumedMisses + kAssumedLarge) * std::log(scale);
        if (likelihood + assumed > best) {
            best = likelihood + assumed;
            sum = likelihood;
            target.factor = scale;
            target.freedom = freedom;
        }
    }
    target.factor = std::max(target.factor, covering_scale(misses, target.freedom));
    return sum;
}

/// Mean log density of readings under the normal distribution of all of them.
double log_density_of_any(const Eigen::VectorXd &readings) {
    const auto count = static_cast<double>(readings.size());
    const double variance = (readings.array() - readings.mean()).square().sum() / (count - 1.0);
    return -0.5 * std::log(2.0 * std::numbers::pi * std::max(variance, 1e-18)) -
           0.5 * (count - 1.0) / count;
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

/// Mean of the negative log densities of left-out readings, as those of a Student t.
double mean_loss(const std::vector<TwoWays> &ways, const Eigen::VectorXd &readings, double share) {
    constexpr double freedom = 4.0;
    double sum = 0.0;
    for (std::size_t i = 0; i < ways.size(); ++i) {
        const prediction::Moments expected = stacked(ways[i], share);
        const double miss = readings[static_cast<Eigen::Index>(i)] - expected.mean;
        sum += 0.5 * std::log(expected.variance) +
               0.5 * (freedom + 1.0) * std::log1p(miss * miss / expected.variance / freedom);
    }
    return sum / static_cast<double>(ways.size());
}

/// The share of the relation: a half, unless another makes left-out readings clearly likelier. A
/// relation is straight, so it loses its share where the target bends. Smaller differences are
/// chance.
double best_share(const std::vector<TwoWays> &ways, const Eigen::VectorXd &readings) {
    const double clearly = 0.1 + 8.0 / static_cast<double>(ways.size()); // of the mean loss
    double best = 0.5;
    double smallest = mean_loss(ways, readings, best) - clearly;
    for (const double share : {0.0, 0.25, 0.75, 1.0}) {
        const double loss = mean_loss(ways, readings, share);
        if (loss < smallest) {
            smallest = loss;
            best = share;
        }
    }
    return best;
}

/// Fits the curve of a target and calibrates it together with what the relation expects.
Target fit_target(const Eigen::MatrixXd &values, const Learnable &learnable, Relation relation) {
    const std::vector<Eigen::Index> &compounds = learnable.compounds;
    const Eigen::Index system = learnable.system;
    const auto count = std::ssize(compounds);
    Eigen::MatrixXd sources(count, values.cols());
    for (Eigen::Index i = 0; i < count; ++i) {
        const Eigen::Index c = compounds[static_cast<std::size_t>(i)];
        sources.row(i) =
            inputs_of(relation, without_target(relation, values.row(c), system), system);
    }
    const Eigen::VectorXd readings = values(compounds, system);
    Target target;
    target.system = system;
    target.curve = fit_source_curve(sources, readings, system, relation.typical_correlation);
    target.relation = std::move(relation);
    std::vector<TwoWays> ways;
    for (std::size_t i = 0; i < compounds.size(); ++i) {
        ways.push_back({learnable.from_relation[i], target.curve.left_out[i]});
    }
    target.share_of_relation = best_share(ways, readings);
    std::vector<double> positions;
    std::vector<double> misses; // in units of what is expected
    double units = 0.0;         // their logarithms
    for (std::size_t i = 0; i < compounds.size(); ++i) {
        const prediction::Moments expected = stacked(ways[i], target.share_of_relation);
        const double deviation = std::sqrt(expected.variance);
        positions.push_back(expected.mean);
        misses.push_back((readings[static_cast<Eigen::Index>(i)] - expected.mean) / deviation);
        units += std::log(deviation);
    }
    target.scatter = fit_scatter(positions, misses);
    std::vector<double> standardised;
    for (std::size_t i = 0; i < misses.size(); ++i) {
        const double scatter = scatter_at(target.scatter, positions[i]);
        standardised.push_back(misses[i] / scatter);
        units += std::log(scatter);
    }
    target.gain = (calibrate(target, standardised) - units) / static_cast<double>(count) -
                  log_density_of_any(readings);
    return target;
}

} // namespace

TransferModel fit_transfer(const Eigen::MatrixXd &values, const Eigen::VectorXd &noise,
                           const std::vector<Eigen::Index> &targets) {
    TransferModel model;
    model.relation = fit_relation(values, noise);
    std::vector<Learnable> learned = learnable(values, targets);
    leave_out(values, noise, learned);
    const Eigen::MatrixXd correlation = reading_correlation(model.relation);
    for (const Learnable &one : learned) {
        Target target = fit_target(values, one, sharpened(model.relation, values, one.system));
        target.sources = sources_of(values, correlation, one.system);
        const double needed = kInforms + kChance / static_cast<double>(one.compounds.size());
        (target.gain > needed ? model.targets : model.refused).push_back(std::move(target));
    }
    return model;
}

TransferredCompound transfer(const TransferModel &model, const Eigen::VectorXd &values) {
    TransferredCompound compound;
    if (values.array().isNaN().count() == values.size()) {
        return compound;
    }
    std::vector<Eigen::Index> systems;
    for (const Target &target : model.targets) {
        if (is_known(values[target.system])) {
            continue;
        }
        const Expectation alone = expect(target.relation, values);
        const prediction::Moments expected =
            stacked({reading_of(target.relation, alone, target.system),
                     reading_from(target.curve, inputs_of(target.relation, alone, target.system))},
                    target.share_of_relation);
        compound.readings.push_back({target.system, expected.mean,
                                     std::sqrt(expected.variance) * target.factor *
                                         scatter_at(target.scatter, expected.mean),
                                     target.freedom});
        systems.push_back(target.system);
    }
    if (!systems.empty()) {
        const Expectation expectation = expect(model.relation, values);
        compound.correlation =
            correlation_of(expectation.covariance(systems, systems), model.relation.noise(systems));
    }
    return compound;
}

Eigen::MatrixXd reading_correlation(const Relation &relation) {
    return correlation_of(relation.covariance, relation.noise);
}

} // namespace cospot::transfer
