#include "traces/jcamp_table.h"

#include "shared/number.h"
#include "shared/text.h"
#include "traces/jcamp_ordinates.h"
#include "traces/trace_points.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace cospot {

namespace {

/// "(X++(Y..Y))" without blanks, in capitals.
std::string packed_form(std::string_view form) {
    std::string packed;
    for (const char c : form) {
        if (c != ' ' && c != '\t') {
            packed += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
        }
    }
    return packed;
}

} // namespace

JcampTable::JcampTable(std::string_view form, const JcampRecords &records, const Where &where)
    : where_(where) {
    const std::string packed = packed_form(form);
    is_pairs_ = packed == "(XY..XY)";
    if (!is_pairs_ && packed != "(X++(Y..Y))") {
        throw InputError(where, "a table of the form " + in_quotes(form),
                         "(X++(Y..Y)) or (XY..XY)");
    }
    // Of pairs, many programs leave the factors out: they are written as they are.
    x_factor_ = is_pairs_ ? number_or(records, "XFACTOR", 1.0) : number(records, "XFACTOR");
    y_factor_ = is_pairs_ ? number_or(records, "YFACTOR", 1.0) : number(records, "YFACTOR");
    const double points = number(records, "NPOINTS");
    if (points < 1.0 || points != std::floor(points)) {
        throw InputError({where.file, records.find("NPOINTS")->second.line, "NPOINTS"},
                         exact_text(points), "a whole number of points");
    }
    check_count(points < 1e15 ? static_cast<std::uint64_t>(points) : 1'000'000'000'000'000U, where);
    points_ = static_cast<std::size_t>(points);
    if (is_pairs_) {
        return;
    }
    first_x_ = number(records, "FIRSTX");
    last_x_ = number(records, "LASTX");
    delta_x_ = points_ > 1 ? (last_x_ - first_x_) / (points - 1.0) : 0.0;
    has_first_y_ = records.find("FIRSTY") != records.end();
    first_y_ = number_or(records, "FIRSTY", 0.0);
    const double stated = number_or(records, "DELTAX", delta_x_);
    if (std::abs(stated - delta_x_) * (points - 1.0) > 0.5 * std::abs(delta_x_)) {
        throw InputError({where.file, records.find("DELTAX")->second.line, "DELTAX"},
                         exact_text(stated),
                         fmt::format("{:.9g} from FIRSTX, LASTX and NPOINTS", delta_x_));
    }
}

double JcampTable::number(const JcampRecords &records, std::string_view label) const {
    const auto record = records.find(label);
    if (record == records.end()) {
        throw InputError({where_.file, where_.line, std::string(label)}, "a table without it",
                         fmt::format("##{}= before the table", label));
    }
    return parse_number(record->second.text, {where_.file, record->second.line, std::string(label)},
                        "a number");
}

double JcampTable::number_or(const JcampRecords &records, std::string_view label,
                             double otherwise) const {
    return records.find(label) == records.end() ? otherwise : number(records, label);
}

void JcampTable::add_line(std::string_view text, std::size_t line) {
    if (trimmed(text).empty()) {
        return;
    }
    const Where where{where_.file, line, ""};
    if (is_pairs_) {
        add_pairs(text, where);
    } else {
        add_ordinates(text, where);
    }
}

void JcampTable::add_pairs(std::string_view text, const Where &where) {
    constexpr std::string_view dividers = " \t,;";
    for (std::size_t at = text.find_first_not_of(dividers); at != std::string_view::npos;
         at = text.find_first_not_of(dividers, at)) {
        const std::size_t end = std::min(text.find_first_of(dividers, at), text.size());
        const double value =
            parse_number(text.substr(at, end - at),
                         {where.file, where.line, std::to_string(at + 1)}, "a number of a pair");
        at = end;
        if (half_pair_.empty()) {
            half_pair_.push_back(value);
            continue;
        }
        if (abscissas_.size() == points_) {
            throw InputError(where, "more points than NPOINTS says", counted(points_, "point"));
        }
        abscissas_.push_back(half_pair_.front() * x_factor_);
        ordinates_.push_back(value * y_factor_);
        half_pair_.clear();
    }
}

void JcampTable::add_ordinates(std::string_view text, const Where &where) {
    const std::size_t repeated = ends_in_difference_ ? 1 : 0;
    const OrdinateLine line =
        read_ordinate_line(text, where, points_ - ordinates_.size() + repeated);
    const std::size_t index = ordinates_.size() - repeated; // of the first ordinate
    if (repeated > 0) {
        // A step of the last digit comes of rounding before the differences were taken.
        if (std::abs(line.ordinates.front() - last_raw_) > 1.0) {
            throw InputError(where,
                             fmt::format("the ordinate {} behind a line that ends at {}",
                                         line.ordinates.front(), last_raw_),
                             "the last ordinate of the line before again");
        }
    }
    const double expected_x = first_x_ + static_cast<double>(index) * delta_x_;
    const double tolerance = 0.5 * std::abs(delta_x_) + std::abs(line.x_digit * x_factor_);
    // At a repeated ordinate some programs write its abscissa, some that of the first new point.
    const double off = line.x * x_factor_ - expected_x;
    const double off_new = off - static_cast<double>(repeated) * delta_x_;
    if (std::min(std::abs(off), std::abs(off_new)) > tolerance) {
        throw InputError(where, fmt::format("the abscissa {:.9g}", line.x * x_factor_),
                         fmt::format("{:.9g}, the abscissa of point {} (points before it are "
                                     "missing, or too many)",
                                     expected_x, index + 1));
    }
    for (std::size_t i = repeated; i < line.ordinates.size(); ++i) {
        abscissas_.push_back(first_x_ + static_cast<double>(ordinates_.size()) * delta_x_);
        ordinates_.push_back(line.ordinates[i] * y_factor_);
    }
    last_raw_ = line.ordinates.back();
    ends_in_difference_ = line.ends_in_difference;
}

void JcampTable::finish(std::size_t line) {
    const Where where{where_.file, line, ""};
    if (!half_pair_.empty()) {
        throw InputError(where, "an abscissa without its ordinate at the end of the table",
                         "pairs");
    }
    if (ordinates_.size() != points_) {
        throw InputError(where, counted(ordinates_.size(), "point"),
                         fmt::format("{} as NPOINTS says", counted(points_, "point")));
    }
    const double tolerance = std::abs(y_factor_) + 1e-5 * std::abs(first_y_);
    if (has_first_y_ && std::abs(ordinates_.front() - first_y_) > tolerance) {
        throw InputError(where, fmt::format("the first ordinate {:.9g}", ordinates_.front()),
                         fmt::format("{:.9g} as FIRSTY says", first_y_));
    }
}

} // namespace cospot
