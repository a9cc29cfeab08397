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

/// Which hypotheses belong to the shortest list that holds the truth with 0.95.
std::vector<bool> members_of_set(std::span<const double> probabilities) {
    constexpr double coverage = 0.95;
    std::vector<std::size_t> order(probabilities.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return probabilities[a] > probabilities[b];
    });
    std::vector<bool> members(probabilities.size());
    double held = 0.0;
    for (const std::size_t h : order) {
        if (held >= coverage) {
            break;
        }
        held += probabilities[h];
        members[h] = true;
    }
    return members;
}

/// Adds up what outcomes leave, each with its probability.
class OutcomeSum {
public:
    explicit OutcomeSum(std::span<const double> before)
        : entropy_before_(entropy_bits(before)), members_(members_of_set(before)) {}

    /// A candidate that an outcome brings into the set is none of those that remain: else a
    /// measurement could leave more candidates than there were.
    void add(double weight, const std::vector<double> &after) {
        entropy_ += weight * entropy_bits(after);
        const std::vector<bool> stays = members_of_set(after);
        for (std::size_t h = 0; h + 1 < members_.size(); ++h) {
            remaining_ += members_[h] && stays[h] ? weight : 0.0;
        }
    }
    [[nodiscard]] ExpectedGain gain() const {
        return {std::max(0.0, entropy_before_ - entropy_), remaining_};
    }

private:
    double entropy_before_;
    std::vector<bool> members_;
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
    const std::vector<bool> members = members_of_set(probabilities);
    return static_cast<std::size_t>(std::count(members.begin(), members.end() - 1, true));
}

ExpectedGain expected_gain(std::span<const double> probabilities,
                           std::span<const Forecast> forecasts) {
    OutcomeSum outlook(probabilities);
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
    return outlook.gain();
}

ExpectedGain expected_gain(std::span<const double> probabilities,
                           const std::vector<std::vector<double>> &likelihoods) {
    OutcomeSum outlook(probabilities);
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
    return outlook.gain();
}

} // namespace cospot
