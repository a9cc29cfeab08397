#pragma once

#include "shared/text.h"

#include <fmt/format.h>

#include <cstdint>
#include <string>
#include <string_view>

namespace cospot {

/// A functional group as a chemist writes it: the tables of descriptors/data name it
/// `benzene_ring`.
[[nodiscard]] std::string group_words(std::string_view name);

/// "methyl, methylene (11), primary alcohol" of pairs of a name and how often it occurs.
template <typename Groups> [[nodiscard]] std::string groups_words(const Groups &groups) {
    std::string words;
    for (const auto &[name, count] : groups) {
        words += (words.empty() ? "" : ", ") + group_words(name);
        words += count > 1 ? fmt::format(" ({})", count) : "";
    }
    return words;
}

/// "1 donor, 2 acceptors"
[[nodiscard]] inline std::string hydrogen_bond_words(std::int64_t donors, std::int64_t acceptors) {
    return counted(donors, "donor") + ", " + counted(acceptors, "acceptor");
}

} // namespace cospot
