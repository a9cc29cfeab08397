#include "purity/blank_scale.h"

#include "shared/bisection.h"
#include "shared/robust.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

namespace cospot::purity {

namespace {

using quantities::index_on_ladder;
using quantities::Ladder;

std::optional<double> index_at(const RunScale &run, double time_min) {
    return index_on_ladder(*run.ladder, time_min, run.law, run.hold_up_min.value_or(0.0), false)
        .index;
}

/// The time that has the index on the run's ladder: the index rises with the time.
double time_at(const RunScale &run, double index) {
    constexpr int halvings = 50;
    const auto &members = run.ladder->points;
    return bisected(members.front().retention_time_min, members.back().retention_time_min, halvings,
                    [&](double time) { return index_at(run, time).value_or(index) < index; });
}

double by_ladders(const RunScale &sample, const RunScale &blank, double time_min) {
    const auto &own = sample.ladder->points;
    const auto &other = blank.ladder->points;
    const auto index = index_at(blank, time_min);
    if (index && *index >= 100 * own.front().carbon && *index <= 100 * own.back().carbon) {
        return time_at(sample, *index);
    }
    // Members may differ: the end is scaled as the nearest member that both ladders have.
    const bool is_late = time_min > other.front().retention_time_min;
    std::optional<double> ratio;
    for (const quantities::LadderPoint &point : other) {
        const auto same = std::find_if(own.begin(), own.end(),
                                       [&](const auto &one) { return one.carbon == point.carbon; });
        if (same != own.end() && (!ratio || is_late)) {
            ratio = same->retention_time_min / point.retention_time_min;
        }
    }
    return time_min * ratio.value_or(1.0);
}

/// The peaks that two runs have in common where the times of one are so many times the other's.
std::vector<double> agreeing_ratios(std::span<const double> sample, std::span<const double> blank,
                                    double ratio) {
    constexpr double share = 0.003;
    constexpr double least_min = 0.01;
    const auto nearest = [](std::span<const double> times, double time) {
        return *std::min_element(times.begin(), times.end(), [&](double a, double b) {
            return std::abs(a - time) < std::abs(b - time);
        });
    };
    std::vector<double> ratios;
    for (const double time : blank) {
        const double match = nearest(sample, time * ratio);
        const bool is_near =
            std::abs(match - time * ratio) <= std::max(least_min, share * time * ratio);
        if (is_near && nearest(blank, match / ratio) == time) {
            ratios.push_back(match / time);
        }
    }
    return ratios;
}

/// The ratio that most pairs of peaks agree on, and how many do. Runs of one system are taken to
/// differ by a twentieth at most (common practice, no source). Chance finds pairs too: another
/// ratio than 1 has to explain two pairs more, and any has to explain half of the blank.
std::optional<std::pair<double, std::size_t>> common_ratio(std::span<const double> sample,
                                                           std::span<const double> blank) {
    constexpr double furthest = 0.05;
    constexpr std::size_t fewest = 3;
    std::vector<double> best = agreeing_ratios(sample, blank, 1.0);
    const std::size_t unscaled = best.size();
    for (const double a : sample) {
        for (const double b : blank) {
            if (std::abs(a / b - 1.0) > furthest) {
                continue;
            }
            std::vector<double> pairs = agreeing_ratios(sample, blank, a / b);
            if (pairs.size() > best.size() && pairs.size() >= unscaled + 2) {
                best = std::move(pairs);
            }
        }
    }
    if (best.size() < fewest || 2 * best.size() < blank.size()) {
        return std::nullopt;
    }
    return std::pair(upper_median(best), best.size());
}

} // namespace

BlankScale blank_scale(const RunScale &sample, const RunScale &blank,
                       std::span<const double> sample_min, std::span<const double> blank_min) {
    if (sample.ladder && blank.ladder) {
        return {[sample, blank](double time) { return by_ladders(sample, blank, time); },
                "the blank is compared by retention index"};
    }
    const bool have_hold_ups = sample.hold_up_min && blank.hold_up_min;
    if (sample.reference_min && blank.reference_min) {
        const double own = have_hold_ups ? *sample.hold_up_min : 0.0;
        const double other = have_hold_ups ? *blank.hold_up_min : 0.0;
        const double ratio = (*sample.reference_min - own) / (*blank.reference_min - other);
        return {[=](double time) { return own + (time - other) * ratio; },
                fmt::format("the blank is compared by {} relative retention",
                            have_hold_ups ? "adjusted" : "unadjusted")};
    }
    if (have_hold_ups) {
        return {[ratio = *sample.hold_up_min / *blank.hold_up_min](double time) {
                    return time * ratio;
                },
                "the blank is compared by retention factor"};
    }
    if (const auto common = sample_min.empty() || blank_min.empty()
                                ? std::nullopt
                                : common_ratio(sample_min, blank_min)) {
        const auto [ratio, pairs] = *common;
        return {[ratio = ratio](double time) { return time * ratio; },
                fmt::format("the blank's times are multiplied by {:.4f}, the common ratio of {} "
                            "peaks that both runs show",
                            ratio, pairs)};
    }
    return {[](double time) { return time; },
            "the blank is compared by retention time; a ladder, a named reference peak or "
            "a hold-up time of both runs would correct for drift between them (--blank-ladder, "
            "--blank-hold-up)"};
}

} // namespace cospot::purity
