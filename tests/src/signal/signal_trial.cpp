// How well peaks are found and measured on generated traces, as JSON; tools/evaluate calls it.
// What is printed is defined in `definitions()`.

#include "generated_trace.h"
#include "signal/peak_finder.h"

#include "shared/robust.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <iostream>
#include <limits>
#include <string>

namespace cospot::signal {
namespace {

using Json = nlohmann::ordered_json;

constexpr double kRange = 6.0;             ///< of noise, in its deviations
constexpr double kStandsOut = 3.0;         ///< deviations of the recorded noise
constexpr double kClearShoulderRatio = 20; ///< height over deviation of the recorded noise
constexpr double kClearShoulderBend = 0.25;
constexpr double kSamePlace = 0.5; ///< half widths between a found peak and the true one
constexpr double kIsolated = 2.5;  ///< sums of half widths to every other peak

/// What is true of a peak of a generated trace.
struct Truth {
    double apex = 0.0, half_width = 0.0, area = 0.0, ratio = 0.0;
    bool has_maximum = false, has_shoulder = false, isolated = false, hides_another = false;
    [[nodiscard]] bool separable() const { return has_maximum || has_shoulder; }
};

struct Tally {
    std::size_t separable = 0, separable_found = 0, maxima = 0, maxima_found = 0, shoulders = 0,
                shoulders_found = 0, all = 0, all_found = 0, found = 0, falsely = 0, covered = 0,
                covered_of = 0, sole_covered = 0, sole_of = 0, isolated_covered = 0,
                isolated_of = 0, area_covered = 0;
    std::vector<double> apex_errors, area_errors, strong_area_errors;
};

double sum_at(const std::vector<ExponentialGaussian> &peaks, double x) {
    double sum = 0.0;
    for (const auto &peak : peaks) {
        sum += height_at(peak, x);
    }
    return sum;
}

/// Local maxima of values, with their rise from the higher of the lowest points before the values
/// get higher than it.
struct Top {
    std::size_t at = 0;
    double rise = 0.0;
};

std::vector<Top> tops_of(const std::vector<double> &values) {
    std::vector<Top> tops;
    for (std::size_t i = 1; i + 1 < values.size(); ++i) {
        if (values[i] > values[i - 1] && values[i] >= values[i + 1]) {
            double before = values[i];
            for (std::size_t j = i; j-- > 0 && values[j] <= values[i];) {
                before = std::min(before, values[j]);
            }
            double after = values[i];
            for (std::size_t j = i + 1; j < values.size() && values[j] <= values[i]; ++j) {
                after = std::min(after, values[j]);
            }
            tops.push_back({i, values[i] - std::max(before, after)});
        }
    }
    return tops;
}

std::size_t nearest_truth(const std::vector<Truth> &truths, double x) {
    std::size_t nearest = 0;
    for (std::size_t k = 1; k < truths.size(); ++k) {
        if (std::abs(truths[k].apex - x) < std::abs(truths[nearest].apex - x)) {
            nearest = k;
        }
    }
    return nearest;
}

std::vector<Truth> truths_of(const GeneratedTrace &trace, double noise) {
    std::vector<Truth> truths;
    for (const auto &peak : trace.peaks) {
        Truth truth;
        truth.apex = apex_of(peak);
        truth.half_width = half_width_of(peak);
        truth.area = peak.area;
        truth.ratio = height_at(peak, truth.apex) / noise;
        truths.push_back(truth);
    }
    std::vector<double> clean;
    for (const double x : trace.x) {
        clean.push_back(sum_at(trace.peaks, x));
    }
    for (const Top &top : tops_of(clean)) {
        Truth &truth = truths[nearest_truth(truths, trace.x[top.at])];
        const double distance = std::abs(truth.apex - trace.x[top.at]);
        truth.has_maximum |=
            distance < kSamePlace * truth.half_width && top.rise >= kStandsOut * noise;
    }
    std::vector<double> bend(clean.size(), 0.0);
    for (std::size_t i = 1; i + 1 < clean.size(); ++i) {
        const double step = 0.5 * (trace.x[i + 1] - trace.x[i - 1]);
        bend[i] = -(clean[i + 1] - 2.0 * clean[i] + clean[i - 1]) / (step * step);
    }
    for (const Top &top : tops_of(bend)) {
        const std::size_t k = nearest_truth(truths, trace.x[top.at]);
        Truth &truth = truths[k];
        const double own = 5.545 * truth.ratio * noise / std::pow(truth.half_width, 2);
        truth.has_shoulder |=
            !truth.has_maximum && truth.ratio >= kClearShoulderRatio &&
            std::abs(truth.apex - trace.x[top.at]) < kSamePlace * truth.half_width &&
            top.rise >= kClearShoulderBend * own;
    }
    for (std::size_t k = 0; k < truths.size(); ++k) {
        truths[k].isolated = true;
        for (std::size_t j = 0; j < truths.size(); ++j) {
            if (j != k) {
                const double apart = std::abs(truths[j].apex - truths[k].apex) /
                                     (truths[j].half_width + truths[k].half_width);
                truths[k].isolated &= apart > kIsolated;
                truths[k].hides_another |= apart < 1.0 && !truths[j].separable();
            }
        }
    }
    return truths;
}

/// Found peaks and true ones, each at most once, nearest first, within so many half widths.
void match(const std::vector<FoundPeak> &found, const std::vector<Truth> &truths, double within,
           std::vector<int> &truth_of, std::vector<int> &found_of) {
    while (true) {
        double best = within;
        int best_found = -1;
        int best_truth = -1;
        for (std::size_t i = 0; i < found.size(); ++i) {
            for (std::size_t k = 0; k < truths.size(); ++k) {
                const double distance =
                    std::abs(found[i].apex - truths[k].apex) / truths[k].half_width;
                if (truth_of[i] < 0 && found_of[k] < 0 && distance < best) {
                    best = distance;
                    best_found = static_cast<int>(i);
                    best_truth = static_cast<int>(k);
                }
            }
        }
        if (best_found < 0) {
            return;
        }
        truth_of[static_cast<std::size_t>(best_found)] = best_truth;
        found_of[static_cast<std::size_t>(best_truth)] = best_found;
    }
}

void count_measures(const FoundPeak &peak, const Truth &truth, Tally &tally) {
    const double error = peak.apex - truth.apex;
    const bool covered = std::abs(error) <= 1.96 * peak.apex_uncertainty;
    tally.apex_errors.push_back(std::abs(error) / truth.half_width);
    ++tally.covered_of;
    tally.covered += covered ? 1 : 0;
    tally.sole_of += truth.hides_another ? 0 : 1;
    tally.sole_covered += covered && !truth.hides_another ? 1 : 0;
    if (!truth.isolated) {
        return;
    }
    const double area_error = std::abs(peak.area - truth.area);
    ++tally.isolated_of;
    tally.isolated_covered += covered ? 1 : 0;
    tally.area_covered += area_error <= 1.96 * peak.area_uncertainty ? 1 : 0;
    tally.area_errors.push_back(area_error / truth.area);
    if (truth.ratio >= 150.0) {
        tally.strong_area_errors.push_back(area_error / truth.area);
    }
}

void count(const std::vector<FoundPeak> &found, const std::vector<Truth> &truths, Tally &tally) {
    std::vector<int> truth_of(found.size(), -1);
    std::vector<int> found_of(truths.size(), -1);
    match(found, truths, kSamePlace, truth_of, found_of);
    for (std::size_t k = 0; k < truths.size(); ++k) {
        const bool seen = found_of[k] >= 0;
        const auto one = [&](bool which) { return static_cast<std::size_t>(which ? 1 : 0); };
        ++tally.all;
        tally.all_found += one(seen);
        tally.separable += one(truths[k].separable());
        tally.separable_found += one(truths[k].separable() && seen);
        tally.maxima += one(truths[k].has_maximum);
        tally.maxima_found += one(truths[k].has_maximum && seen);
        tally.shoulders += one(truths[k].has_shoulder);
        tally.shoulders_found += one(truths[k].has_shoulder && seen);
        if (seen) {
            count_measures(found[static_cast<std::size_t>(found_of[k])], truths[k], tally);
        }
    }
    match(found, truths, 2.0 * kSamePlace, truth_of, found_of);
    tally.found += found.size();
    tally.falsely += static_cast<std::size_t>(std::count(truth_of.begin(), truth_of.end(), -1));
}

double share(std::size_t part, std::size_t all) {
    return all == 0 ? 0.0 : static_cast<double>(part) / static_cast<double>(all);
}

Json figures(const Tally &tally) {
    return {{"true_peaks", tally.all},
            {"separable", tally.separable},
            {"separable_found", share(tally.separable_found, tally.separable)},
            {"with_maximum", tally.maxima},
            {"with_maximum_found", share(tally.maxima_found, tally.maxima)},
            {"clear_shoulders", tally.shoulders},
            {"clear_shoulders_found", share(tally.shoulders_found, tally.shoulders)},
            {"all_found", share(tally.all_found, tally.all)},
            {"found", tally.found},
            {"false_share", share(tally.falsely, tally.found)},
            {"apex_error_median_half_widths", median(tally.apex_errors)},
            {"apex_covered_at_95", share(tally.covered, tally.covered_of)},
            {"apex_covered_at_95_where_none_is_hidden", share(tally.sole_covered, tally.sole_of)},
            {"isolated", tally.isolated_of},
            {"isolated_apex_covered_at_95", share(tally.isolated_covered, tally.isolated_of)},
            {"isolated_area_error_median", median(tally.area_errors)},
            {"isolated_area_error_median_from_ratio_150", median(tally.strong_area_errors)},
            {"isolated_area_covered_at_95", share(tally.area_covered, tally.isolated_of)}};
}

void add(Tally &all, const Tally &one) {
    all.separable += one.separable;
    all.separable_found += one.separable_found;
    all.maxima += one.maxima;
    all.maxima_found += one.maxima_found;
    all.shoulders += one.shoulders;
    all.shoulders_found += one.shoulders_found;
    all.all += one.all;
    all.all_found += one.all_found;
    all.found += one.found;
    all.falsely += one.falsely;
    all.covered += one.covered;
    all.covered_of += one.covered_of;
    all.sole_covered += one.sole_covered;
    all.sole_of += one.sole_of;
    all.isolated_covered += one.isolated_covered;
    all.isolated_of += one.isolated_of;
    all.area_covered += one.area_covered;
    const auto append = [](std::vector<double> &to, const std::vector<double> &from) {
        to.insert(to.end(), from.begin(), from.end());
    };
    append(all.apex_errors, one.apex_errors);
    append(all.area_errors, one.area_errors);
    append(all.strong_area_errors, one.strong_area_errors);
}

Json definitions() {
    return {
        {"ratio", "height over the standard deviation of the recorded noise, evenly in its "
                  "logarithm: 15 to 1500 in `peaks`, which is S/N 5 to 500 where S/N = 2 H/h (Ph. "
                  "Eur. 2.2.46) and h is 6 deviations; 5 to 500 in `weak_peaks`"},
        {"separable",
         "the sum of the true peaks, without noise, has a maximum within 0.5 half widths of the "
         "peak that rises 3 deviations of the noise above the valleys on both sides; or, as a "
         "clear shoulder, the peak has a ratio of 20 and the second derivative of the sum has "
         "an extreme there that stands out by 0.25 of what the peak alone would have"},
        {"found", "a found peak lies within 0.5 half widths, each counted once"},
        {"false", "a found peak with no true one left within a half width"},
        {"isolated", "2.5 sums of half widths from every other true peak"},
        {"covered", "the truth lies within 1.96 standard uncertainties"}};
}

constexpr NoiseKind kKinds[] = {NoiseKind::kWhite, NoiseKind::kPink, NoiseKind::kFiltered};
constexpr const char *kKindNames[] = {"white", "pink", "filtered"};

Json trial_of_peaks(std::uint64_t first_seed, std::size_t traces, double height_of_unit) {
    Tally tallies[3];
    Tally all;
    for (std::size_t k = 0; k < traces; ++k) {
        TraceRecipe recipe;
        recipe.seed = first_seed + k;
        recipe.kind = kKinds[k % 3];
        recipe.least_ratio *= height_of_unit;
        recipe.most_ratio *= height_of_unit;
        recipe.peaks = 4 + k % 13;
        recipe.spikes = k % 4;
        recipe.dips = k % 5 == 0 ? 1 : 0;
        recipe.uneven = k % 7 == 0;
        const GeneratedTrace trace = generated(recipe);
        count(find_peaks(trace.x, trace.y).peaks, truths_of(trace, recipe.noise), tallies[k % 3]);
    }
    Json result;
    for (std::size_t k = 0; k < 3; ++k) {
        add(all, tallies[k]);
    }
    result["all"] = figures(all);
    for (std::size_t k = 0; k < 3; ++k) {
        result[kKindNames[k]] = figures(tallies[k]);
    }
    return result;
}

Json trial_of_noise(std::uint64_t first_seed) {
    Json result;
    for (std::size_t kind = 0; kind < 3; ++kind) {
        int without = 0;
        for (std::uint64_t k = 0; k < 100; ++k) {
            TraceRecipe recipe;
            recipe.seed = first_seed + k;
            recipe.kind = kKinds[kind];
            const GeneratedTrace trace = generated(recipe);
            without += find_peaks(trace.x, trace.y).peaks.empty() ? 1 : 0;
        }
        result[kKindNames[kind]] = without;
    }
    return result;
}

double seconds_of_long_trace() {
    TraceRecipe recipe;
    recipe.points = 100000;
    recipe.peaks = 60;
    recipe.narrowest_points = 60.0;
    recipe.widest_points = 300.0;
    recipe.spikes = 10;
    const GeneratedTrace trace = generated(recipe);
    double least = std::numeric_limits<double>::infinity();
    for (int round = 0; round < 5; ++round) {
        const auto start = std::chrono::steady_clock::now();
        (void)find_peaks(trace.x, trace.y);
        const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
        least = std::min(least, took.count());
    }
    return least;
}

} // namespace
} // namespace cospot::signal

int main(int count, char **values) {
    const std::uint64_t seed = count > 1 ? std::strtoull(values[1], nullptr, 10) : 1;
    nlohmann::ordered_json result;
    result["definitions"] = cospot::signal::definitions();
    result["peaks"] = cospot::signal::trial_of_peaks(seed, 200, cospot::signal::kRange / 2.0);
    result["weak_peaks"] = cospot::signal::trial_of_peaks(seed + 5000, 200, 1.0);
    result["noise_alone_traces_of_100_without_peak"] = cospot::signal::trial_of_noise(seed + 10000);
    result["seconds_100000_points"] = cospot::signal::seconds_of_long_trace();
    std::cout << result.dump(2) << '\n';
    return 0;
}
