#include "quantities/stationary_phase.h"

#include "shared/number.h"
#include "shared/text.h"

#include <algorithm>
#include <cctype>
#include <initializer_list>
#include <string>

namespace cospot::quantities {

namespace {

/// Letters in lower case, digits and points; everything else a blank.
std::string plain(std::string_view name) {
    std::string text = lower_ascii(name);
    for (char &letter : text) {
        if (std::isalnum(static_cast<unsigned char>(letter)) == 0 && letter != '.') {
            letter = ' ';
        }
    }
    return text;
}

bool holds_one_of(const std::string &text, std::initializer_list<std::string_view> parts) {
    return std::any_of(parts.begin(), parts.end(),
                       [&](std::string_view part) { return text.find(part) != std::string::npos; });
}

/// Whether "c18" and the like stand there as a word.
bool holds_word(const std::string &text, std::initializer_list<std::string_view> words) {
    const std::string padded = ' ' + text + ' ';
    return std::any_of(words.begin(), words.end(), [&](std::string_view word) {
        return padded.find(' ' + std::string(word) + ' ') != std::string::npos;
    });
}

/// The per cent of phenyl in "5 % phenyl methylsilicone": the number nearest before the word, or 0
/// where there is none.
double phenyl_percent(const std::string &text) {
    std::string_view before(text.data(), std::min(text.find("phenyl"), text.size()));
    before = trimmed(before);
    if (const std::size_t di = before.find_last_of(' ');
        di != std::string_view::npos && before.substr(di + 1) == "di") {
        before = trimmed(before.substr(0, di));
    }
    return number_from_text(before.substr(before.find_last_of(' ') + 1)).value_or(0.0);
}

} // namespace

LiquidPhase liquid_phase_of(std::string_view name) {
    const std::string text = plain(name);
    if (holds_word(text, {"c18", "c8", "c4", "c30", "rp18", "rp8", "rp", "ods"}) ||
        holds_one_of(text, {"octadecyl", "octyl", "butyl", "phenyl", "reversed", "biphenyl"})) {
        return LiquidPhase::reversed;
    }
    if (holds_one_of(text, {"cyano", "nitrile", "amino", "amide"})) {
        return LiquidPhase::unknown;
    }
    return holds_one_of(text, {"silica", "alumina", "diol", "normal phase"}) ? LiquidPhase::normal
                                                                             : LiquidPhase::unknown;
}

GasPhase gas_phase_of(std::string_view name) {
    constexpr double most_phenyl = 5.0;
    const std::string text = plain(name);
    if (holds_one_of(text, {"glycol", "wax", "cyano", "trifluoro"}) || holds_word(text, {"peg"}) ||
        phenyl_percent(text) > most_phenyl) {
        return GasPhase::polar;
    }
    return holds_one_of(text, {"methylsilicone", "methyl silicone", "methylpolysiloxane",
                               "methyl polysiloxane", "methylsiloxane", "squalane", "apolar",
                               "non polar"})
               ? GasPhase::non_polar
               : GasPhase::unknown;
}

} // namespace cospot::quantities
