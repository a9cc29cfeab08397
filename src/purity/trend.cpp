#include "purity/trend.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace cospot::purity {

namespace {

/// A row while it is being filled.
struct Followed {
    TrendRow row;
    std::optional<double> relative_retention; ///< of one that goes by it
    bool is_declared = false;
};

bool is_named(const JudgedFeature &feature) {
    return feature.identity.is_confirmed ||
           (feature.identity.is_named && !feature.identity.is_contradicted) ||
           (!feature.identity.is_unlisted && feature.identity.probability > 0.5);
}

/// The ratio that all samples with a declared compound allow.
Ratio common_ratio(std::span<const JudgedSample> samples) {
    Ratio common = Ratio::none;
    for (const JudgedSample &sample : samples) {
        if (common == Ratio::none || sample.ratio == common) {
            common = sample.ratio;
        } else if (sample.ratio != Ratio::none) {
            // Times are left. An R_F has no ratio of times: it is followed by identity only.
            common = Ratio::unadjusted;
        }
    }
    return common;
}

std::optional<double> ratio_of(const JudgedFeature &feature, const JudgedSample &sample,
                               Ratio ratio) {
    if (ratio == Ratio::unadjusted) {
        return feature.unadjusted_ratio;
    }
    return sample.ratio == ratio ? feature.relative_retention : std::nullopt;
}

bool is_same(const Followed &followed, const JudgedFeature &feature, std::optional<double> ratio,
             const std::string &declared) {
    constexpr double tolerance = 0.02;
    if (feature.role == Role::declared || followed.is_declared) {
        return followed.is_declared && feature.role == Role::declared;
    }
    if (is_named(feature)) {
        return followed.row.name == feature.identity.name && feature.identity.name != declared;
    }
    return followed.relative_retention && ratio &&
           std::abs(*followed.relative_retention - *ratio) <= tolerance;
}

TrendLimit maximum(const Decimal &percent, const char *what) {
    return {percent, false, fmt::format("{} {} %", what, to_text(percent))};
}

std::optional<TrendLimit> limit_for(const JudgedFeature &feature, const Limits &limits) {
    const Rules &rules = limits.rules;
    if (feature.role == Role::declared) {
        return rules.declared_at_least
                   ? std::optional(
                         TrendLimit{*rules.declared_at_least, true,
                                    "at least " + to_text(*rules.declared_at_least) + " %"})
                   : std::nullopt;
    }
    if (const SpecifiedLimit *limit = specified_limit(feature, rules)) {
        return maximum(limit->percent, "limit");
    }
    if (rules.any_other) {
        return maximum(*rules.any_other, "limit");
    }
    const DoseBand *band = band_for(rules.identification, limits.dose_mg);
    return band != nullptr && !intake_counts(*band, limits.dose_mg)
               ? std::optional(maximum(band->percent, "identification threshold"))
               : std::nullopt;
}

/// Nothing where a feature has nothing by which another sample's could be the same.
std::optional<Followed> started(const JudgedFeature &feature, const JudgedSample &sample,
                                Ratio ratio, const Limits &limits, std::size_t samples) {
    Followed followed;
    followed.row.limit = limit_for(feature, limits);
    const auto relative = ratio_of(feature, sample, ratio);
    followed.is_declared = feature.role == Role::declared;
    if (followed.is_declared) {
        followed.row.name = sample.declared;
    } else if (is_named(feature)) {
        followed.row.name = feature.identity.name;
    } else if (relative) {
        followed.relative_retention = relative;
        followed.row.name = fmt::format("unknown at {} {:.2f}", symbol(ratio), *relative);
    } else {
        return std::nullopt;
    }
    followed.row.per_cent.resize(samples);
    followed.row.is_below.resize(samples);
    return followed;
}

/// The row that the feature of the sample at that index belongs to, where it has none of it yet.
std::vector<Followed>::iterator row_of(std::vector<Followed> &all, const JudgedFeature &feature,
                                       const JudgedSample &sample, std::size_t index, Ratio ratio) {
    const auto relative = ratio_of(feature, sample, ratio);
    return std::find_if(all.begin(), all.end(), [&](const Followed &one) {
        return is_same(one, feature, relative, sample.declared) && !one.row.per_cent[index];
    });
}

/// What one sample holds too little of to be reported, another may not.
void add_disregarded(std::span<const JudgedSample> samples, Ratio ratio,
                     std::vector<Followed> &all) {
    for (std::size_t i = 0; i < samples.size(); ++i) {
        for (const JudgedFeature &feature : samples[i].features) {
            if (feature.role != Role::disregarded) {
                continue;
            }
            const auto same = row_of(all, feature, samples[i], i, ratio);
            if (same != all.end()) {
                same->row.per_cent[i] = feature.per_cent;
                same->row.is_below[i] = true;
            }
        }
    }
}

double largest(const TrendRow &row) {
    double most = 0.0;
    for (const auto &share : row.per_cent) {
        most = std::max(most, share.value_or(0.0));
    }
    return most;
}

} // namespace

bool has_amounts(const Trend &trend) {
    return std::any_of(trend.rows.begin(), trend.rows.end(), [](const TrendRow &row) {
        return std::any_of(row.per_cent.begin(), row.per_cent.end(),
                           [](const auto &share) { return share.has_value(); });
    });
}

bool breaks(double per_cent, const TrendLimit &limit) {
    return limit.is_minimum
               ? rounded_half_up(per_cent, limit.percent.decimals) < limit.percent.value
               : exceeds(per_cent, limit.percent);
}

Trend trend_of(std::span<const JudgedSample> samples, const Limits &limits) {
    Trend trend;
    trend.ratio = common_ratio(samples);
    std::vector<Followed> all;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        trend.samples.push_back(samples[i].name);
        for (const JudgedFeature &feature : samples[i].features) {
            if (!is_of_sample(feature.role) || feature.role == Role::disregarded) {
                continue;
            }
            auto same = row_of(all, feature, samples[i], i, trend.ratio);
            if (same == all.end()) {
                auto one = started(feature, samples[i], trend.ratio, limits, samples.size());
                if (!one) {
                    ++trend.not_followed;
                    continue;
                }
                same = all.insert(all.end(), std::move(*one));
            }
            same->row.per_cent[i] = feature.per_cent;
        }
    }
    add_disregarded(samples, trend.ratio, all);
    std::stable_sort(all.begin(), all.end(), [](const Followed &a, const Followed &b) {
        return a.is_declared != b.is_declared ? a.is_declared : largest(a.row) > largest(b.row);
    });
    for (Followed &followed : all) {
        trend.rows.push_back(std::move(followed.row));
    }
    return trend;
}

} // namespace cospot::purity
