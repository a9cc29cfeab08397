#include "purity/verdicts.h"

#include "document/probability_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace cospot::purity {

bool is_settled(const Identity &identity) {
    return identity.is_named ? !identity.is_contradicted
                             : !identity.is_unlisted && identity.probability >= kSettled;
}

std::string proposal_text(const Identity &identity) {
    if (identity.is_named) {
        return fmt::format("named {} in the table; not confirmed{}{}", identity.name,
                           identity.is_contradicted ? "; its retention speaks against it: "
                           : identity.is_judged     ? ""
                                                    : "; ",
                           identity.is_contradicted || !identity.is_judged ? identity.by_retention
                                                                           : "");
    }
    if (!identity.is_judged) {
        return "its retention could not be compared";
    }
    return fmt::format("likeliest is {}, probability {}",
                       identity.is_unlisted ? "a compound that the library lacks" : identity.name,
                       probability_text(identity.probability));
}

RuleVerdict by_statement(RuleVerdict verdict) {
    verdict.verdict = Verdict::meets;
    verdict.reason = kStatedByUser;
    return verdict;
}

RuleVerdict open_until_confirmed(RuleVerdict verdict, const std::string &compound) {
    verdict.verdict = Verdict::open;
    verdict.reason = fmt::format(
        "open until {} is confirmed by a reference standard or an independent method", compound);
    return verdict;
}

RuleVerdict open_until_confirmed(RuleVerdict verdict, const Identity &identity) {
    verdict = open_until_confirmed(std::move(verdict), identity.name);
    if (identity.is_named) {
        verdict.reason.insert(0, "named in the table; not confirmed: ");
    }
    return verdict;
}

std::string unconfirmed_text(const Identity &identity) {
    return (identity.is_named ? "" : "known by its retention only: ") + proposal_text(identity);
}

void ask_to_confirm(JudgedFeature &feature, const std::string &compound) {
    const std::string action = "confirm " + compound;
    if (std::find(feature.actions.begin(), feature.actions.end(), action) ==
        feature.actions.end()) {
        feature.actions.push_back(action);
    }
}

} // namespace cospot::purity
