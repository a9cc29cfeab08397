#include "library/near_names.h"

#include "shared/edit_distance.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

namespace cospot {

namespace {

constexpr std::size_t kMostNames = 3;
constexpr std::size_t kLettersASlip = 4;  ///< so many letters allow one slip
constexpr std::size_t kLongestName = 200; ///< longer texts are no names with slips

/// How far a name lies from the one that was asked for, both in lower case; nothing: too far.
std::optional<std::size_t> distance(const std::string &asked, const std::string &name) {
    const std::size_t most = asked.size() / kLettersASlip;
    const std::size_t difference =
        std::max(asked.size(), name.size()) - std::min(asked.size(), name.size());
    if (most == 0) {
        return std::nullopt;
    }
    if (difference <= most) {
        if (const std::size_t slips = edit_distance(asked, name); slips <= most) {
            return slips;
        }
    }
    return name.find(asked) != std::string::npos ? std::optional(most + difference) : std::nullopt;
}

const char *names_sql(NameOf kind) {
    switch (kind) {
    case NameOf::compound:
        return "SELECT name FROM compound UNION SELECT name FROM synonym";
    case NameOf::system:
        return "SELECT name FROM system";
    case NameOf::any:
        break;
    }
    return "SELECT name FROM compound UNION SELECT name FROM synonym UNION "
           "SELECT name FROM system UNION SELECT name FROM packed_column";
}

} // namespace

std::string did_you_mean(library::Database &database, std::string_view name, NameOf kind) {
    const std::string asked = lower_ascii(trimmed(name));
    if (asked.size() > kLongestName) {
        return "";
    }
    std::vector<std::pair<std::size_t, std::string>> near;
    library::Statement names = database.prepare(names_sql(kind));
    while (names.step()) {
        std::string held = names.text(0);
        if (const auto far = distance(asked, lower_ascii(held))) {
            near.emplace_back(*far, std::move(held));
        }
    }
    std::sort(near.begin(), near.end());
    std::string words;
    for (std::size_t i = 0; i < std::min(near.size(), kMostNames); ++i) {
        const bool is_last = i + 1 == std::min(near.size(), kMostNames);
        words += fmt::format("{}{}",
                             i == 0    ? ""
                             : is_last ? " or "
                                       : ", ",
                             in_quotes(near[i].second));
    }
    return words.empty() ? "" : "; did you mean " + words + "?";
}

} // namespace cospot
