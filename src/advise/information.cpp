#include "advise/information.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace cospot {

namespace {

/// What is believed after an outcome; `logs` are the log-likelihoods of the hypotheses.
std::vector<double> posterior(std::span<const double> probabilities, std::vector<double> logs) {
    const double largest = *std::max_element(logs.begin(), logs.end());
    double sum = 0.0;
    for (std::size_t h = 0; h < logs.size(); ++h) {
        logs[h] = probabilities[h] * std::exp(logs[h] - largest);
        sum += logs[h];
    }
    for (double &probability : logs) {
        probability /= sum;
    }
    return logs;
}

/// Adds up what outcomes leave, each with its probability.
class OutcomeSum {
public:
    void add(double weight, const std::vector<double> &after) {
        entropy_ += weight * entropy_bits(after);
        remaining_ += weight * static_cast<double>(remaining_compounds(after));
    }
    [[nodiscard]] ExpectedGain gain(std::span<const double> before) const {
        return {std::max(0.0, entropy_bits(before) - entropy_), remaining_};
    }

private:
    double entropy_ = 0.0;
    double remaining_ = 0.0;
};

} // namespace

double entropy_bits(std::span<const double> probabilities) {
    double sum = 0.0;
    for (const double probability : probabilities) {
        if (probability > 0.0) {
            sum -= probability * std::log2(probability);
        }
    }
    return sum;
}

std::size_t remaining_compounds(std::span<const double> probabilities) {
    constexpr double coverage = 0.95;
    std::vector<std::size_t> order(probabilities.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return probabilities[a] > probabilities[b];
    });
    double held = 0.0;
    std::size_t count = 0;
    for (const std::size_t h : order) {
        if (held >= coverage) {
            break;
        }
        held += probabilities[h];
        count += h + 1 < probabilities.size() ? 1 : 0;
    }
    return count;
}

ExpectedGain expected_gain(std::span<const double> probabilities,
                           std::span<const Forecast> forecasts) {
    OutcomeSum outlook;
    for (std::size_t h = 0; h < forecasts.size(); ++h) {
        const auto &outcomes = forecasts[h].outcomes;
        for (const double outcome : outcomes) {
            std::vector<double> logs;
            logs.reserve(forecasts.size());
            for (const Forecast &forecast : forecasts) {
                logs.push_back(forecast.log_density(outcome));
            }
            outlook.add(probabilities[h] / static_cast<double>(outcomes.size()),
                        posterior(probabilities, std::move(logs)));
        }
    }
    return outlook.gain(probabilities);
}

ExpectedGain expected_gain(std::span<const double> probabilities,
                           const std::vector<std::vector<double>> &likelihoods) {
    OutcomeSum outlook;
    for (std::size_t o = 0; o < likelihoods.front().size(); ++o) {
        std::vector<double> joint;
        double weight = 0.0;
        for (std::size_t h = 0; h < probabilities.size(); ++h) {
            joint.push_back(probabilities[h] * likelihoods[h][o]);
            weight += joint.back();
        }
        if (weight > 0.0) {
            for (double &probability : joint) {
                probability /= weight;
            }
            outlook.add(weight, joint);
        }
    }
    return outlook.gain(probabilities);
}

} // namespace cospot
