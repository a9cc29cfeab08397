#include "readers/no_compound.h"

#include "shared/text.h"

#include <algorithm>

namespace cospot {

bool names_no_compound(std::string_view text) {
    text = trimmed(text);
    while (!text.empty() &&
           std::string_view("0123456789 -_#").find(text.back()) != std::string_view::npos) {
        text.remove_suffix(1);
    }
    constexpr std::string_view words[]{"unknown", "unk", "unk.",           "unidentified",
                                       "n.i.",    "n.i", "n. i.",          "?",
                                       "??",      "???", "not identified", "unbekannt"};
    return std::any_of(std::begin(words), std::end(words),
                       [&](std::string_view word) { return equal_ignoring_case(text, word); });
}

} // namespace cospot
