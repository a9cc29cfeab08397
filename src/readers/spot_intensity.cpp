#include "readers/spot_intensity.h"

#include "shared/number.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <cmath>
#include <string_view>

namespace cospot {

namespace {

constexpr double kLargestIntensity = 1e9;

struct IntensityWord {
    std::string_view word;
    double intensity;
};

constexpr IntensityWord kIntensityWords[]{
    {"weak", 1.0}, {"faint", 1.0},   {"(+)", 1.0}, {"medium", 3.0},       {"+", 3.0},
    {"yes", 3.0},  {"strong", 10.0}, {"++", 10.0}, {"very strong", 30.0}, {"+++", 30.0},
};

std::optional<double> intensity_of_word(std::string_view text) {
    for (const IntensityWord &one : kIntensityWords) {
        if (equal_ignoring_case(one.word, text)) {
            return one.intensity;
        }
    }
    return std::nullopt;
}

} // namespace

std::optional<double> SpotIntensities::read(const TableReader &table) {
    const std::string_view text = table.text("intensity");
    const auto of_word = intensity_of_word(text);
    is_word_ = of_word.has_value();
    if (text.empty()) {
        return std::nullopt;
    }
    const double value =
        of_word ? *of_word
                : table.number("intensity",
                               fmt::format("a number, or weak, medium, strong or (+), +, ++, +++; "
                                           "--map weak={} says that it means weak, and so with "
                                           "the others",
                                           in_quotes(text)));
    if (std::isnan(value)) {
        return std::nullopt; // a fault of the row
    }
    if (are_words_.value_or(is_word_) != is_word_) {
        table.add_fault({table.where("intensity"), in_quotes(text),
                         *are_words_ ? "a word or cross as in the rows above"
                                     : "a number as in the rows above"});
    }
    are_words_ = is_word_;
    if (value < 0.0 || value > kLargestIntensity) {
        table.add_fault(
            {table.where("intensity"), exact_text(value), "the intensity of the spot, from 0"});
    }
    return value;
}

} // namespace cospot
