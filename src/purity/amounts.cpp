#include "purity/amounts.h"

#include "purity/composition.h"
#include "shared/error.h"

#include <algorithm>

namespace cospot::purity {

namespace {

/// Where the rules state no reporting threshold.
constexpr Decimal kUsualReporting{0.05, 2};

bool counts(const JudgedFeature &feature) {
    return is_of_sample(feature.role);
}

/// Whether the features have areas; all or none must.
bool have_areas(const JudgedSample &sample, const std::string &file) {
    const auto without = std::find_if(
        sample.features.begin(), sample.features.end(), [](const JudgedFeature &feature) {
            return feature.role != Role::unretained && !feature.feature.area.has_value() &&
                   !feature.feature.is_area_below;
        });
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

/// The shares if no compound were what its retention alone says, where that changes any.
void set_unnamed_shares(JudgedSample &sample, const std::vector<double> &areas) {
    std::vector<double> factors;
    bool any_changed = false;
    for (const JudgedFeature &feature : sample.features) {
        const bool counts_by_name = feature.response_is_held && !feature.identity.is_confirmed;
        factors.push_back(counts_by_name ? 1.0 : feature.response_factor);
        any_changed = any_changed || counts_by_name;
    }
    if (!any_changed) {
        return;
    }
    const std::vector<double> shares = area_per_cent(areas, factors);
    for (std::size_t i = 0; i < shares.size(); ++i) {
        sample.features[i].unnamed_per_cent = shares[i];
    }
}

Decimal reporting_threshold(const Rules &rules, std::optional<double> dose_mg) {
    const DoseBand *band = band_for(rules.reporting, dose_mg);
    return band != nullptr ? band->percent : kUsualReporting;
}

/// The best ratio that the main feature allows.
Ratio ratio_to(const Feature &main, std::optional<double> hold_up_min) {
    if (main.retention_time_min) {
        return hold_up_min && *main.retention_time_min > *hold_up_min ? Ratio::adjusted
                                                                      : Ratio::unadjusted;
    }
    if (main.observations.empty()) {
        return Ratio::none;
    }
    switch (main.observations.front().quantity) {
    case Quantity::Rf:
        return Ratio::retardation;
    case Quantity::tR:
    case Quantity::RRT:
        return Ratio::unadjusted;
    case Quantity::k:
    case Quantity::r:
        return Ratio::adjusted;
    case Quantity::RI:
        break;
    }
    return Ratio::none;
}

/// Ratio of a feature to the main one: of their times, or of their values on the same system. None
/// where they have neither, and for what left before the hold-up time.
std::optional<double> ratio_of(const Feature &feature, const Feature &main, Ratio ratio,
                               std::optional<double> hold_up_min) {
    if (feature.retention_time_min && main.retention_time_min) {
        const auto hold_up = ratio == Ratio::adjusted ? hold_up_min : std::nullopt;
        return *feature.retention_time_min >= hold_up.value_or(0.0)
                   ? relative_retention(*feature.retention_time_min, *main.retention_time_min,
                                        hold_up)
                   : std::nullopt;
    }
    if (feature.observations.empty() || ratio_to(main, std::nullopt) != ratio ||
        ratio == Ratio::none) {
        return std::nullopt;
    }
    const FeatureObservation &one = feature.observations.front();
    const FeatureObservation &reference = main.observations.front();
    if (one.system != reference.system || one.quantity != reference.quantity ||
        !(reference.value > 0.0)) {
        return std::nullopt;
    }
    return one.value / reference.value;
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
    set_unnamed_shares(sample, areas);
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
    sample.ratio = ratio_to(main, hold_up_min);
    for (JudgedFeature &judged : sample.features) {
        judged.unadjusted_ratio = ratio_of(judged.feature, main, Ratio::unadjusted, std::nullopt);
        judged.relative_retention = ratio_of(judged.feature, main, sample.ratio, hold_up_min);
    }
}

} // namespace cospot::purity
