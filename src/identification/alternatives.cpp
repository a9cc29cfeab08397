#include "identification/alternatives.h"

#include "model/matcher/basis_text.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot {

namespace {

constexpr double kWorthListing = 0.01;
constexpr double kAllButSure = 0.99;
constexpr std::size_t kMaxNames = 3;

} // namespace

std::vector<Alternative> alternatives_of(const Identification &result) {
    std::vector<Alternative> alternatives;
    if (result.candidates.empty()) {
        return alternatives;
    }
    for (const matcher::Group &group : result.groups) {
        alternatives.push_back({&group, group.probability});
    }
    const auto place =
        std::find_if(alternatives.begin(), alternatives.end(),
                     [&](const Alternative &one) { return one.probability < result.unlisted; });
    alternatives.insert(place, {nullptr, result.unlisted});
    return alternatives;
}

bool is_worth_listing(const matcher::Group &group, const Identification &result) {
    return group.probability >= kWorthListing ||
           (&group == &result.groups.front() && result.unlisted < kAllButSure);
}

std::string name_of(const Alternative &alternative, const Identification &result) {
    if (alternative.group == nullptr) {
        return "unlisted";
    }
    const std::vector<std::size_t> &members = alternative.group->members;
    const std::size_t named = std::min(kMaxNames, members.size());
    std::string text;
    for (std::size_t i = 0; i < named; ++i) {
        text += (i > 0 ? " or " : "") + result.candidates[members[i]].name;
    }
    const std::size_t more = members.size() - named + alternative.group->not_listed;
    return more > 0 ? text + fmt::format(" or {} more", more) : text;
}

std::string name_of_basis(matcher::Basis basis) {
    return basis == matcher::Basis::same_run ? "same run" : std::string(to_text(basis));
}

} // namespace cospot
