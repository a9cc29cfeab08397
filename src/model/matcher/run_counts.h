#pragma once

#include <cstddef>
#include <vector>

namespace cospot::matcher {

struct CandidateDensity;
struct KnownValue;

/// How much likelier a compound is before measuring that came up in more of the library's runs.
struct RunCounts {
    /// Runs that are added to each compound's own, so that chance does not count; 0: the numbers of
    /// runs tell nothing.
    double added_runs = 0.0;
    double mean_root = 1.0; ///< of the weights before they are made 1 on average

    [[nodiscard]] bool do_tell() const { return added_runs > 0.0; }
};

/// With fewer named runs nothing is told.
inline constexpr std::size_t kFewestCountedRuns = 10;

/// What the numbers of runs tell: they are taken to be Poisson distributed about rates that follow
/// a gamma distribution over the compounds (negative binomial, by moments), so that compounds which
/// differ no more than by chance, as standards do that are always run together, stay equal. Nothing
/// is told where some values have no named run. `values` as of `fit_system`.
[[nodiscard]] RunCounts fit_run_counts(const std::vector<CandidateDensity> &candidates,
                                       const std::vector<KnownValue> &values);

/// The weight of a compound that was seen in so many runs, 1 on average over the compounds: the
/// square root of its expected rate, since what comes next need not be like what came before
/// (assumed).
[[nodiscard]] double weight_of_runs(const RunCounts &counts, std::size_t runs);

} // namespace cospot::matcher
