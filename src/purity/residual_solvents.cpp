#include "purity/residual_solvents.h"

#include "document/probability_text.h"
#include "purity/identities.h"
#include "purity/likely_solvents.h"
#include "purity/named.h"
#include "purity/solvent_limits.h"
#include "purity/verdicts.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

namespace cospot::purity {

namespace {

/// The limit of the compound that the table names, else the strictest limit of those that the
/// feature most probably is; null where none has one.
const SolventLimit *limit_of(const JudgedFeature &feature) {
    const Identity &identity = feature.identity;
    if (identity.is_named) {
        return identity.inchikey.empty() ? solvent_limit_called(identity.name)
                                         : solvent_limit(identity.inchikey);
    }
    const Identification &identification = feature.identification;
    const SolventLimit *strictest = nullptr;
    const auto consider = [&](const ProposedCompound &candidate) {
        const SolventLimit *limit = solvent_limit(candidate.inchikey);
        if (limit != nullptr && (strictest == nullptr || limit->limit_ppm < strictest->limit_ppm)) {
            strictest = limit;
        }
    };
    if (feature.identity.is_confirmed) {
        for (const ProposedCompound &candidate : identification.candidates) {
            if (candidate.name == feature.identity.compound) {
                consider(candidate);
            }
        }
    } else if (!feature.identity.is_unlisted && !identification.groups.empty()) {
        for (const std::size_t member : identification.groups.front().members) {
            consider(identification.candidates[member]);
        }
    }
    return strictest;
}

std::string amount_text_of(const JudgedFeature &feature) {
    const auto &below = feature.feature.ppm_below;
    return feature_text(feature.feature) + (feature.ppm ? ", " + ppm_text(*feature.ppm) + " ppm"
                                            : below     ? ", below " + ppm_text(*below) + " ppm"
                                            : feature.feature.is_ppm_undetected ? ", not detected"
                                            : feature.feature.is_ppm_below
                                                ? ", below its limit of quantitation"
                                                : ", no amount");
}

/// The most that there can be of it; none where nothing tells.
std::optional<double> most_ppm_of(const JudgedFeature &feature) {
    return feature.ppm ? feature.ppm : feature.feature.ppm_below;
}

/// Why a peak has no amount that a limit can be held against, and what would give it one.
std::string why_no_amount(const JudgedFeature &feature) {
    if (feature.feature.is_ppm_undetected) {
        return "below a detection limit that is not stated: give --detection-limit-ppm, or write "
               "the limit into the table, as \"< 20\"";
    }
    if (feature.feature.is_ppm_below) {
        return "below a limit of quantitation that is not stated; the detection limit is lower "
               "than it, and does not stand for it: write the limit of quantitation into the "
               "table, as \"< 20\"";
    }
    return "no amount: give its ppm; or name a peak of known ppm with the role standard, and learn "
           "the response factor to it";
}

RuleVerdict rule_of(const SolventLimit &limit, const SolventQuestion &question) {
    return {fmt::format("{} (class {})", limit.name, limit.solvent_class),
            to_text(limit_at(limit, question.dose_mg)) + " ppm", "", Verdict::cannot_be_told, ""};
}

/// Class 1 is to be avoided whatever its amount.
std::string with_class(std::string reason, const SolventLimit &limit) {
    return limit.solvent_class == 1 ? "to be avoided; " + reason : reason;
}

/// The peaks that one limit holds for, taken together.
struct PeaksOfLimit {
    std::string found;
    double ppm = 0.0;      ///< of those whose name is settled, or stated by the table
    double most_ppm = 0.0; ///< of all, what is stated as below a limit reaching it
    const JudgedFeature *without_amount = nullptr; ///< the first of which nothing tells the most
    const JudgedFeature *open = nullptr;           ///< the first that is not confirmed
    const JudgedFeature *unsettled = nullptr;      ///< the first of them that stays open altogether
};

PeaksOfLimit added_up(const std::vector<JudgedFeature *> &peaks) {
    PeaksOfLimit all;
    for (JudgedFeature *peak : peaks) {
        const Identity &identity = peak->identity;
        const bool is_sure = identity.is_confirmed || is_settled(identity);
        all.found += (all.found.empty() ? "" : "; ") + amount_text_of(*peak);
        all.ppm += is_sure || identity.is_named ? peak->ppm.value_or(0.0) : 0.0;
        all.most_ppm += most_ppm_of(*peak).value_or(0.0);
        if (all.without_amount == nullptr && !most_ppm_of(*peak)) {
            all.without_amount = peak;
        }
        if (!identity.is_confirmed) {
            ask_to_confirm(*peak, identity.name);
            all.open = all.open == nullptr ? peak : all.open;
            all.unsettled = all.unsettled == nullptr && !is_sure ? peak : all.unsettled;
        }
    }
    return all;
}

using PeaksOfLimits = std::map<const SolventLimit *, std::vector<JudgedFeature *>>;

/// What all peaks of the limit hold at most, but for one; none where that cannot be told.
std::optional<double> most_of_others(const PeaksOfLimits &peaks, const SolventLimit *limit,
                                     const JudgedFeature *but) {
    double most = 0.0;
    const auto of_limit = peaks.find(limit);
    if (of_limit == peaks.end()) {
        return most;
    }
    for (const JudgedFeature *other : of_limit->second) {
        if (other != but && !most_ppm_of(*other)) {
            return std::nullopt;
        }
        most += other != but ? *most_ppm_of(*other) : 0.0;
    }
    return most;
}

/// The verdict on a peak that may be several solvents, where it is the same for each of them; none
/// where it depends on which one it is. An amount by a response factor depends on that anyway.
std::optional<RuleVerdict> verdict_whichever(const SolventLimit &limit, const JudgedFeature &peak,
                                             const PeaksOfLimits &peaks,
                                             const SolventQuestion &question) {
    const std::vector<LikelySolvent> likely = likely_solvents(peak);
    const auto amount = most_ppm_of(peak);
    if (likely.size() < 2 || !amount || peak.response_is_held) {
        return std::nullopt;
    }
    bool all_met = true;
    bool none_met = peak.ppm.has_value();
    bool any_to_avoid = false;
    for (const LikelySolvent &one : likely) {
        const Decimal most = limit_at(*one.limit, question.dose_mg);
        const auto others = most_of_others(peaks, one.limit, &peak);
        all_met = all_met && others && !exceeds(*amount + *others, most);
        none_met = none_met && exceeds(*amount, most);
        any_to_avoid = any_to_avoid || one.limit->solvent_class == 1;
    }
    if (all_met == none_met) { // neither
        return std::nullopt;
    }
    RuleVerdict verdict = rule_of(limit, question);
    verdict.found = amount_text_of(peak);
    verdict.verdict = all_met ? Verdict::meets : Verdict::does_not_meet;
    verdict.reason = fmt::format(
        "{}{} whichever it is: {}", any_to_avoid ? "one of them is to be avoided; " : "",
        all_met ? "met" : "too much", words_for(likely, peak, question.dose_mg));
    return verdict;
}

/// What the user's table names is too much if it is too much of what it names, whatever retention
/// says; it is met only where retention does not speak against the name.
RuleVerdict verdict_on(const SolventLimit &limit, const std::vector<JudgedFeature *> &peaks,
                       const SolventQuestion &question) {
    RuleVerdict verdict = rule_of(limit, question);
    const Decimal most = limit_at(limit, question.dose_mg);
    const PeaksOfLimit all = added_up(peaks);
    verdict.found = all.found;
    if (exceeds(all.ppm, most)) {
        verdict.verdict = Verdict::does_not_meet;
        verdict.reason = all.open == nullptr ? kStatedByUser : unconfirmed_text(all.open->identity);
    } else if (all.unsettled != nullptr) {
        verdict.reason =
            "which solvent it is stays open: " + proposal_text(all.unsettled->identity);
    } else if (all.without_amount != nullptr) {
        verdict.reason = why_no_amount(*all.without_amount);
    } else if (exceeds(all.most_ppm, most)) {
        verdict.reason = "the limit is lower than what the amount is stated to be below";
    } else if (all.open == nullptr) {
        verdict = by_statement(std::move(verdict));
    } else {
        verdict = open_until_confirmed(std::move(verdict), all.open->identity);
    }
    verdict.reason = with_class(std::move(verdict.reason), limit);
    return verdict;
}

/// A peak of which the guideline says nothing.
RuleVerdict verdict_without_limit(JudgedFeature &peak) {
    RuleVerdict verdict{"", "", amount_text_of(peak), Verdict::cannot_be_told, ""};
    if (peak.identity.is_unlisted) {
        verdict.rule = "a solvent that is not identified";
        verdict.reason = proposal_text(peak.identity);
        peak.actions.emplace_back("identify");
    } else {
        verdict.rule = peak.identity.name;
        const bool is_held = !peak.identity.is_named || !peak.identity.inchikey.empty();
        verdict.reason = std::string(is_held ? "" : "no structure of that name in the library; ") +
                         "no limit in the guideline; " +
                         (peak.identity.is_confirmed ? std::string(kStatedByUser)
                                                     : proposal_text(peak.identity));
        peak.actions.emplace_back("justify its level");
    }
    return verdict;
}

/// The peak that the solvent most probably is, though something else is likelier; null where none
/// may be it.
const JudgedFeature *peak_that_may_be(const JudgedSample &sample, const SoughtSolvent &sought) {
    const JudgedFeature *best = nullptr;
    double most = kLeastForMain;
    for (const JudgedFeature &feature : sample.features) {
        const bool is_settled_otherwise =
            feature.identity.is_confirmed ||
            (feature.identity.is_named && !feature.identity.is_contradicted);
        const double probability = probability_of(feature.identification, sought.name);
        if (is_of_sample(feature.role) && !is_settled_otherwise && probability >= most) {
            most = probability;
            best = &feature;
        }
    }
    return best;
}

/// An expected solvent of which no peak was seen, unless one that is taken for another is it.
RuleVerdict verdict_on_unseen(const JudgedSample &sample, const SoughtSolvent &sought,
                              const SolventQuestion &question) {
    const SolventLimit *limit = solvent_limit(sought.inchikey);
    RuleVerdict verdict = limit != nullptr
                              ? rule_of(*limit, question)
                              : RuleVerdict{sought.name, "", "", Verdict::cannot_be_told, ""};
    verdict.found = "no peak";
    const JudgedFeature *maybe = peak_that_may_be(sample, sought);
    const auto amount = maybe != nullptr ? most_ppm_of(*maybe) : std::nullopt;
    const bool is_little =
        limit != nullptr && amount && !exceeds(*amount, limit_at(*limit, question.dose_mg));
    if (maybe != nullptr && !is_little) {
        verdict.found = amount_text_of(*maybe);
        verdict.reason =
            fmt::format("it may be {} with a probability of {}: {}", feature_text(maybe->feature),
                        probability_text(probability_of(maybe->identification, sought.name)),
                        proposal_text(maybe->identity));
    } else if (limit == nullptr) {
        verdict.reason = "no limit in the guideline";
    } else if (!question.detection_ppm) {
        verdict.reason = "it may be there below the detection limit: --detection-limit-ppm";
    } else if (*question.detection_ppm > limit_at(*limit, question.dose_mg).value) {
        verdict.reason =
            fmt::format("it would be seen from {:g} ppm on only", *question.detection_ppm);
    } else {
        verdict.verdict = Verdict::meets;
        verdict.reason = fmt::format("it would be seen from {:g} ppm on", *question.detection_ppm);
    }
    return verdict;
}

/// A peak that is none of the solvents because it is taken for the declared compound.
RuleVerdict verdict_on_declared(JudgedFeature &peak, const std::string &declared) {
    RuleVerdict verdict{"peak of the declared compound", "", amount_text_of(peak),
                        Verdict::cannot_be_told, ""};
    if (peak.identity.is_confirmed) {
        return by_statement(std::move(verdict));
    }
    ask_to_confirm(peak, declared);
    if (peak.identity.is_contradicted) {
        verdict.reason = proposal_text(peak.identity);
        return verdict;
    }
    return peak.identity.is_named ? open_until_confirmed(std::move(verdict), peak.identity)
                                  : open_until_confirmed(std::move(verdict), declared);
}

/// Whether one of the peaks is, as far as retention tells, the solvent or one of the same limit.
bool is_seen(const JudgedSample &sample, const SoughtSolvent &sought) {
    const SolventLimit *limit = solvent_limit(sought.inchikey);
    return std::any_of(
        sample.features.begin(), sample.features.end(), [&](const JudgedFeature &one) {
            return one.role == Role::impurity &&
                   ((limit != nullptr && limit_of(one) == limit) ||
                    (!one.identity.is_unlisted && one.identity.compound == sought.name));
        });
}

} // namespace

std::string ppm_text(double ppm) {
    return ppm < 10.0 ? fmt::format("{:.2g}", ppm) : fmt::format("{:.0f}", ppm);
}

std::vector<RuleVerdict> solvent_verdicts(JudgedSample &sample, const SolventQuestion &question) {
    PeaksOfLimits peaks; // by place in the table
    std::vector<RuleVerdict> without_limit;
    for (JudgedFeature &feature : sample.features) {
        if (feature.role == Role::declared) {
            without_limit.push_back(verdict_on_declared(feature, sample.declared));
        }
        if (feature.role != Role::impurity) {
            continue;
        }
        if (const SolventLimit *limit = limit_of(feature)) {
            peaks[limit].push_back(&feature);
        } else {
            without_limit.push_back(verdict_without_limit(feature));
        }
    }
    std::vector<RuleVerdict> verdicts;
    for (const auto &[limit, of_limit] : peaks) {
        const auto whichever = of_limit.size() == 1
                                   ? verdict_whichever(*limit, *of_limit.front(), peaks, question)
                                   : std::nullopt;
        verdicts.push_back(whichever ? *whichever : verdict_on(*limit, of_limit, question));
    }
    verdicts.insert(verdicts.end(), without_limit.begin(), without_limit.end());
    for (const SoughtSolvent &sought : question.sought) {
        if (!is_seen(sample, sought)) {
            verdicts.push_back(verdict_on_unseen(sample, sought, question));
        }
    }
    if (verdicts.empty()) {
        verdicts.push_back({"residual solvents", "", "no peak of a solvent",
                            Verdict::cannot_be_told,
                            "name the solvents that may be there with --expected"});
    }
    return verdicts;
}

} // namespace cospot::purity
