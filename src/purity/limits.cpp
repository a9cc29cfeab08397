#include "purity/limits.h"

#include "document/probability_text.h"

#include "purity/verdicts.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <iterator>
#include <utility>

namespace cospot::purity {

namespace {

using Impurities = std::vector<JudgedFeature *>;

Impurities impurities_of(JudgedSample &sample) {
    Impurities impurities;
    for (JudgedFeature &feature : sample.features) {
        if (feature.role == Role::impurity) {
            impurities.push_back(&feature);
        }
    }
    return impurities;
}

std::string found_text(const JudgedFeature &feature) {
    return fmt::format("{}, {} %", feature_text(feature.feature), to_text(*feature.reported));
}

/// The largest of what was disregarded, after a semicolon; empty where nothing was.
std::string disregarded_text(const JudgedSample &sample) {
    const JudgedFeature *largest = nullptr;
    for (const JudgedFeature &feature : sample.features) {
        if (feature.role == Role::disregarded &&
            (largest == nullptr || *feature.per_cent > *largest->per_cent)) {
            largest = &feature;
        }
    }
    return largest == nullptr ? ""
                              : fmt::format("; {}, {:.2g} % is not above the reporting threshold",
                                            feature_text(largest->feature), *largest->per_cent);
}

/// The largest impurity, for what a rule that nothing breaks has found.
std::string largest_text(const Impurities &impurities, const JudgedSample &sample) {
    const auto largest =
        std::max_element(impurities.begin(), impurities.end(), [](const auto *a, const auto *b) {
            return a->reported->value < b->reported->value;
        });
    return largest == impurities.end() ? "no impurity" + disregarded_text(sample)
                                       : found_text(**largest);
}

RuleVerdict identification_verdict(JudgedFeature &feature, const std::string &limit) {
    RuleVerdict verdict{"identification threshold", limit, found_text(feature),
                        Verdict::does_not_meet, ""};
    const Identity &identity = feature.identity;
    if (identity.is_confirmed) {
        verdict = by_statement(std::move(verdict));
    } else if (is_settled(identity)) {
        verdict = open_until_confirmed(std::move(verdict), identity);
        ask_to_confirm(feature, identity.name);
    } else {
        verdict.reason = "not identified: " + proposal_text(identity);
        if (!identity.is_unlisted && !identity.is_named) {
            verdict.reason += fmt::format("; at least {:.2f} is required", kSettled);
        }
        feature.actions.emplace_back("identify");
    }
    return verdict;
}

/// `own`: the limit that the compound has which the feature is by its retention alone; may be null.
RuleVerdict qualification_verdict(JudgedFeature &feature, const std::string &limit,
                                  const SpecifiedLimit *own) {
    if (own != nullptr && is_settled(feature.identity)) {
        ask_to_confirm(feature, own->compound);
        return open_until_confirmed(
            {"qualification threshold", limit, found_text(feature), Verdict::open, ""},
            own->compound);
    }
    feature.actions.emplace_back("qualify");
    return {"qualification threshold", limit, found_text(feature), Verdict::cannot_be_told,
            "whether its safety at this level is known, no chromatogram tells"};
}

std::vector<RuleVerdict>
threshold_verdicts(const JudgedSample &sample, const Impurities &impurities, const char *rule,
                   const DoseBand *band, std::optional<double> dose_mg,
                   const std::function<RuleVerdict(JudgedFeature &, const std::string &)> &judge) {
    std::vector<RuleVerdict> verdicts;
    if (band == nullptr) {
        return verdicts;
    }
    const std::string limit = to_text(*band, dose_mg);
    for (JudgedFeature *feature : impurities) {
        if (exceeds(*feature->reported, *band, dose_mg)) {
            verdicts.push_back(judge(*feature, limit));
        }
    }
    if (verdicts.empty()) {
        verdicts.push_back({rule, limit, largest_text(impurities, sample), Verdict::meets, ""});
    }
    return verdicts;
}

/// A limit of its own rests on the name: without a confirmation the verdict stands only if the
/// limit of all others agrees, whichever impurity it is. What is too much of it stays so until
/// another name is found.
RuleVerdict specified_verdict(JudgedFeature &feature, const SpecifiedLimit &limit,
                              const std::optional<Decimal> &any_other) {
    const bool too_much = exceeds(*feature.per_cent, limit.percent);
    RuleVerdict verdict{"limit of " + limit.compound, to_text(limit.percent) + " %",
                        found_text(feature), too_much ? Verdict::does_not_meet : Verdict::meets,
                        ""};
    if (feature.identity.is_confirmed) {
        verdict.reason = kStatedByUser;
    } else if (any_other && exceeds(*feature.per_cent, *any_other) == too_much) {
        verdict.reason = fmt::format("the same for any other impurity (limit {} %); {}",
                                     to_text(*any_other), proposal_text(feature.identity));
    } else if (!is_settled(feature.identity)) {
        verdict.verdict = Verdict::cannot_be_told;
        verdict.reason = "which impurity it is stays open: " + proposal_text(feature.identity);
    } else if (too_much) {
        verdict.reason = unconfirmed_text(feature.identity);
        ask_to_confirm(feature, limit.compound);
    } else {
        verdict = feature.identity.is_named
                      ? open_until_confirmed(std::move(verdict), feature.identity)
                      : open_until_confirmed(std::move(verdict), limit.compound);
        ask_to_confirm(feature, limit.compound);
    }
    return verdict;
}

/// The verdict on a limit that is met only with the response factor of a name.
RuleVerdict open_by_response(RuleVerdict verdict, const std::string &compounds, double per_cent) {
    verdict = open_until_confirmed(std::move(verdict), compounds);
    verdict.reason += fmt::format(": without its response factor it is {:.2f} %", per_cent);
    return verdict;
}

/// Limits of named impurities, and the limit of all that have none of their own.
std::vector<RuleVerdict> single_verdicts(const JudgedSample &sample, const Impurities &impurities,
                                         const Rules &rules) {
    std::vector<RuleVerdict> verdicts;
    Impurities others;
    for (JudgedFeature *feature : impurities) {
        if (const SpecifiedLimit *limit = specified_limit(*feature, rules)) {
            verdicts.push_back(specified_verdict(*feature, *limit, rules.any_other));
        } else {
            others.push_back(feature);
        }
    }
    if (!rules.any_other) {
        return verdicts;
    }
    const std::string limit = to_text(*rules.any_other) + " %";
    bool all_meet = true;
    for (const JudgedFeature *feature : others) {
        if (exceeds(*feature->per_cent, *rules.any_other)) {
            verdicts.push_back({"any other impurity", limit, found_text(*feature),
                                Verdict::does_not_meet, proposal_text(feature->identity)});
            all_meet = false;
        } else if (feature->unnamed_per_cent &&
                   exceeds(*feature->unnamed_per_cent, *rules.any_other)) {
            verdicts.push_back(open_by_response(
                {"any other impurity", limit, found_text(*feature), Verdict::open, ""},
                feature->identity.name, *feature->unnamed_per_cent));
            all_meet = false;
        }
    }
    if (all_meet) {
        verdicts.push_back(
            {"any other impurity", limit, largest_text(others, sample), Verdict::meets, ""});
    }
    return verdicts;
}

/// The impurities together without the response factors of names that rest on retention alone, and
/// these names.
struct UnnamedSum {
    double per_cent = 0.0;
    std::string compounds;
};

UnnamedSum unnamed_sum(const JudgedSample &sample) {
    UnnamedSum sum;
    for (const JudgedFeature &feature : sample.features) {
        if (feature.role != Role::impurity) {
            continue;
        }
        sum.per_cent += feature.unnamed_per_cent.value_or(feature.reported->value);
        if (feature.response_is_held && !feature.identity.is_confirmed) {
            sum.compounds += (sum.compounds.empty() ? "" : " and ") + feature.identity.name;
        }
    }
    return sum;
}

std::vector<RuleVerdict> sum_verdicts(const JudgedSample &sample, const Rules &rules) {
    std::vector<RuleVerdict> verdicts;
    if (rules.total) {
        const bool too_much = exceeds(*sample.impurities_per_cent, *rules.total);
        RuleVerdict verdict{kSumRule, to_text(*rules.total) + " %",
                            fmt::format("{:.2f} %", *sample.impurities_per_cent),
                            too_much ? Verdict::does_not_meet : Verdict::meets, ""};
        const UnnamedSum unnamed = unnamed_sum(sample);
        verdicts.push_back(
            !too_much && exceeds(unnamed.per_cent, *rules.total)
                ? open_by_response(std::move(verdict), unnamed.compounds, unnamed.per_cent)
                : std::move(verdict));
    }
    if (rules.declared_at_least) {
        const double found = *sample.features[*sample.main].per_cent;
        const bool enough = rounded_half_up(found, rules.declared_at_least->decimals) >=
                            rules.declared_at_least->value;
        RuleVerdict verdict{
            "declared compound", "at least " + to_text(*rules.declared_at_least) + " %",
            fmt::format("{:.2f} %", found), enough ? Verdict::meets : Verdict::does_not_meet, ""};
        const bool is_confirmed = sample.features[*sample.main].identity.is_confirmed;
        verdicts.push_back(enough && !is_confirmed
                               ? open_until_confirmed(std::move(verdict), sample.declared)
                               : std::move(verdict));
    }
    return verdicts;
}

bool has_limits(const Rules &rules) {
    return !rules.identification.empty() || !rules.qualification.empty() ||
           !rules.specified.empty() || rules.any_other || rules.total || rules.declared_at_least;
}

/// The one verdict that stands for all limits where none can be applied.
std::vector<RuleVerdict> no_limits(const JudgedSample &sample, const Limits &limits,
                                   std::size_t others) {
    RuleVerdict verdict{"impurities", "", fmt::format("{} beside it", others),
                        Verdict::cannot_be_told, ""};
    const bool open_main = !sample.main || !sample.rivals.empty();
    if (open_main) {
        verdict.reason = "it is open which spot or peak is the declared compound";
    } else if (has_limits(limits.rules)) {
        verdict.reason = "limits are in per cent, and the input has no areas";
    } else if (others > 0) {
        verdict.reason = "no limits given: --dose-mg-per-day or --rules";
    } else {
        return {};
    }
    return {verdict};
}

/// A limit below what can be seen at all.
void check_detection(const Limits &limits, std::vector<RuleVerdict> &verdicts) {
    const DoseBand *reporting = band_for(limits.rules.reporting, limits.dose_mg);
    if (reporting != nullptr && limits.detection_percent &&
        *limits.detection_percent > reporting->percent.value) {
        verdicts.push_back({"detection limit", "at most " + to_text(reporting->percent) + " %",
                            fmt::format("{:g} %", *limits.detection_percent),
                            Verdict::does_not_meet,
                            "impurities above the reporting threshold may stay unseen"});
    }
}

/// The verdict on a peak that only the choice of the reference names.
RuleVerdict by_reference(RuleVerdict verdict) {
    verdict.reason += ". It is the reference peak by your own choice: relative to itself its "
                      "retention is 1, whatever compound it is";
    return verdict;
}

} // namespace

RuleVerdict declared_verdict(const JudgedSample &sample) {
    RuleVerdict verdict{sample.declared + " is there", "", "", Verdict::does_not_meet,
                        "no spot or peak fits it"};
    if (!sample.main) {
        return verdict;
    }
    const JudgedFeature &main = sample.features[*sample.main];
    verdict.found =
        feature_text(main.feature) +
        (sample.main_is_reference ? ", the reference peak"
                                  : ", probability " + probability_text(main.declared_probability));
    if (!sample.rivals.empty()) {
        verdict.verdict = Verdict::cannot_be_told;
        verdict.reason = "it fits ";
        for (const std::size_t rival : sample.rivals) {
            const JudgedFeature &other = sample.features[rival];
            verdict.reason += fmt::format("{} ({}) ", feature_text(other.feature),
                                          probability_text(other.declared_probability));
        }
        verdict.reason += "as well: run it together with its standard";
    } else if (sample.main_is_assumed) {
        verdict.verdict = Verdict::cannot_be_told;
        verdict.reason =
            "it was taken for the reference as the largest peak, and relative retention "
            "counts from it: if its identity is known otherwise, name it with "
            "--reference-peak or in the column compound; another system, or its standard in a run "
            "beside it, would tell";
    } else if (main.identity.is_confirmed) {
        verdict = by_statement(std::move(verdict));
    } else if (main.identity.is_named ? is_settled(main.identity)
                                      : main.declared_probability >= kSettled) {
        verdict = main.identity.is_named
                      ? open_until_confirmed(std::move(verdict), main.identity)
                      : open_until_confirmed(std::move(verdict), sample.declared);
        verdict = sample.main_is_reference ? by_reference(std::move(verdict)) : verdict;
    } else {
        verdict.verdict = Verdict::cannot_be_told;
        verdict.reason = main.identity.compound == sample.declared && !main.identity.is_named
                             ? fmt::format("a probability of {:.2f} is needed", kSettled)
                             : proposal_text(main.identity);
        verdict.reason += sample.main_is_reference
                              ? "; as the reference it is 1 by definition: another system, or its "
                                "standard in a run beside it, would tell"
                              : "";
    }
    return verdict;
}

const SpecifiedLimit *specified_limit(const JudgedFeature &feature, const Rules &rules) {
    const auto limit_of = [&](const std::string &compound) -> const SpecifiedLimit * {
        const auto limit =
            std::find_if(rules.specified.begin(), rules.specified.end(),
                         [&](const SpecifiedLimit &one) { return one.compound == compound; });
        return limit == rules.specified.end() ? nullptr : &*limit;
    };
    if (feature.identity.is_confirmed || feature.identity.is_named) {
        return limit_of(feature.identity.compound);
    }
    const auto &identification = feature.identification;
    if (feature.identity.is_unlisted || identification.groups.empty()) {
        return nullptr;
    }
    for (const std::size_t member : identification.groups.front().members) {
        if (const SpecifiedLimit *limit = limit_of(identification.candidates[member].name)) {
            return limit;
        }
    }
    return nullptr;
}

std::vector<RuleVerdict> limit_verdicts(JudgedSample &sample, const Limits &limits) {
    const Impurities impurities = impurities_of(sample);
    const bool has_areas = sample.impurities_per_cent.has_value();
    std::vector<RuleVerdict> verdicts;
    if (!sample.main || !sample.rivals.empty() || !has_areas || !has_limits(limits.rules)) {
        return no_limits(sample, limits, impurities.size());
    }
    const auto add = [&](const std::vector<RuleVerdict> &more) {
        verdicts.insert(verdicts.end(), more.begin(), more.end());
    };
    for (JudgedFeature *feature : impurities) {
        feature->actions.emplace_back("report");
    }
    add(threshold_verdicts(sample, impurities, "identification threshold",
                           band_for(limits.rules.identification, limits.dose_mg), limits.dose_mg,
                           identification_verdict));
    // A limit of its own says up to what level an impurity is qualified, if it is that impurity.
    Impurities not_qualified;
    std::copy_if(impurities.begin(), impurities.end(), std::back_inserter(not_qualified),
                 [&](const JudgedFeature *one) {
                     return specified_limit(*one, limits.rules) == nullptr ||
                            !one->identity.is_confirmed;
                 });
    add(threshold_verdicts(sample, not_qualified, "qualification threshold",
                           band_for(limits.rules.qualification, limits.dose_mg), limits.dose_mg,
                           [&](JudgedFeature &feature, const std::string &limit) {
                               return qualification_verdict(feature, limit,
                                                            specified_limit(feature, limits.rules));
                           }));
    add(single_verdicts(sample, impurities, limits.rules));
    add(sum_verdicts(sample, limits.rules));
    check_detection(limits, verdicts);
    return verdicts;
}

} // namespace cospot::purity
