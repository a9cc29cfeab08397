#include "evidence/peak_pairs.h"

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

constexpr double kAreaSpread = 0.2; ///< assumed, of the logarithm of the ratio of two shares
constexpr double kLeastAreaSpread = 0.03;
constexpr double kFewestPlaces = 2; ///< assumed standard deviation in the order
constexpr double kShareOfPlaces = 0.1;
constexpr double kLeastPlaces = 1;
constexpr double kAssumedWeigh = 4; ///< pairs that the assumed spreads count as
constexpr double kAlone = 0.1;      ///< of the peaks have no partner
constexpr double kPaired = 0.8;     ///< less is no pair: both are then judged alone

using Numbers = std::vector<double>;

/// How far the two peaks of a pair differ.
struct Likeness {
    double log_factor = 0.0; ///< of the areas
    double area_spread = kAreaSpread;
    double places = kFewestPlaces;
};

Numbers logarithms(std::span<const double> areas) {
    Numbers logs;
    for (const double area : areas) {
        logs.push_back(std::log(area));
    }
    return logs;
}

double sum_of(std::span<const double> values) {
    double sum = 0.0;
    for (const double value : values) {
        sum += value;
    }
    return sum;
}

double standard_deviation(const Numbers &values) {
    const double count = static_cast<double>(values.size());
    const double mean = sum_of(values) / count;
    double squares = 0.0;
    for (const double value : values) {
        squares += (value - mean) * (value - mean);
    }
    return std::sqrt(squares / count);
}

/// Natural logarithm of the density of a normal distribution, without its constant.
double log_normal(double deviation, double spread) {
    const double in_spreads = deviation / spread;
    return -0.5 * in_spreads * in_spreads - std::log(spread);
}

double places_between(std::size_t i, std::size_t j) {
    return static_cast<double>(j) - static_cast<double>(i);
}

/// Peaks by peaks, a row for each of the first column; one more row and column for "no partner".
class Matching {
public:
    Matching(const Numbers &first, const Numbers &second, const Likeness &likeness)
        : rows_(first.size()), columns_(second.size()), cells_((rows_ + 1) * (columns_ + 1), 0.0) {
        const double peaks = static_cast<double>(std::max(rows_, columns_));
        const double by_chance =
            std::max(std::hypot(standard_deviation(first), likeness.area_spread), 2 * kAreaSpread);
        for (std::size_t i = 0; i < rows_; ++i) {
            for (std::size_t j = 0; j < columns_; ++j) {
                const double area = second[j] - first[i] - likeness.log_factor;
                cell(i, j) = std::exp(
                    log_normal(area, likeness.area_spread) - log_normal(area, by_chance) +
                    log_normal(places_between(i, j), likeness.places) - log_normal(0.0, peaks));
            }
            cell(i, columns_) = kAlone / (1 - kAlone);
        }
        for (std::size_t j = 0; j < columns_; ++j) {
            cell(rows_, j) = kAlone / (1 - kAlone);
        }
        normalise();
    }

    /// The probability that two peaks are a pair.
    [[nodiscard]] double at(std::size_t i, std::size_t j) const {
        return cells_[i * (columns_ + 1) + j];
    }

    /// How far pairs differ, by all pairs as far as they are likely.
    [[nodiscard]] Likeness likeness(const Numbers &first, const Numbers &second,
                                    const Likeness &before, double assumed_places) const {
        double weight = 0.0;
        double areas = 0.0;
        double squares = 0.0;
        double places = 0.0;
        for (std::size_t i = 0; i < rows_; ++i) {
            for (std::size_t j = 0; j < columns_; ++j) {
                const double area = second[j] - first[i] - before.log_factor;
                weight += at(i, j);
                areas += at(i, j) * area;
                squares += at(i, j) * area * area;
                places += at(i, j) * places_between(i, j) * places_between(i, j);
            }
        }
        const auto spread = [&](double sum, double assumed) {
            return std::sqrt((sum + kAssumedWeigh * assumed * assumed) / (weight + kAssumedWeigh));
        };
        return {before.log_factor + areas / (weight + kAssumedWeigh),
                std::max(kLeastAreaSpread, spread(squares, kAreaSpread)),
                std::max(kLeastPlaces, spread(places, assumed_places))};
    }

private:
    double &cell(std::size_t i, std::size_t j) { return cells_[i * (columns_ + 1) + j]; }

    /// Makes each row and column of a peak sum to 1.
    void normalise() {
        constexpr int rounds = 200;
        for (int round = 0; round < rounds; ++round) {
            for (std::size_t i = 0; i < rows_; ++i) {
                scale(i * (columns_ + 1), 1, columns_ + 1);
            }
            for (std::size_t j = 0; j < columns_; ++j) {
                scale(j, columns_ + 1, rows_ + 1);
            }
        }
    }

    void scale(std::size_t begin, std::size_t step, std::size_t count) {
        double sum = 0.0;
        for (std::size_t k = 0; k < count; ++k) {
            sum += cells_[begin + k * step];
        }
        for (std::size_t k = 0; k < count; ++k) {
            cells_[begin + k * step] /= sum;
        }
    }

    std::size_t rows_;
    std::size_t columns_;
    Numbers cells_;
};

/// How much of the pairs, near in the order, agree on a common factor of the areas.
double agreement(const Numbers &first, const Numbers &second, double log_factor, double places) {
    double sum = 0.0;
    for (std::size_t i = 0; i < first.size(); ++i) {
        for (std::size_t j = 0; j < second.size(); ++j) {
            const double area = (second[j] - first[i] - log_factor) / kAreaSpread;
            const double place = places_between(i, j) / places;
            sum += std::exp(-0.5 * (area * area + place * place));
        }
    }
    return sum;
}

/// The factor of the areas that most pairs agree on: a single large peak does not decide it.
double common_factor(const Numbers &first, const Numbers &second, double places) {
    double best = 0.0;
    double most = -1.0;
    for (std::size_t i = 0; i < first.size(); ++i) {
        for (std::size_t j = 0; j < second.size(); ++j) {
            if (std::abs(places_between(i, j)) > kFewestPlaces) {
                continue;
            }
            const double factor = second[j] - first[i];
            if (const double agreed = agreement(first, second, factor, places); agreed > most) {
                most = agreed;
                best = factor;
            }
        }
    }
    return best;
}

} // namespace

std::vector<PeakPair> pair_peaks(std::span<const double> first, std::span<const double> second) {
    if (first.empty() || second.empty()) {
        return {};
    }
    const Numbers a = logarithms(first);
    const Numbers b = logarithms(second);
    const double assumed_places =
        std::max(kFewestPlaces, kShareOfPlaces * static_cast<double>(std::max(a.size(), b.size())));
    Likeness likeness{common_factor(a, b, assumed_places), kAreaSpread, assumed_places};
    constexpr int rounds = 10; // of expectation and maximisation: no digit printed changes after
    for (int round = 0; round < rounds; ++round) {
        likeness = Matching(a, b, likeness).likeness(a, b, likeness, assumed_places);
    }
    const Matching matching(a, b, likeness);
    std::vector<PeakPair> pairs;
    for (std::size_t i = 0; i < a.size(); ++i) {
        for (std::size_t j = 0; j < b.size(); ++j) {
            if (matching.at(i, j) > kPaired) {
                pairs.push_back({i, j, std::min(matching.at(i, j), 1.0)});
            }
        }
    }
    return pairs;
}

} // namespace cospot
