#include "shared/eluent.h"

#include "shared/number.h"
#include "shared/solvent_names.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <optional>

namespace cospot {

namespace {

constexpr double kLargestPart = 1e6;
constexpr double kWhole = 100.0; // per cent
/// Longer texts are no eluents whose names are divided by blanks.
constexpr std::size_t kLongestLoose = 200;

using Names = std::vector<std::string>;

/// A number without sign at `at`, with a decimal point or comma; `at` goes on behind it.
std::optional<double> read_part(std::string_view text, std::size_t &at) {
    std::size_t end = at;
    std::string number;
    bool has_sign = false;
    for (; end < text.size(); ++end) {
        const bool is_sign = (text[end] == '.' || text[end] == ',') && !has_sign && end > at &&
                             end + 1 < text.size() && is_digit(text[end + 1]);
        if (!is_digit(text[end]) && !is_sign) {
            break;
        }
        has_sign |= is_sign;
        number += is_sign ? '.' : text[end];
    }
    const auto value = number_from_text(number);
    at = value ? end : at;
    return value;
}

void pass_blanks(std::string_view text, std::size_t &at) {
    at = std::min(text.find_first_not_of(' ', at), text.size());
}

/// Parts of volumes, and where they stand.
struct Ratio {
    std::vector<double> parts;
    std::size_t begin = 0;
    std::size_t end = 0;
};

/// "60:40" or "4 / 1" at `begin`: two numbers or more, then a blank, a bracket or the end.
std::optional<Ratio> ratio_at(std::string_view text, std::size_t begin) {
    Ratio ratio{{}, begin, begin};
    while (const auto part = read_part(text, ratio.end)) {
        ratio.parts.push_back(*part);
        std::size_t next = ratio.end;
        pass_blanks(text, next);
        const bool goes_on = next < text.size() &&
                             std::string_view(":/-").find(text[next]) != std::string_view::npos;
        if (!goes_on) {
            const bool is_end = ratio.end >= text.size() || text[ratio.end] == ' ' ||
                                text[ratio.end] == ')' || text[ratio.end] == ',';
            const bool is_percent = next < text.size() && text[next] == '%';
            return is_end && !is_percent && ratio.parts.size() > 1 ? std::optional(ratio)
                                                                   : std::nullopt;
        }
        ratio.end = next + 1;
        pass_blanks(text, ratio.end);
    }
    return std::nullopt;
}

/// The last ratio of the text that stands as a word of its own.
std::optional<Ratio> find_ratio(std::string_view text) {
    std::optional<Ratio> last;
    for (std::size_t at = 0; at < text.size(); ++at) {
        const bool is_begin = is_digit(text[at]) && (at == 0 || text[at - 1] == ' ' ||
                                                     text[at - 1] == '(' || text[at - 1] == '=');
        if (!is_begin) {
            continue;
        }
        if (auto found = ratio_at(text, at)) {
            at = found->end;
            last = std::move(found);
        }
    }
    return last;
}

/// Without brackets, signs and blanks that stood between names and parts.
std::string_view bare(std::string_view text) {
    constexpr std::string_view around = " ,;=";
    while (!text.empty() && (around.find(text.back()) != std::string_view::npos ||
                             (text.back() == '(' ||
                              (text.back() == ')' && text.find('(') == std::string_view::npos)))) {
        text.remove_suffix(1);
    }
    while (!text.empty() && (around.find(text.front()) != std::string_view::npos ||
                             (text.front() == ')' ||
                              (text.front() == '(' && text.find(')') == std::string_view::npos)))) {
        text.remove_prefix(1);
    }
    return text;
}

/// Names between ':', '/' and '+', but for a '/' in a boiling range.
Names divided(std::string_view text, bool keeps_ranges) {
    Names names;
    std::size_t begin = 0;
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (keeps_ranges && (text[at] == ' ' || text[at] == '(') &&
            solvent_key(text.substr(begin, at - begin)) == "petroleum ether") {
            at += std::max<std::size_t>(boiling_range_length(text, at), 1) - 1;
        } else if (std::string_view(":/+").find(text[at]) != std::string_view::npos) {
            names.emplace_back(trimmed(text.substr(begin, at - begin)));
            begin = at + 1;
        }
    }
    names.emplace_back(trimmed(text.substr(begin)));
    return names;
}

/// Known solvents between '-' or blanks; empty where some piece is none.
Names loosely_divided(std::string_view text) {
    Names names;
    if (text.size() > kLongestLoose) {
        return names;
    }
    while (!text.empty()) {
        std::size_t end = text.size();
        while (end != std::string_view::npos && known_solvent(text.substr(0, end)).empty()) {
            end = end == 0 ? std::string_view::npos : text.find_last_of(" -", end - 1);
        }
        if (end == std::string_view::npos || end == 0) {
            return {};
        }
        names.emplace_back(trimmed(text.substr(0, end)));
        text.remove_prefix(std::min(text.find_first_not_of(" -", end), text.size()));
    }
    return names;
}

/// The names before or behind parts, as many as there are parts; else what the signs between them
/// divide.
Names names_in(std::string_view text, std::size_t parts) {
    Names names = divided(text, true);
    if (names.size() != parts) {
        if (Names plainly = divided(text, false); plainly.size() == parts) {
            return plainly;
        }
        if (Names loosely = loosely_divided(text); loosely.size() == parts) {
            return loosely;
        }
    }
    return names;
}

InputError mismatch(std::string_view whole, const Names &names, std::size_t parts,
                    const Where &where) {
    return {where, in_quotes(whole),
            fmt::format("as many volume parts as solvents ({}, {}), e.g. \"hexane:ethyl acetate "
                        "3:1\"",
                        counted(names.size(), "solvent"), counted(parts, "part"))};
}

/// Whether the parts stand as they must: at the end, as in "3:1". What else may be parts may be
/// something else, too, and is no fault.
bool are_plain_parts(std::string_view whole, const Ratio &ratio) {
    return ratio.end == whole.size() &&
           whole.find_first_of(" -,", ratio.begin) == std::string_view::npos;
}

/// Without "(v/v)", which says of parts what they are here anyway.
std::string without_by_volume(std::string_view text) {
    std::string rest(text);
    for (const std::string_view words : {"(v/v)", "(V/V)", "(v:v)", " v/v", " V/V"}) {
        if (const std::size_t at = rest.find(words); at != std::string::npos) {
            rest.erase(at, words.size());
        }
    }
    return std::string(trimmed(rest));
}

/// Names with their parts; empty where the text has no parts that could belong to names.
std::vector<SolventPart> read_mixture(std::string_view whole, const Where &where) {
    const auto ratio = find_ratio(whole);
    if (!ratio) {
        return {};
    }
    const std::string_view before = bare(whole.substr(0, ratio->begin));
    const std::string_view behind = bare(whole.substr(ratio->end));
    const std::size_t parts = ratio->parts.size();
    Names names = names_in(behind.empty() ? before : behind, parts);
    if (!before.empty() && !behind.empty()) { // "EE 4:1 PE"
        names = {std::string(before), std::string(behind)};
        if (known_solvent(before).empty() || known_solvent(behind).empty()) {
            return {};
        }
    }
    const bool is_plain = are_plain_parts(whole, *ratio) && !before.empty();
    if (names.size() != parts) {
        if (is_plain) {
            throw mismatch(whole, names, parts, where);
        }
        return {};
    }
    std::vector<SolventPart> eluent;
    for (std::size_t i = 0; i < parts; ++i) {
        if (names[i].empty() || ratio->parts[i] <= 0.0 || ratio->parts[i] > kLargestPart) {
            if (!is_plain) {
                return {};
            }
            throw InputError(where, in_quotes(whole),
                             "a name and a positive part, up to a million, for each solvent");
        }
        eluent.push_back({std::move(names[i]), ratio->parts[i]});
    }
    return eluent;
}

/// "1 % Et3N" or "Et3N 1 %"; nothing for another text.
std::optional<SolventPart> read_percent(std::string_view text) {
    text = trimmed(text);
    const std::size_t sign = text.find('%');
    if (sign == std::string_view::npos) {
        return std::nullopt;
    }
    const bool is_first =
        !text.empty() && is_digit(text.front()) && text.find_first_not_of("0123456789., ") == sign;
    std::size_t at = is_first ? 0 : text.find_last_of(' ', trimmed(text.substr(0, sign)).size());
    at = at == std::string_view::npos ? 0 : at;
    std::string_view name = is_first ? text.substr(sign + 1) : text.substr(0, at);
    pass_blanks(text, at);
    const auto percent = read_part(text, at);
    pass_blanks(text, at);
    name = trimmed(name);
    const bool is_whole = at == sign && (is_first || sign + 1 == text.size());
    if (!percent || !is_whole || name.empty() || *percent <= 0.0 || *percent >= kWhole) {
        return std::nullopt;
    }
    return SolventPart{std::string(name), *percent};
}

/// "20 % EtOAc in hexane" or "20 % EtOAc/hexane", both known; empty for another text.
std::vector<SolventPart> read_share(std::string_view text) {
    const auto first = read_percent(text);
    if (!first) {
        return {};
    }
    for (const std::string_view divider : {" in ", "/", ":"}) {
        const std::size_t at = first->solvent.find(divider);
        if (at == std::string::npos) {
            continue;
        }
        const std::string_view names = first->solvent;
        const std::string_view strong = trimmed(names.substr(0, at));
        const std::string_view other = trimmed(names.substr(at + divider.size()));
        if (!known_solvent(strong).empty() && !known_solvent(other).empty()) {
            return {{std::string(other), kWhole - first->parts},
                    {std::string(strong), first->parts}};
        }
    }
    return {};
}

/// What is added behind the last '+', in per cent of the mixture.
struct Added {
    std::string_view mixture;
    std::optional<SolventPart> additive;
};

Added split_additive(std::string_view whole) {
    const std::size_t plus = whole.rfind('+');
    if (plus != std::string_view::npos && plus > 0) {
        if (auto additive = read_percent(whole.substr(plus + 1))) {
            return {trimmed(whole.substr(0, plus)), std::move(additive)};
        }
    }
    return {whole, std::nullopt};
}

} // namespace

