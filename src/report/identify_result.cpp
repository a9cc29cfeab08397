#include "report/identify_result.h"

#include "shared/quantity.h"
#include "shared/value_with_spread.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace cospot {

namespace {

constexpr const char *kUnlisted = "unlisted";
constexpr std::size_t kMostNames = 3;

/// Whether the candidates from `first` on are the members of the group.
bool begins_at(const Json &candidates, std::size_t first, const Json &group) {
    const Json &members = group.at("compounds");
    if (first + members.size() > candidates.size()) {
        return false;
    }
    for (std::size_t i = 0; i < members.size(); ++i) {
        if (candidates[first + i].at("compound") != members[i]) {
            return false;
        }
    }
    return true;
}

} // namespace

std::vector<Proposal> proposals_of(const Json &result) {
    std::vector<Proposal> proposals;
    const Json &candidates = result.at("candidates");
    const double unlisted = result.at("unlisted").get<double>();
    bool unlisted_is_due = !candidates.empty(); // else nothing was compared
    const auto add_unlisted = [&] {
        proposals.push_back({{kUnlisted}, unlisted, ""});
        unlisted_is_due = false;
    };
    auto group = result.at("groups").begin(); // groups of one are not in the object
    for (std::size_t i = 0; i < candidates.size();) {
        const Json &candidate = candidates[i];
        Proposal proposal{{candidate.at("compound").get<std::string>()},
                          candidate.at("probability").get<double>(),
                          candidate.at("basis").get<std::string>(),
                          i};
        if (group != result.at("groups").end() && begins_at(candidates, i, *group)) {
            proposal.names = group->at("compounds").get<std::vector<std::string>>();
            proposal.probability = group->at("probability").get<double>();
            proposal.more = group->value("more", std::size_t{0});
            ++group;
        }
        if (unlisted_is_due && unlisted > proposal.probability) {
            add_unlisted();
        }
        i += proposal.names.size();
        proposals.push_back(std::move(proposal));
    }
    if (unlisted_is_due) {
        add_unlisted();
    }
    return proposals;
}

bool is_unlisted(const Proposal &proposal) {
    return proposal.basis.empty();
}

std::string name_of(const Proposal &proposal) {
    const std::size_t named = std::min(kMostNames, proposal.names.size());
    std::string text;
    for (std::size_t i = 0; i < named; ++i) {
        text += (i > 0 ? " or " : "") + proposal.names[i];
    }
    const std::size_t more = proposal.names.size() - named + proposal.more;
    return more > 0 ? text + fmt::format(" or {} more", more) : text;
}

std::string feature_name(const Json &result) {
    const auto sample = result.at("sample").get<std::string>();
    const auto feature = result.at("feature").get<std::string>();
    return sample.empty() ? feature : sample + " / " + feature;
}

std::string shown_value_of(const Json &quantity, double value) {
    return shown(quantity_from_text(quantity.get<std::string>()).value(), value);
}

std::string shown_with_spread(const Json &quantity, double value, double spread) {
    return with_spread(quantity_from_text(quantity.get<std::string>()).value(), value, spread);
}

std::string observation_words(const Json &observation) {
    const Json &quantity = observation.at("quantity");
    std::string text =
        fmt::format("{} {}", quantity.get<std::string>(),
                    shown_with_spread(quantity, observation.at("value").get<double>(),
                                      observation.at("uncertainty").get<double>()));
    if (observation.contains("extrapolated")) {
        text += " (extrapolated)";
    }
    return text + " on " + observation.at("system").get<std::string>();
}

std::string readings_of(const Json &result) {
    std::string text;
    if (result.contains("tR")) {
        text = fmt::format("tR {:.3f} min", result.at("tR").get<double>());
    }
    for (const Json &observation : result.at("observations")) {
        text += (text.empty() ? "" : "; ") + observation_words(observation);
    }
    return text;
}

} // namespace cospot
