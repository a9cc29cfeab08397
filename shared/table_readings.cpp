// What readers of plates and fractions ask of a table: readings that may be rough or stand in
// several fields, and what is noted beside them.
#include "shared/table.h"

#include "shared/csv.h"
#include "shared/text.h"

#include <algorithm>

namespace cospot {

namespace {

/// The readings that a field has, one behind the other, parted by '/', ';', '&' or '+'.
std::vector<std::string_view> readings_of(std::string_view field) {
    std::vector<std::string_view> parts;
    while (!says_nothing(trimmed(field))) {
        const std::size_t end = field.find_first_of("/;&+");
        parts.push_back(trimmed(field.substr(0, end)));
        field = end == std::string_view::npos ? std::string_view() : field.substr(end + 1);
    }
    return parts;
}

} // namespace

double TableReader::reading(std::string_view column, const std::string &expected) const {
    return factor(column) * reading_in(text(column), column, expected);
}

std::vector<double> TableReader::readings(std::string_view column,
                                          const std::string &expected) const {
    std::vector<double> numbers;
    const auto at = index_of(column);
    if (!at || !is_row_whole_) {
        return numbers;
    }
    std::vector<ColumnPlace> places = match_.again.at(*at);
    if (match_.places[*at]) {
        places.insert(places.begin(), *match_.places[*at]);
    }
    for (const ColumnPlace &place : places) {
        for (const std::string_view part : readings_of(meant(fields()[place.field]))) {
            numbers.push_back(place.factor * reading_in(part, column, expected));
        }
    }
    return numbers;
}

bool TableReader::is_rough(std::string_view column) const {
    return behind_about(text(column)) != text(column);
}

double TableReader::reading_in(std::string_view field, std::string_view column,
                               const std::string &expected) const {
    const std::string_view number = behind_about(field);
    if (number != field && written_number(number)) {
        rough_lines_.insert(line());
        return number_in(number, column, expected);
    }
    return number_in(field, column, expected);
}

std::string TableReader::unread_words() const {
    std::string words;
    for (std::size_t i = 0; i < header_.size() && is_row_whole_; ++i) {
        const std::string_view name = trimmed(header_[i]);
        const std::string_view field = trimmed(fields()[i]);
        if (!says_nothing(field) &&
            std::find(match_.unused.begin(), match_.unused.end(), name) != match_.unused.end()) {
            words += (words.empty() ? "" : "; ") + std::string(field);
        }
    }
    return words;
}

} // namespace cospot
