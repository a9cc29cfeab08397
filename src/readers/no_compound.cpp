#include "readers/no_compound.h"

#include "shared/text.h"

#include <algorithm>
#include <span>

namespace cospot {

namespace {

/// Whether the text is one of the words, a number behind it apart.
bool is_numbered_word(std::string_view text, std::span<const std::string_view> words) {
    const auto is_word = [&](std::string_view one) {
        return std::any_of(words.begin(), words.end(),
                           [&](std::string_view word) { return equal_ignoring_case(one, word); });
    };
    text = trimmed(text);
    if (is_word(text)) {
        return true;
    }
    while (!text.empty() &&
           std::string_view("0123456789 -_#").find(text.back()) != std::string_view::npos) {
        text.remove_suffix(1);
    }
    return is_word(text);
}

} // namespace

bool names_no_compound(std::string_view text) {
    constexpr std::string_view words[]{"unknown", "unk", "unk.",           "unidentified",
                                       "n.i.",    "n.i", "n. i.",          "?",
                                       "??",      "???", "not identified", "unbekannt"};
    return is_numbered_word(text, words);
}

bool names_unretained(std::string_view text) {
    constexpr std::string_view words[]{"solvent front",
                                       "solventfront",
                                       "solvent peak",
                                       "front",
                                       "void",
                                       "void peak",
                                       "void volume",
                                       "void time",
                                       "dead volume",
                                       "dead time",
                                       "hold-up",
                                       "hold-up time",
                                       "hold-up peak",
                                       "hold-up volume",
                                       "holdup",
                                       "t0",
                                       "t 0",
                                       "t_0",
                                       "tM",
                                       "t_M",
                                       "t(0)",
                                       "injection",
                                       "injection peak",
                                       "inj. peak",
                                       "system peak",
                                       "unretained",
                                       "unretained peak",
                                       "Totzeit",
                                       "Totvolumen",
                                       "Totzeitpeak",
                                       "Durchflusszeit",
                                       "Injektionspeak",
                                       "Lösungsmittelfront"};
    return is_numbered_word(text, words);
}

} // namespace cospot
