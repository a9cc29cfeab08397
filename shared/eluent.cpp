#include "shared/eluent.h"

#include "shared/number.h"
#include "shared/text.h"

#include <fmt/format.h>

namespace cospot {

namespace {

constexpr double kLargestPart = 1e6;

std::vector<std::string_view> split(std::string_view text, std::string_view dividers) {
    std::vector<std::string_view> pieces;
    std::size_t begin = 0;
    while (true) {
        const std::size_t end = text.find_first_of(dividers, begin);
        pieces.push_back(trimmed(text.substr(begin, end - begin)));
        if (end == std::string_view::npos) {
            return pieces;
        }
        begin = end + 1;
    }
}

/// The numbers of "60:40"; empty unless every piece is a number and there are two or more.
std::vector<double> ratio(std::string_view text) {
    std::vector<double> numbers;
    for (const std::string_view piece : split(text, ":/")) {
        const auto number = number_from_text(piece);
        if (!number) {
            return {};
        }
        numbers.push_back(*number);
    }
    return numbers.size() > 1 ? numbers : std::vector<double>{};
}

} // namespace

std::vector<SolventPart> parse_eluent(std::string_view text, const Where &where) {
    const std::string_view whole = trimmed(text);
    const std::size_t blank = whole.find_last_of(' ');
    const bool has_blank = blank != std::string_view::npos;
    const std::vector<double> parts =
        has_blank ? ratio(whole.substr(blank + 1)) : std::vector<double>{};
    if (parts.empty()) {
        return {{std::string(whole), 1.0}};
    }
    const auto names = split(whole.substr(0, blank), ":/");
    if (names.size() != parts.size()) {
        throw InputError(where, in_quotes(whole),
                         fmt::format("as many volume parts as solvents ({} solvents, {} parts), "
                                     "e.g. \"hexane:ethyl acetate 3:1\"",
                                     names.size(), parts.size()));
    }
    std::vector<SolventPart> eluent;
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (names[i].empty() || parts[i] <= 0.0 || parts[i] > kLargestPart) {
            throw InputError(where, in_quotes(whole),
                             "a name and a positive part, up to a million, for each solvent");
        }
        eluent.push_back({std::string(names[i]), parts[i]});
    }
    return eluent;
}

std::vector<double> volume_fractions(const std::vector<SolventPart> &eluent) {
    double total = 0.0;
    for (const SolventPart &part : eluent) {
        total += part.parts;
    }
    std::vector<double> fractions;
    fractions.reserve(eluent.size());
    for (const SolventPart &part : eluent) {
        fractions.push_back(part.parts / total);
    }
    return fractions;
}

} // namespace cospot
