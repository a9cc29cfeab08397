#include "purity/residual_solvents.h"

#include "purity/solvent_limits.h"
#include "purity/verdicts.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

namespace cospot::purity {

namespace {

/// The strictest limit of the compounds that the feature most probably is; null where none has one.
const SolventLimit *limit_of(const JudgedFeature &feature) {
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
    return feature_text(feature.feature) +
           (feature.ppm ? ", " + ppm_text(*feature.ppm) + " ppm" : ", no amount");
}

RuleVerdict rule_of(const SolventLimit &limit, const SolventQuestion &question) {
    return {fmt::format("{} (class {})", limit.name, limit.solvent_class),
            to_text(limit_at(limit, question.dose_mg)) + " ppm", "", Verdict::cannot_be_told, ""};
}

/// Class 1 is to be avoided whatever its amount.
std::string with_class(std::string reason, const SolventLimit &limit) {
    return limit.solvent_class == 1 ? "to be avoided; " + reason : reason;
}

/// All peaks that one limit holds for.
RuleVerdict verdict_on(const SolventLimit &limit, const std::vector<JudgedFeature *> &peaks,
                       const SolventQuestion &question) {
    RuleVerdict verdict = rule_of(limit, question);
    double sum = 0.0;
    bool all_amounts = true;
    const JudgedFeature *open = nullptr;
    bool all_settled = true;
    for (JudgedFeature *peak : peaks) {
        verdict.found += (verdict.found.empty() ? "" : "; ") + amount_text_of(*peak);
        sum += peak->ppm.value_or(0.0);
        all_amounts = all_amounts && peak->ppm;
        if (!peak->identity.is_confirmed) {
            ask_to_confirm(*peak, peak->identity.name);
            open = open == nullptr ? peak : open;
            all_settled = all_settled && is_settled(peak->identity);
        }
    }
    if (!all_settled) {
        verdict.reason = "which solvent it is stays open: " + proposal_text(open->identity);
    } else if (exceeds(sum, limit_at(limit, question.dose_mg))) {
        verdict.verdict = Verdict::does_not_meet;
        verdict.reason = open == nullptr
                             ? kStatedByUser
                             : "known by its retention only: " + proposal_text(open->identity);
    } else if (!all_amounts) {
        verdict.reason = "no amount: give its ppm, or the response factor that the library lacks";
    } else if (open == nullptr) {
        verdict = by_statement(std::move(verdict));
    } else {
        verdict = open_until_confirmed(std::move(verdict), open->identity.name);
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
        verdict.reason = "no limit in the guideline; " + (peak.identity.is_confirmed
                                                              ? std::string(kStatedByUser)
                                                              : proposal_text(peak.identity));
        peak.actions.emplace_back("justify its level");
    }
    return verdict;
}

/// An expected solvent of which no peak was seen.
RuleVerdict verdict_on_unseen(const SoughtSolvent &sought, const SolventQuestion &question) {
    const SolventLimit *limit = solvent_limit(sought.inchikey);
    RuleVerdict verdict = limit != nullptr
                              ? rule_of(*limit, question)
                              : RuleVerdict{sought.name, "", "", Verdict::cannot_be_told, ""};
    verdict.found = "no peak";
    if (limit == nullptr) {
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
    return open_until_confirmed(std::move(verdict), declared);
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
    std::map<const SolventLimit *, std::vector<JudgedFeature *>> peaks; // by place in the table
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
        verdicts.push_back(verdict_on(*limit, of_limit, question));
    }
    verdicts.insert(verdicts.end(), without_limit.begin(), without_limit.end());
    for (const SoughtSolvent &sought : question.sought) {
        if (!is_seen(sample, sought)) {
            verdicts.push_back(verdict_on_unseen(sought, question));
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
