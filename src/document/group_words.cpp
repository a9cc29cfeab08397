#include "document/group_words.h"

#include <algorithm>
#include <array>
#include <utility>

namespace cospot {

namespace {

/// What takes more than blanks between its words.
constexpr std::array<std::pair<std::string_view, std::string_view>, 3> kSpelledOut{
    {{"pyrrole_nh", "pyrrole NH"},
     {"n_oxide", "N-oxide"},
     {"phenol_bound_within", "phenol with an internal hydrogen bond"}}};

} // namespace

std::string group_words(std::string_view name) {
    const auto *const found = std::find_if(kSpelledOut.begin(), kSpelledOut.end(),
                                           [&](const auto &one) { return one.first == name; });
    std::string words(found == kSpelledOut.end() ? name : found->second);
    std::replace(words.begin(), words.end(), '_', ' ');
    return words;
}

} // namespace cospot
