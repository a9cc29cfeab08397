#pragma once

#include "document/document.h"
#include "document/probability_text.h"

#include <fmt/format.h>

#include <cstddef>
#include <optional>

namespace cospot {

/// A number with so many decimals, sorted by its value.
[[nodiscard]] inline Cell number_cell(double value, int decimals) {
    return {fmt::format("{:.{}f}", value, decimals), value};
}

/// The same; an empty cell where there is none.
[[nodiscard]] inline Cell number_cell(const std::optional<double> &value, int decimals) {
    return value ? number_cell(*value, decimals) : Cell{};
}

/// A size as it was given; an empty cell where there is none.
[[nodiscard]] inline Cell size_cell(const std::optional<double> &size) {
    return size ? Cell{fmt::format("{:g}", *size), size} : Cell{};
}

[[nodiscard]] inline Cell count_cell(std::size_t count) {
    return {fmt::to_string(count), static_cast<double>(count)};
}

/// The same; an empty cell where nothing is counted.
[[nodiscard]] inline Cell count_cell(const std::optional<std::size_t> &count) {
    return count ? count_cell(*count) : Cell{};
}

/// A probability as it is printed everywhere.
[[nodiscard]] inline Cell probability_cell(double probability) {
    return {probability_text(probability), probability};
}

/// A value of the table of a report; none where there is nothing.
template <typename Value> [[nodiscard]] Datum datum_of(const std::optional<Value> &value) {
    return value ? Datum(*value) : Datum();
}

} // namespace cospot
