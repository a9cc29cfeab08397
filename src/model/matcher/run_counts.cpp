#include "model/matcher/run_counts.h"

#include "model/matcher/candidate_density.h"
#include "model/matcher/run_effects.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <set>

namespace cospot::matcher {

RunCounts fit_run_counts(const std::vector<CandidateDensity> &candidates,
                         const std::vector<KnownValue> &values) {
    std::set<std::int64_t> runs;
    for (const KnownValue &value : values) {
        if (!value.run_is_named) {
            return {};
        }
        runs.insert(value.run);
    }
    const auto n = static_cast<double>(candidates.size());
    if (runs.size() < kFewestCountedRuns || candidates.size() < 2) {
        return {};
    }
    double sum = 0.0;
    double squares = 0.0;
    for (const CandidateDensity &candidate : candidates) {
        const auto seen = static_cast<double>(candidate.runs);
        sum += seen;
        squares += seen * seen;
    }
    const double mean = sum / n;
    const double variance = (squares - sum * mean) / (n - 1.0);
    if (variance <= mean) {
        return {};
    }
    RunCounts counts{mean * mean / (variance - mean), 1.0};
    double roots = 0.0;
    for (const CandidateDensity &candidate : candidates) {
        roots += weight_of_runs(counts, candidate.runs);
    }
    counts.mean_root = roots / n;
    return counts;
}

double weight_of_runs(const RunCounts &counts, std::size_t runs) {
    return counts.do_tell()
               ? std::sqrt(static_cast<double>(runs) + counts.added_runs) / counts.mean_root
               : 1.0;
}

} // namespace cospot::matcher
