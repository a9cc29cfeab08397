#include "purity/trend.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot::purity {

namespace {

/// A row while it is being filled.
struct Followed {
    TrendRow row;
    std::optional<double> relative_retention; ///< of one that goes by it
    bool is_declared = false;
};

bool is_named(const JudgedFeature &feature) {
    return !feature.identity.is_unlisted && feature.identity.probability > 0.5;
}

bool is_same(const Followed &followed, const JudgedFeature &feature, const std::string &declared) {
    constexpr double tolerance = 0.02;
    if (feature.role == Role::declared || followed.is_declared) {
        return followed.is_declared && feature.role == Role::declared;
    }
    if (is_named(feature)) {
        return followed.row.name == feature.identity.name && feature.identity.name != declared;
    }
    return followed.relative_retention && feature.relative_retention &&
           std::abs(*followed.relative_retention - *feature.relative_retention) <= tolerance;
}

Followed started(const JudgedFeature &feature, const JudgedSample &sample, std::size_t samples) {
    Followed followed;
    followed.is_declared = feature.role == Role::declared;
    if (followed.is_declared) {
        followed.row.name = sample.declared;
    } else if (is_named(feature)) {
        followed.row.name = feature.identity.name;
    } else if (feature.relative_retention) {
        followed.relative_retention = feature.relative_retention;
        followed.row.name =
            fmt::format("unknown at relative retention {:.2f}", *feature.relative_retention);
    } else {
        followed.row.name = feature_text(feature.feature) + " of " + sample.name;
    }
    followed.row.per_cent.resize(samples);
    return followed;
}

double largest(const TrendRow &row) {
    double most = 0.0;
    for (const auto &share : row.per_cent) {
        most = std::max(most, share.value_or(0.0));
    }
    return most;
}

} // namespace

Trend trend_of(std::span<const JudgedSample> samples) {
    Trend trend;
    std::vector<Followed> all;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        trend.samples.push_back(samples[i].name);
        for (const JudgedFeature &feature : samples[i].features) {
            if (feature.role == Role::blank || feature.role == Role::disregarded) {
                continue;
            }
            auto same = std::find_if(all.begin(), all.end(), [&](const Followed &one) {
                return is_same(one, feature, samples[i].declared) && !one.row.per_cent[i];
            });
            if (same == all.end()) {
                same = all.insert(all.end(), started(feature, samples[i], samples.size()));
            }
            same->row.per_cent[i] = feature.per_cent;
        }
    }
    std::stable_sort(all.begin(), all.end(), [](const Followed &a, const Followed &b) {
        return a.is_declared != b.is_declared ? a.is_declared : largest(a.row) > largest(b.row);
    });
    for (Followed &followed : all) {
        trend.rows.push_back(std::move(followed.row));
    }
    return trend;
}

} // namespace cospot::purity
