#include "matcher/spread.h"

#include <boost/math/special_functions/digamma.hpp>
#include <boost/math/special_functions/trigamma.hpp>

#include <algorithm>
#include <cmath>

namespace cospot::matcher {

namespace {

constexpr double kAssumedFreedom = 4.0;
constexpr double kLeastFreedom = 3.0; // below, a Student t has no variance to speak of
constexpr double kMostFreedom = 60.0; // above, a Student t is a normal distribution
constexpr std::size_t kFewestForFreedom = 5;

/// Reading and rounding keep replicates from being closer than this share of the assumed spread.
constexpr double kFinestShare = 0.1;

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

LogMoments log_moments(const std::vector<SampleVariance> &samples) {
    std::vector<double> logs;
    double chance = 0.0;
    for (const SampleVariance &sample : samples) {
        const double half = sample.freedom / 2;
        logs.push_back(std::log(sample.variance) - boost::math::digamma(half) + std::log(half));
        chance += boost::math::trigamma(half);
    }
    const auto n = static_cast<double>(logs.size());
    LogMoments moments;
    for (const double value : logs) {
        moments.mean += value / n;
    }
    double spread = 0.0;
    for (const double value : logs) {
        spread += (value - moments.mean) * (value - moments.mean) / (n - 1);
    }
    moments.excess = spread - chance / n;
    return moments;
}

} // namespace

double assumed_spread(Quantity quantity) {
    switch (quantity) {
    case Quantity::Rf:
        return 0.03;
    case Quantity::k:
        return 0.021;
    case Quantity::RI:
        return 3.0;
    case Quantity::tR:
        return 0.05;
    case Quantity::RRT:
    case Quantity::r:
        return 0.0043; // 1 % of the value as log10 (common practice, no source)
    }
    return 0.0;
}

SpreadPrior fit_spread(Quantity quantity, const std::vector<SampleVariance> &samples) {
    const double assumed = assumed_spread(quantity) * assumed_spread(quantity);
    std::vector<SampleVariance> seen;
    double freedom = 0.0;
    double sum = 0.0;
    for (SampleVariance sample : samples) {
        if (sample.freedom > 0.0) {
            sample.variance = std::max(sample.variance, kFinestShare * kFinestShare * assumed);
            freedom += sample.freedom;
            sum += sample.freedom * sample.variance;
            seen.push_back(sample);
        }
    }
    if (seen.size() < kFewestForFreedom) {
        const double pooled = (kAssumedFreedom * assumed + sum) / (kAssumedFreedom + freedom);
        return {pooled, kAssumedFreedom, freedom};
    }
    const LogMoments moments = log_moments(seen);
    const double half = moments.excess > 0.0 ? inverse_trigamma(moments.excess) : kMostFreedom / 2;
    const double prior_freedom = std::clamp(2 * half, kLeastFreedom, kMostFreedom);
    const double variance = std::exp(moments.mean + boost::math::digamma(prior_freedom / 2) -
                                     std::log(prior_freedom / 2));
    return {variance, prior_freedom, freedom};
}

SampleVariance posterior_variance(const SpreadPrior &prior, const SampleVariance &own) {
    const double freedom = prior.freedom + own.freedom;
    return {(prior.freedom * prior.variance + own.freedom * own.variance) / freedom, freedom};
}

} // namespace cospot::matcher
