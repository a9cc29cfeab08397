#include "purity/amounts.h"

#include "purity/composition.h"
#include "shared/error.h"

#include <algorithm>

namespace cospot::purity {

namespace {

/// Where the rules state no reporting threshold.
constexpr Decimal kUsualReporting{0.05, 2};

bool counts(const JudgedFeature &feature) {
    return feature.role != Role::blank;
}

/// Whether the features have areas; all or none must.
bool have_areas(const JudgedSample &sample, const std::string &file) {
    const auto without = std::find_if(
        sample.features.begin(), sample.features.end(),
        [](const JudgedFeature &feature) { return !feature.feature.area.has_value(); });
    const bool any =
        std::any_of(sample.features.begin(), sample.features.end(),
                    [](const JudgedFeature &feature) { return feature.feature.area.has_value(); });
    if (any && without != sample.features.end()) {
        const auto &observations = without->feature.observations;
        throw InputError({file, observations.empty() ? 0 : observations.front().where.line, "area"},
                         "no area of " + feature_text(without->feature),
                         "an area of every spot or peak, or of none");
    }
    return any;
}

void set_responses(JudgedSample &sample, const ResponseLookup &response_of) {
    for (JudgedFeature &feature : sample.features) {
        if (feature.role == Role::declared || feature.identity.is_unlisted) {
            continue;
        }
        if (const auto factor = response_of(feature.identity.compound)) {
            feature.response_factor = *factor;
            feature.response_is_held = true;
        }
    }
}

Decimal reporting_threshold(const Rules &rules, std::optional<double> dose_mg) {
    const DoseBand *band = band_for(rules.reporting, dose_mg);
    return band != nullptr ? band->percent : kUsualReporting;
}

} // namespace

void set_amounts(JudgedSample &sample, const ResponseLookup &response_of, const Rules &rules,
                 std::optional<double> dose_mg, const std::string &file) {
    if (!have_areas(sample, file)) {
        sample.notes.emplace_back("the input has no areas: nothing is said of amounts");
        return;
    }
    set_responses(sample, response_of);
    std::vector<double> areas;
    std::vector<double> factors;
    double sum = 0.0;
    for (const JudgedFeature &feature : sample.features) {
        areas.push_back(counts(feature) ? feature.area.value_or(0.0) : 0.0);
        factors.push_back(feature.response_factor);
        sum += areas.back();
    }
    if (!(sum > 0.0)) {
        throw InputError({file, 0, "area"}, "areas that are all 0, or all the blank's",
                         "at least one area above 0");
    }
    const std::vector<double> shares = area_per_cent(areas, factors);
    const Decimal threshold = reporting_threshold(rules, dose_mg);
    for (std::size_t i = 0; i < sample.features.size(); ++i) {
        JudgedFeature &feature = sample.features[i];
        if (!counts(feature)) {
            continue;
        }
        feature.per_cent = shares[i];
        feature.reported = reported_percent(shares[i], threshold.decimals);
        if (feature.role == Role::impurity && !exceeds(feature.reported->value, threshold)) {
            feature.role = Role::disregarded;
            ++sample.disregarded_count;
            sample.disregarded_per_cent += shares[i];
        }
        if (feature.role == Role::impurity) {
            sample.impurities_per_cent =
                sample.impurities_per_cent.value_or(0.0) + feature.reported->value;
        }
    }
    sample.impurities_per_cent = sample.impurities_per_cent.value_or(0.0);
}

void set_relative_retention(JudgedSample &sample, std::optional<double> hold_up_min) {
    if (!sample.main) {
        return;
    }
    const Feature &main = sample.features[*sample.main].feature;
    for (JudgedFeature &judged : sample.features) {
        const Feature &feature = judged.feature;
        if (feature.retention_time_min && main.retention_time_min) {
            judged.relative_retention = relative_retention(*feature.retention_time_min,
                                                           *main.retention_time_min, hold_up_min);
        } else if (!feature.observations.empty() && !main.observations.empty() &&
                   feature.observations.front().quantity == Quantity::Rf &&
                   main.observations.front().value > 0.0) {
            judged.relative_retention =
                feature.observations.front().value / main.observations.front().value;
        }
    }
}

} // namespace cospot::purity
