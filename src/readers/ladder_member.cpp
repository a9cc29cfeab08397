#include "readers/ladder_member.h"

#include "shared/text.h"

#include <algorithm>
#include <string>

namespace cospot {

namespace {

std::optional<LadderMember> named_member(std::string_view name) {
    auto homologue = quantities::homologue_from_name(name);
    if (!homologue) {
        homologue = quantities::homologue_from_name(std::string(name) + "e"); // Nonan
    }
    return homologue ? std::optional(LadderMember{homologue->carbon, homologue->scale})
                     : std::nullopt;
}

/// The number behind the C of "C7", "n-C9" or "C5 Pentan", and what follows it.
struct ChainNumber {
    int carbon = 0;
    std::string_view rest;
};

std::optional<ChainNumber> chain_number(std::string_view text) {
    if (text.starts_with("n-")) {
        text.remove_prefix(2);
    }
    if (text.empty() || (text.front() != 'C' && text.front() != 'c')) {
        return std::nullopt;
    }
    constexpr std::size_t most_digits = 3;
    const std::size_t end = std::min(text.find_first_not_of("0123456789", 1), text.size());
    if (end == 1 || end > 1 + most_digits || (end < text.size() && text[end] != ' ')) {
        return std::nullopt;
    }
    return ChainNumber{std::stoi(std::string(text.substr(1, end - 1))), trimmed(text.substr(end))};
}

} // namespace

std::optional<LadderMember> ladder_member(std::string_view text) {
    text = trimmed(text);
    const auto chain = chain_number(text);
    if (chain && chain->rest.empty()) {
        return LadderMember{chain->carbon};
    }
    if (const auto named = named_member(text)) {
        return named;
    }
    if (!chain) {
        return std::nullopt;
    }
    const auto named = named_member(chain->rest);
    if (named && named->carbon != chain->carbon) {
        return std::nullopt;
    }
    return LadderMember{chain->carbon, named ? named->scale : std::nullopt};
}

} // namespace cospot
