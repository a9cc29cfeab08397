#pragma once

#include "purity/judged_sample.h"
#include "purity/limits.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace cospot::purity {

/// The limit or threshold that a followed compound is held against.
struct TrendLimit {
    Decimal percent;
    bool is_minimum = false; ///< of the declared compound
    std::string words;       ///< such as "limit 0.25 %"
};

/// One thing that is followed over several samples.
struct TrendRow {
    std::string name;                            ///< a compound, or "unknown at RRT 1.32"
    std::vector<std::optional<double>> per_cent; ///< one a sample; nothing where it was not seen
    std::vector<bool> is_below; ///< one a sample: at or below the reporting threshold
    std::optional<TrendLimit> limit{};
};

/// The same sample over time, or batch by batch.
struct Trend {
    std::vector<std::string> samples; ///< in the order in which they were given
    Ratio ratio = Ratio::none;        ///< the one by which unknowns are followed in all samples
    std::vector<TrendRow> rows;       ///< the declared compound first, then by the largest share
    std::size_t not_followed = 0;     ///< features with neither a name nor a relative retention
};

/// Follows the declared compound and the impurities over the samples: by their identity where it is
/// more likely than not, else by relative retention within 0.02 (common practice, no source), which
/// is the same ratio in all samples: adjusted only where all allow it, else unadjusted.
/// What was disregarded shows its share in the row of a compound that some sample holds more of,
/// and has no row of its own; what is the blank's is left out. A row's limit is the one that its
/// first feature is judged by: of its own, of any other impurity, else the identification
/// threshold.
[[nodiscard]] Trend trend_of(std::span<const JudgedSample> samples, const Limits &limits = {});

/// Whether any share is known.
[[nodiscard]] bool has_amounts(const Trend &trend);

/// Whether a share in per cent, rounded as the limit is written, breaks it.
[[nodiscard]] bool breaks(double per_cent, const TrendLimit &limit);

} // namespace cospot::purity
