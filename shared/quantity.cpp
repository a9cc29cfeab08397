#include "shared/quantity.h"

#include "shared/number.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace cospot {

namespace {

constexpr double kRfReadingMargin = 0.02;
constexpr double kLargestIndex = 2e4; // C200: no column elutes more (common practice, no source)
constexpr double kLargest = 1e5;      // minutes or hold-up times: beyond is a slip

constexpr std::array<std::pair<Quantity, std::string_view>, 6> kQuantities{{{Quantity::Rf, "Rf"},
                                                                            {Quantity::k, "k"},
                                                                            {Quantity::RI, "RI"},
                                                                            {Quantity::tR, "tR"},
                                                                            {Quantity::RRT, "RRT"},
                                                                            {Quantity::r, "r"}}};

constexpr std::array<std::pair<Technique, std::string_view>, 5> kTechniques{
    {{Technique::tlc, "tlc"},
     {Technique::paper, "paper"},
     {Technique::column, "column"},
     {Technique::hplc, "hplc"},
     {Technique::gc, "gc"}}};

/// Two decimals, below 1 three digits.
int decimals_of_factor(double k) {
    constexpr int fewest = 2;
    constexpr int most = 6;
    return k > 0.0 && k < 1.0
               ? std::clamp(2 - static_cast<int>(std::floor(std::log10(k))), fewest, most)
               : fewest;
}

template <typename Table, typename Key> std::string_view text_of(const Table &table, Key key) {
    for (const auto &[value, text] : table) {
        if (value == key) {
            return text;
        }
    }
    return "";
}

template <typename Key, typename Table>
std::optional<Key> key_of(const Table &table, std::string_view text) {
    for (const auto &[value, name] : table) {
        if (equal_ignoring_case(name, trimmed(text))) {
            return value;
        }
    }
    return std::nullopt;
}

} // namespace

bool can_show(Technique technique, Quantity quantity) {
    const bool is_planar = technique == Technique::tlc || technique == Technique::paper;
    return is_planar == (quantity == Quantity::Rf);
}

bool is_relative(Quantity quantity) {
    return quantity == Quantity::RRT || quantity == Quantity::r;
}

std::string_view to_text(Quantity quantity) {
    return text_of(kQuantities, quantity);
}

std::string_view to_text(Technique technique) {
    return text_of(kTechniques, technique);
}

std::string_view in_words(Technique technique) {
    switch (technique) {
    case Technique::tlc:
        return "TLC";
    case Technique::hplc:
        return "HPLC";
    case Technique::gc:
        return "GC";
    case Technique::paper:
    case Technique::column:
        break;
    }
    return to_text(technique);
}

std::optional<Quantity> quantity_from_text(std::string_view text) {
    return key_of<Quantity>(kQuantities, text);
}

std::optional<Technique> technique_from_text(std::string_view text) {
    return key_of<Technique>(kTechniques, text);
}

namespace {

/// What a possible value of the quantity is, where this is none; else null.
const char *broken_limit(Quantity quantity, double value) {
    if (!(value <= kLargest)) {
        return "a value up to 100000";
    }
    switch (quantity) {
    case Quantity::Rf:
        return value < -kRfReadingMargin || value > 1.0 + kRfReadingMargin
                   ? "an R_F from 0 (start) to 1 (front)"
                   : nullptr;
    case Quantity::k:
        return value < 0.0 ? "a retention factor of 0 or more" : nullptr;
    case Quantity::RI:
        return value <= 0.0 || value > kLargestIndex ? "a retention index above 0, up to 20000"
                                                     : nullptr;
    case Quantity::tR:
        return value <= 0.0 ? "a retention time above 0 min" : nullptr;
    case Quantity::RRT:
    case Quantity::r:
        return value <= 0.0 ? "a relative retention above 0" : nullptr;
    }
    return nullptr;
}

} // namespace

bool is_physical(Quantity quantity, double value) {
    return broken_limit(quantity, value) == nullptr;
}

void check_physical(Quantity quantity, double value, const Where &where) {
    if (const char *limit = broken_limit(quantity, value)) {
        throw InputError(where, exact_text(value), limit);
    }
}

std::string shown(Quantity quantity, double value) {
    switch (quantity) {
    case Quantity::Rf:
        return fmt::format("{:.2f}", value);
    case Quantity::k:
        return fmt::format("{:.{}f}", value, decimals_of_factor(value));
    case Quantity::RI:
        return fmt::format("{:.1f}", value);
    case Quantity::tR:
    case Quantity::RRT:
    case Quantity::r:
        return fmt::format("{:.3f}", value);
    }
    return exact_text(value);
}

} // namespace cospot
