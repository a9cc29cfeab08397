#include "audit/replicates.h"

#include "audit/audit_scale.h"
#include "audit/robust.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

constexpr std::size_t kFewestCompounds = 5;
constexpr double kFinestReplicateShare = 0.1;

/// Residuals of the values from their median on the model scale, in the order of the values.
std::vector<double> scaled_residuals(const AuditedCompound &compound, Quantity quantity) {
    std::vector<double> residuals;
    for (const AuditedValue &value : compound.values) {
        residuals.push_back(audit_scale(quantity, value.value));
    }
    const double centre = median(residuals);
    const auto n = static_cast<double>(residuals.size());
    for (double &residual : residuals) {
        residual = (residual - centre) * std::sqrt(n / (n - 1));
    }
    return residuals;
}

Finding disagreement(const AuditedSystem &system, const AuditedCompound &compound,
                     const std::vector<double> &scores, double worst) {
    Finding finding{.kind = FindingKind::replicates,
                    .subject = compound.name + " on " + system.name,
                    .text = "",
                    .advice = "Look up how the marked values were read and measure again; retire "
                              "a value that is wrong. If the conditions differed, describe them as "
                              "another system."};
    std::vector<double> values;
    std::vector<std::string> outlying;
    for (std::size_t i = 0; i < compound.values.size(); ++i) {
        // Two values lie equally far from their median; rounding must not part them.
        const bool is_suspect = scores.size() == 2 || std::abs(scores[i]) > kOutlyingScore;
        finding.rows.push_back({compound.values[i].measurement, is_suspect});
        values.push_back(compound.values[i].value);
        if (is_suspect) {
            outlying.push_back(shown(system.quantity, compound.values[i].value));
        }
    }
    std::stable_partition(finding.rows.begin(), finding.rows.end(),
                          [](const FindingRow &row) { return row.is_suspect; });
    if (values.size() == 2) {
        finding.text =
            fmt::format("The two {} values {} and {} disagree (modified z-score {:.1f}, limit "
                        "{:.1f}); which of them is wrong they cannot tell.",
                        to_text(system.quantity), outlying[0], outlying[1], worst, kOutlyingScore);
    } else if (outlying.size() == 1) {
        finding.text = fmt::format("{} {} lies far from the median {} of {} values (modified "
                                   "z-score {:.1f}, limit {:.1f}).",
                                   to_text(system.quantity), outlying.front(),
                                   shown(system.quantity, median(values)), values.size(), worst,
                                   kOutlyingScore);
    } else {
        finding.text = fmt::format("{} of {} {} values lie far from their median {} (modified "
                                   "z-score up to {:.1f}, limit {:.1f}).",
                                   outlying.size(), values.size(), to_text(system.quantity),
                                   shown(system.quantity, median(values)), worst, kOutlyingScore);
    }
    return finding;
}

} // namespace

ReplicateSpread replicate_spread(const AuditedSystem &system) {
    const double assumed = assumed_spread_on(system);
    std::vector<double> residuals;
    std::size_t compounds = 0;
    for (const AuditedCompound &compound : system.compounds) {
        if (compound.values.size() < 2) {
            continue;
        }
        ++compounds;
        std::vector<double> own = scaled_residuals(compound, system.quantity);
        if (own.size() % 2 == 1) {
            std::sort(own.begin(), own.end());
            own.erase(own.begin() + static_cast<std::ptrdiff_t>(own.size() / 2));
        }
        residuals.insert(residuals.end(), own.begin(), own.end());
    }
    if (compounds < kFewestCompounds) {
        return {assumed, true};
    }
    return {std::max(robust_deviation(std::move(residuals)), kFinestReplicateShare * assumed),
            false};
}

std::vector<Finding> replicate_findings(const AuditedSystem &system) {
    std::vector<Finding> findings;
    const double spread = replicate_spread(system).spread;
    for (const AuditedCompound &compound : system.compounds) {
        if (compound.values.size() < 2) {
            continue;
        }
        std::vector<double> scores = scaled_residuals(compound, system.quantity);
        double worst = 0.0;
        for (double &score : scores) {
            score /= spread;
            worst = std::max(worst, std::abs(score));
        }
        if (worst > kOutlyingScore) {
            findings.push_back(disagreement(system, compound, scores, worst));
        }
    }
    return findings;
}

} // namespace cospot
