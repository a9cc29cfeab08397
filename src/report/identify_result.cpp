#include "report/identify_result.h"

#include "shared/quantity.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace cospot {

namespace {

constexpr const char *kUnlisted = "unlisted";
constexpr std::size_t kMostNames = 3;

/// The group that a candidate leads or is in; groups of one are not in the object.
const Json *group_with(const Json &result, const std::string &name) {
    for (const Json &group : result.at("groups")) {
        const Json &members = group.at("compounds");
        if (std::find(members.begin(), members.end(), name) != members.end()) {
            return &group;
        }
    }
    return nullptr;
}

} // namespace

std::vector<Proposal> proposals_of(const Json &result) {
    std::vector<Proposal> proposals;
    std::set<std::string> taken;
    for (const Json &candidate : result.at("candidates")) {
        const auto name = candidate.at("compound").get<std::string>();
        if (taken.contains(name)) {
            continue;
        }
        Proposal proposal{{name},
                          candidate.at("probability").get<double>(),
                          candidate.at("basis").get<std::string>()};
        if (const Json *group = group_with(result, name)) {
            proposal.names = group->at("compounds").get<std::vector<std::string>>();
            proposal.probability = group->at("probability").get<double>();
        }
        taken.insert(proposal.names.begin(), proposal.names.end());
        proposals.push_back(std::move(proposal));
    }
    if (!proposals.empty()) { // else nothing was compared
        proposals.push_back({{kUnlisted}, result.at("unlisted").get<double>(), ""});
    }
    std::stable_sort(proposals.begin(), proposals.end(), [](const Proposal &a, const Proposal &b) {
        return a.probability > b.probability;
    });
    return proposals;
}

bool is_unlisted(const Proposal &proposal) {
    return proposal.basis.empty();
}

std::string name_of(const Proposal &proposal) {
    std::string text;
    for (std::size_t i = 0; i < std::min(kMostNames, proposal.names.size()); ++i) {
        text += (i > 0 ? " or " : "") + proposal.names[i];
    }
    return proposal.names.size() > kMostNames
               ? text + fmt::format(" or {} more", proposal.names.size() - kMostNames)
               : text;
}

std::string feature_name(const Json &result) {
    const auto sample = result.at("sample").get<std::string>();
    const auto feature = result.at("feature").get<std::string>();
    return sample.empty() ? feature : sample + " / " + feature;
}

std::string shown_value_of(const Json &quantity, double value) {
    return shown(quantity_from_text(quantity.get<std::string>()).value(), value);
}

std::string observation_words(const Json &observation) {
    const Json &quantity = observation.at("quantity");
    const double uncertainty = observation.at("uncertainty").get<double>();
    std::string text = fmt::format("{} {}", quantity.get<std::string>(),
                                   shown_value_of(quantity, observation.at("value").get<double>()));
    if (uncertainty > 0.0) {
        text += " ± " + shown_value_of(quantity, uncertainty);
    }
    if (observation.contains("uncorrected")) {
        text += fmt::format(" (read {})",
                            shown_value_of(quantity, observation.at("uncorrected").get<double>()));
    }
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