std::vector<SolventPart> parse_eluent(std::string_view text, const Where &where) {
    const std::string_view whole = trimmed(text);
    const std::string bare_text = without_by_volume(whole);
    const auto [mixture, additive] = split_additive(bare_text);
    std::vector<SolventPart> eluent;
    if (known_solvent(mixture).empty()) { // else "PE 40/60" would have parts
        eluent = read_mixture(mixture, where);
    }
    if (eluent.empty()) {
        eluent = read_share(mixture);
    }
    if (eluent.empty() && additive && !known_solvent(mixture).empty()) {
        eluent = {{std::string(mixture), kWhole}};
    }
    if (eluent.empty()) {
        return {{std::string(whole), 1.0}};
    }
    if (additive) {
        double total = 0.0;
        for (const SolventPart &part : eluent) {
            total += part.parts;
        }
        eluent.push_back({additive->solvent, total * additive->parts / kWhole});
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

std::vector<std::string> unknown_solvents(const std::vector<SolventPart> &eluent) {
    std::vector<std::string> unknown;
    for (const SolventPart &part : eluent) {
        if (known_solvent(part.solvent).empty()) {
            unknown.push_back(part.solvent);
        }
    }
    return unknown;
}

std::vector<SolventPart> without_additives(const std::vector<SolventPart> &eluent) {
    constexpr double most = 0.05;
    constexpr std::string_view additives[]{
        "triethylamine", "diethylamine",        "pyridine", "ammonia", "acetic acid",
        "formic acid",   "trifluoroacetic acid"};
    const std::vector<double> fractions = volume_fractions(eluent);
    std::vector<SolventPart> rest;
    for (std::size_t i = 0; i < eluent.size(); ++i) {
        const bool is_additive = fractions[i] <= most &&
                                 std::find(std::begin(additives), std::end(additives),
                                           known_solvent(eluent[i].solvent)) != std::end(additives);
        if (!is_additive) {
            rest.push_back(eluent[i]);
        }
    }
    return rest;
}

} // namespace cospot
