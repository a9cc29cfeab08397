#include "model/matcher/spread.h"

#include "shared/robust.h"

#include <boost/math/special_functions/digamma.hpp>
#include <boost/math/special_functions/gamma.hpp>
#include <boost/math/special_functions/trigamma.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

namespace cospot::matcher {

namespace {

constexpr double kAssumedFreedom = 4.0;
constexpr double kLeastFreedom = 3.0; // below, a Student t has no variance to speak of
constexpr double kMostFreedom = 60.0; // above, a Student t is a normal distribution
constexpr std::size_t kFewestForFreedom = 5;

/// Reading and rounding keep replicates from being closer than this share of the assumed spread.
constexpr double kFinestShare = 0.1;

/// Of compounds with replicates so many hold a mislabelled or mistyped value (assumed).
constexpr double kBlunders = 0.02;
/// The logarithm of the variance that a blunder makes is even up to 100 spreads squared: a wrong
/// label stands anywhere.
constexpr double kLogReachOfBlunder = 9.2;

/// A time is read to half a unit of the second decimal.
constexpr double kReadingOfTimeMin = 0.01;

/// Density of the logarithm of a sample variance where the true one is `variance` for all.
double log_of_alike(const SampleVariance &sample, double variance) {
    const double half = 0.5 * sample.freedom;
    const double x = half * sample.variance / variance;
    return half * std::log(x) - x - boost::math::lgamma(half);
}

/// The same where the true ones scatter as the prior says: an F distribution.
double log_of_scattered(const SampleVariance &sample, double variance, double prior_freedom) {
    const double half = 0.5 * sample.freedom;
    const double half_prior = 0.5 * prior_freedom;
    const double x = sample.freedom * sample.variance / (prior_freedom * variance);
    return boost::math::lgamma(half + half_prior) - boost::math::lgamma(half) -
           boost::math::lgamma(half_prior) + half * std::log(x) -
           (half + half_prior) * std::log1p(x);
}

double density_of_blunder(const SampleVariance &sample, double variance) {
    const double log_ratio = std::log(sample.variance / variance);
    return log_ratio > 0.0 && log_ratio < kLogReachOfBlunder ? 1.0 / kLogReachOfBlunder : 0.0;
}

/// Where it lies so far out that no blunder is expected there either, it is one all the same.
double share_of_blunder(const SampleVariance &sample, double variance, double regular) {
    const bool is_beyond = sample.variance > variance * std::exp(kLogReachOfBlunder);
    const double blunder =
        kBlunders * (is_beyond ? 1.0 / kLogReachOfBlunder : density_of_blunder(sample, variance));
    return blunder / (blunder + (1.0 - kBlunders) * regular);
}

/// The typical variance of few compounds: the assumption is a scaled inverse chi-squared
/// distribution, each compound's own variance a blunder or not. 1 / E(1 / variance), which without
/// blunders is the pooled variance.
double variance_of_few(double assumed, const std::vector<SampleVariance> &seen) {
    constexpr int steps = 200;
    constexpr double reach = 4.0; // of the logarithm of the spread, either way
    const SampleVariance assumption{assumed * assumed, kAssumedFreedom};
    std::vector<double> logs;
    std::vector<double> variances;
    for (int i = 0; i <= steps; ++i) {
        const double variance =
            assumption.variance * std::exp(2.0 * reach * (2.0 * i / steps - 1.0));
        double log_weight = log_of_alike(assumption, variance);
        for (const SampleVariance &sample : seen) {
            log_weight += std::log((1.0 - kBlunders) * std::exp(log_of_alike(sample, variance)) +
                                   kBlunders * density_of_blunder(sample, variance) + 1e-12);
        }
        variances.push_back(variance);
        logs.push_back(log_weight);
    }
    const double most = *std::max_element(logs.begin(), logs.end());
    double total = 0.0;
    double precision = 0.0;
    for (std::size_t i = 0; i < logs.size(); ++i) {
        const double weight = std::exp(logs[i] - most);
        total += weight;
        precision += weight / variances[i];
    }
    return total / precision;
}

/// x with trigamma(x) = y, by bisection on the logarithm.
double inverse_trigamma(double y) {
    double low = 1e-3;
    double high = 1e4;
    for (int i = 0; i < 80; ++i) {
        const double middle = std::sqrt(low * high);
        (boost::math::trigamma(middle) > y ? low : high) = middle;
    }
    return std::sqrt(low * high);
}

/// Mean and variance of the logarithms of variances, freed of what chance in few replicates adds.
struct LogMoments {
    double mean = 0.0;
    double excess = 0.0;
};

LogMoments log_moments(const std::vector<SampleVariance> &samples,
                       const std::vector<double> &weights) {
    std::vector<double> logs;
    double chance = 0.0;
    double total = 0.0;
    LogMoments moments;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double half = samples[i].freedom / 2;
        logs.push_back(std::log(samples[i].variance) - boost::math::digamma(half) + std::log(half));
        chance += weights[i] * boost::math::trigamma(half);
        moments.mean += weights[i] * logs.back();
        total += weights[i];
    }
    moments.mean /= total;
    double spread = 0.0;
    for (std::size_t i = 0; i < logs.size(); ++i) {
        spread += weights[i] * (logs[i] - moments.mean) * (logs[i] - moments.mean);
    }
    moments.excess = spread / std::max(1.0, total - 1.0) - chance / total;
    return moments;
}

/// The middle compound's variance: few blunders do not move it.
SpreadPrior first_guess(const std::vector<SampleVariance> &samples) {
    std::vector<double> variances;
    variances.reserve(samples.size());
    for (const SampleVariance &sample : samples) {
        // The median of chi-squared over its degrees of freedom (wilson1931, from memory).
        variances.push_back(sample.variance / std::pow(1.0 - 2.0 / (9.0 * sample.freedom), 3));
    }
    return {upper_median(std::move(variances)), kAssumedFreedom};
}

SpreadPrior prior_of_many(const std::vector<SampleVariance> &seen) {
    constexpr int rounds = 20;
    SpreadPrior prior = first_guess(seen);
    std::vector<double> weights(seen.size());
    for (int round = 0; round < rounds; ++round) {
        for (std::size_t i = 0; i < seen.size(); ++i) {
            weights[i] = 1.0 - blunder_probability(prior, seen[i]);
        }
        const LogMoments moments = log_moments(seen, weights);
        const double half =
            moments.excess > 0.0 ? inverse_trigamma(moments.excess) : kMostFreedom / 2;
        prior.freedom = std::clamp(2 * half, kLeastFreedom, kMostFreedom);
        prior.variance = std::exp(moments.mean + boost::math::digamma(prior.freedom / 2) -
                                  std::log(prior.freedom / 2));
    }
    return prior;
}

} // namespace

