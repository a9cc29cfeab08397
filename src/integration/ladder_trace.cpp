#include "integration/ladder_trace.h"

#include "readers/ladder_table.h"
#include "shared/error.h"
#include "shared/robust.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

constexpr std::size_t kFewest = 4;
constexpr std::size_t kMostBefore = 3; ///< peaks of solvent and impurities before the first
/// How far the logarithm of the ratio of two neighbouring gaps may lie from that of all others.
constexpr double kEven = 0.25;
constexpr double kSolvent = 20.0; ///< times as high as most members
/// Least heights of members, in shares of the median of the five highest peaks.
constexpr double kLeastHeights[] = {0.3, 0.1, 0.03, 0.01};

using Peaks = std::vector<signal::FoundPeak>;

Peaks peaks_from(const Peaks &all, double least_height) {
    Peaks peaks;
    std::copy_if(all.begin(), all.end(), std::back_inserter(peaks),
                 [&](const signal::FoundPeak &peak) { return peak.height >= least_height; });
    return peaks;
}

double median_of_highest(const Peaks &all) {
    std::vector<double> heights;
    for (const signal::FoundPeak &peak : all) {
        heights.push_back(peak.height);
    }
    std::sort(heights.rbegin(), heights.rend());
    heights.resize(std::min<std::size_t>(heights.size(), 5));
    return median(heights);
}

/// Gaps are alike, or each is longer than the one before by the same factor.
bool are_even(const Peaks &peaks) {
    std::vector<double> ratios;
    for (std::size_t i = 2; i < peaks.size(); ++i) {
        ratios.push_back(std::log((peaks[i].apex - peaks[i - 1].apex) /
                                  (peaks[i - 1].apex - peaks[i - 2].apex)));
    }
    const double middle = median(ratios);
    return middle > -kEven && std::all_of(ratios.begin(), ratios.end(), [&](double ratio) {
               return std::abs(ratio - middle) < kEven;
           });
}

/// None is so high that it must be a solvent.
bool are_alike(const Peaks &peaks) {
    std::vector<double> heights;
    for (const signal::FoundPeak &peak : peaks) {
        heights.push_back(peak.height);
    }
    return *std::max_element(heights.begin(), heights.end()) < kSolvent * median(heights);
}

/// Whether the smaller peaks that came in lie before or behind the series, not between its members.
bool continues(const Peaks &tried, const Peaks &series) {
    return series.empty() ||
           static_cast<std::size_t>(
               std::count_if(tried.begin(), tried.end(), [&](const signal::FoundPeak &peak) {
                   return peak.apex >= series.front().apex && peak.apex <= series.back().apex;
               })) == series.size();
}

Peaks evenly_spaced(const Peaks &all) {
    Peaks best;
    for (const double least : kLeastHeights) {
        const Peaks high = peaks_from(all, least * median_of_highest(all));
        for (std::size_t before = 0; before <= kMostBefore; ++before) {
            if (high.size() < before + std::max(kFewest, best.size() + 1)) {
                break;
            }
            const Peaks tried(high.begin() + static_cast<std::ptrdiff_t>(before), high.end());
            if (are_even(tried) && are_alike(tried) && continues(tried, best)) {
                best = tried;
            }
        }
    }
    return best;
}

} // namespace

LadderOfTrace ladder_of_trace(const Integration &integration,
                              std::optional<quantities::IndexScale> scale,
                              const std::optional<int> &first_carbon) {
    if (!first_carbon) {
        throw InputError({integration.file, 0, ""}, "a trace as the ladder",
                         "--ladder-first N as well: the carbon number of its first homologue");
    }
    const Peaks members =
        integration.found.peaks.empty() ? Peaks{} : evenly_spaced(integration.found.peaks);
    if (members.size() < kFewest) {
        std::string found;
        for (const signal::FoundPeak &peak : integration.found.peaks) {
            found += fmt::format("{}{:.3f}", found.empty() ? "" : ", ", peak.apex);
        }
        throw InputError({integration.file, 0, ""},
                         "peaks at " + (found.empty() ? "no time" : found + " min"),
                         "four homologues or more in even steps; or a table carbon,tR");
    }
    LadderOfTrace result{{scale, {}}, ""};
    for (std::size_t i = 0; i < members.size(); ++i) {
        const int carbon = *first_carbon + static_cast<int>(i);
        result.ladder.points.push_back({static_cast<double>(carbon), members[i].apex});
        result.assignment +=
            fmt::format("{}C{} at {:.3f} min", i == 0 ? "" : ", ", carbon, members[i].apex);
    }
    return result;
}

LadderOfTrace ladder_of_file(InputFile &file, std::optional<quantities::IndexScale> scale,
                             quantities::LadderGaps gaps, const std::vector<ColumnAlias> &aliases,
                             const IntegrationSettings &settings) {
    if (!holds_trace(file.stream())) {
        return {read_ladder(file.stream(), file.name(), scale, gaps, aliases), ""};
    }
    IntegrationSettings own;
    own.reading = settings.reading;
    return ladder_of_trace(integrate(file.stream(), file.name(), own), scale,
                           settings.first_carbon);
}

} // namespace cospot
