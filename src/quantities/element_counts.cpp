#include "quantities/element_counts.h"

#include "shared/text.h"

#include <algorithm>

namespace cospot {

namespace {

constexpr int kMostAtoms = 1'000'000;

/// The 118 elements, with blanks between (IUPAC Periodic Table of the Elements, 2018).
constexpr std::string_view kElements =
    " H He Li Be B C N O F Ne Na Mg Al Si P S Cl Ar K Ca Sc Ti V Cr Mn Fe Co Ni Cu Zn Ga Ge As Se "
    "Br Kr Rb Sr Y Zr Nb Mo Tc Ru Rh Pd Ag Cd In Sn Sb Te I Xe Cs Ba La Ce Pr Nd Pm Sm Eu Gd Tb Dy "
    "Ho Er Tm Yb Lu Hf Ta W Re Os Ir Pt Au Hg Tl Pb Bi Po At Rn Fr Ra Ac Th Pa U Np Pu Am Cm Bk Cf "
    "Es Fm Md No Lr Rf Db Sg Bh Hs Mt Ds Rg Cn Nh Fl Mc Lv Ts Og ";

bool is_upper(char c) {
    return c >= 'A' && c <= 'Z';
}

bool is_lower(char c) {
    return c >= 'a' && c <= 'z';
}

bool is_element(const std::string &symbol) {
    return kElements.find(' ' + symbol + ' ') != std::string_view::npos;
}

/// Takes the digits at the front off the text; 1 where there are none, 0 for more atoms than any
/// molecule has.
int take_count(std::string_view &text) {
    if (text.empty() || !is_digit(text.front())) {
        return 1;
    }
    int count = 0;
    while (!text.empty() && is_digit(text.front())) {
        count = std::min(kMostAtoms, count * 10 + (text.front() - '0'));
        text.remove_prefix(1);
    }
    return count < kMostAtoms ? count : 0;
}

/// Takes an element symbol off the front; empty where none is there.
std::string take_symbol(std::string_view &text) {
    if (text.empty() || !is_upper(text.front())) {
        return {};
    }
    const std::size_t length = text.size() > 1 && is_lower(text[1]) ? 2 : 1;
    std::string symbol(text.substr(0, length));
    text.remove_prefix(length);
    return is_element(symbol) ? symbol : std::string();
}

bool is_charge(std::string_view text) {
    return (text.front() == '+' || text.front() == '-') &&
           std::all_of(text.begin() + 1, text.end(), is_digit);
}

} // namespace

std::optional<ElementCounts> element_counts(std::string_view formula) {
    ElementCounts counts;
    while (!formula.empty()) {
        if (!counts.empty() && is_charge(formula)) {
            break;
        }
        const std::string symbol = take_symbol(formula);
        const int count = take_count(formula);
        if (symbol.empty() || count == 0) {
            return std::nullopt;
        }
        counts[symbol] += count;
    }
    return counts.empty() ? std::nullopt : std::optional(counts);
}

} // namespace cospot