double assumed_spread(Technique technique, Quantity quantity, double longest_min) {
    switch (quantity) {
    case Quantity::Rf:
        return 0.03;
    case Quantity::k:
        switch (technique) {
        case Technique::gc:
            return 0.0043;
        case Technique::hplc:
            return 0.021;
        case Technique::column:
        case Technique::tlc:
        case Technique::paper:
            break;
        }
        return 0.041;
    case Quantity::RI:
        return 3.0;
    case Quantity::tR:
        return std::max(kReadingOfTimeMin, 0.005 * longest_min);
    case Quantity::RRT:
    case Quantity::r:
        return 0.0043;
    }
    return 0.0;
}

SpreadPrior fit_spread(double assumed, const std::vector<SampleVariance> &samples) {
    const double finest = kFinestShare * kFinestShare * assumed * assumed;
    std::vector<SampleVariance> seen;
    double freedom = 0.0;
    for (SampleVariance sample : samples) {
        if (sample.freedom > 0.0) {
            sample.variance = std::max(sample.variance, finest);
            freedom += sample.freedom;
            seen.push_back(sample);
        }
    }
    SpreadPrior prior{assumed * assumed, kAssumedFreedom};
    if (seen.size() >= kFewestForFreedom) {
        prior = prior_of_many(seen);
    } else if (!seen.empty()) {
        prior.variance = variance_of_few(assumed, seen);
    }
    prior.observed_freedom = freedom;
    prior.assumed = assumed;
    return prior;
}

double blunder_probability(const SpreadPrior &prior, const SampleVariance &own) {
    if (own.freedom <= 0.0 || own.variance <= prior.variance) {
        return 0.0;
    }
    return share_of_blunder(own, prior.variance,
                            std::exp(log_of_scattered(own, prior.variance, prior.freedom)));
}

SampleVariance posterior_variance(const SpreadPrior &prior, const SampleVariance &own) {
    const double freedom = prior.freedom + own.freedom;
    return {(prior.freedom * prior.variance + own.freedom * own.variance) / freedom, freedom};
}

} // namespace cospot::matcher
