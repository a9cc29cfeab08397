#include "traces/jcamp_ordinates.h"

#include "shared/number.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <cmath>
#include <optional>
#include <string>

namespace cospot {

namespace {

bool is_sign(char c) {
    return c == '+' || c == '-';
}

/// What a letter in place of a first digit says (jcamp1988, pseudo-digits).
struct PseudoDigit {
    enum class Form { squeezed, difference, repeat } form;
    int value;
};

std::optional<PseudoDigit> pseudo_digit(char c) {
    using Form = PseudoDigit::Form;
    const auto within = [c](char first, char last) { return c >= first && c <= last; };
    if (c == '@') {
        return PseudoDigit{Form::squeezed, 0};
    }
    if (within('A', 'I')) {
        return PseudoDigit{Form::squeezed, c - 'A' + 1};
    }
    if (within('a', 'i')) {
        return PseudoDigit{Form::squeezed, -(c - 'a' + 1)};
    }
    if (c == '%') {
        return PseudoDigit{Form::difference, 0};
    }
    if (within('J', 'R')) {
        return PseudoDigit{Form::difference, c - 'J' + 1};
    }
    if (within('j', 'r')) {
        return PseudoDigit{Form::difference, -(c - 'j' + 1)};
    }
    if (within('S', 'Z')) {
        return PseudoDigit{Form::repeat, c - 'S' + 1};
    }
    return c == 's' ? std::optional(PseudoDigit{Form::repeat, 9}) : std::nullopt;
}

/// Takes a line apart, number by number.
class OrdinateScanner {
public:
    OrdinateScanner(std::string_view text, const Where &where, std::size_t most)
        : text_(text), where_(where), most_(most), has_pseudo_digits_(find_pseudo_digits()) {}

    OrdinateLine read() {
        skip_dividers();
        const std::string x = next_free_number();
        line_.x = value_of(x);
        line_.x_digit = digit_step(x);
        for (skip_dividers(); at_ < text_.size(); skip_dividers()) {
            read_ordinate();
        }
        if (line_.ordinates.empty()) {
            refuse("a line without ordinates", "an abscissa and the ordinates from there on");
        }
        return std::move(line_);
    }

private:
    [[noreturn]] void refuse(const std::string &found, const std::string &expected) const {
        throw InputError({where_.file, where_.line, std::to_string(at_ + 1)}, found, expected);
    }

    /// Only a line of free numbers may have exponents: else E is a digit.
    [[nodiscard]] bool find_pseudo_digits() const {
        for (std::size_t i = 0; i < text_.size(); ++i) {
            if (pseudo_digit(text_[i]) && !is_exponent(i)) {
                return true;
            }
        }
        return false;
    }

    [[nodiscard]] bool is_exponent(std::size_t i) const {
        return (text_[i] == 'E' || text_[i] == 'e') && i > 0 &&
               (is_digit(text_[i - 1]) || text_[i - 1] == '.') && i + 2 < text_.size() &&
               is_sign(text_[i + 1]) && is_digit(text_[i + 2]);
    }

    void skip_dividers() {
        while (at_ < text_.size() && (text_[at_] == ' ' || text_[at_] == '\t' ||
                                      text_[at_] == ',' || text_[at_] == ';')) {
            ++at_;
        }
    }

    /// The digits at the position, with a decimal point.
    std::string_view next_digits() {
        const std::size_t first = at_;
        while (at_ < text_.size() && (is_digit(text_[at_]) || text_[at_] == '.')) {
            ++at_;
        }
        return text_.substr(first, at_ - first);
    }

    std::string next_free_number() {
        std::string number;
        if (at_ < text_.size() && is_sign(text_[at_])) {
            number = text_[at_++] == '-' ? "-" : "";
        }
        const std::string_view digits = next_digits();
        if (digits.empty()) {
            refuse(at_ < text_.size() ? in_quotes(text_.substr(at_, 10)) : "the end of the line",
                   at_ < text_.size() && text_[at_] == '?'
                       ? "an ordinate that was measured at each point"
                       : "a number in a form of JCAMP-DX");
        }
        number += digits;
        if (!has_pseudo_digits_ && at_ < text_.size() && is_exponent(at_)) {
            number += text_.substr(at_, 2);
            at_ += 2;
            number += next_digits();
        }
        return number;
    }

    [[nodiscard]] double value_of(const std::string &number) const {
        const auto value = number_from_text(number);
        if (!value) {
            refuse(in_quotes(number), "a number in a form of JCAMP-DX");
        }
        return *value;
    }

    /// One step of the last digit: 0.01 for "1.50".
    [[nodiscard]] static double digit_step(const std::string &number) {
        const std::size_t exponent = number.find_first_of("Ee");
        const std::size_t point = number.find('.');
        double power = 0.0;
        if (exponent != std::string::npos) {
            power = number_from_text(number.substr(exponent + 1)).value_or(0.0);
        }
        if (point != std::string::npos) {
            power -= static_cast<double>(number.substr(0, exponent).size() - point - 1);
        }
        return std::pow(10.0, power);
    }

    void read_ordinate() {
        const auto digit = pseudo_digit(text_[at_]);
        if (!digit) {
            add(value_of(next_free_number()), false);
            return;
        }
        const std::size_t first = at_++;
        const std::string number =
            std::to_string(std::abs(digit->value)) + std::string(next_digits());
        const double size = value_of(number);
        const double value = digit->value < 0 ? -size : size;
        if (digit->form == PseudoDigit::Form::squeezed) {
            add(value, false);
            return;
        }
        if (line_.ordinates.empty()) {
            at_ = first;
            refuse(in_quotes(text_.substr(first, 10)) + " as the first ordinate of a line",
                   "an ordinate itself, no difference or repeat");
        }
        if (digit->form == PseudoDigit::Form::difference) {
            last_difference_ = value;
            add(line_.ordinates.back() + value, true);
        } else {
            repeat(value, first);
        }
    }

    /// `count` counts the ordinate or difference that is repeated, too.
    void repeat(double count, std::size_t first) {
        if (count != std::floor(count) || count > static_cast<double>(most_)) {
            at_ = first;
            refuse(fmt::format("{} repeats", count),
                   fmt::format("a whole number of at most {}", most_));
        }
        for (auto left = static_cast<std::size_t>(count); left > 1; --left) {
            const double step = line_.ends_in_difference ? last_difference_ : 0.0;
            add(line_.ordinates.back() + step, line_.ends_in_difference);
        }
    }

    void add(double ordinate, bool is_difference) {
        if (line_.ordinates.size() == most_) {
            refuse("more ordinates than NPOINTS says", fmt::format("at most {} from here", most_));
        }
        line_.ordinates.push_back(ordinate);
        line_.ends_in_difference = is_difference;
    }

    std::string_view text_;
    Where where_;
    std::size_t most_;
    bool has_pseudo_digits_;
    std::size_t at_ = 0;
    OrdinateLine line_;
    double last_difference_ = 0.0;
};

} // namespace

OrdinateLine read_ordinate_line(std::string_view text, const Where &where, std::size_t most) {
    return OrdinateScanner(text, where, most).read();
}

} // namespace cospot
