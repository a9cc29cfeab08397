#include "shared/column_unit.h"

#include "shared/text.h"

#include <algorithm>
#include <array>

namespace cospot {

namespace {

enum class Dimension { length, time, volume, mass };

struct Unit {
    std::string_view name;
    Dimension dimension;
    double size; ///< in mm, min, mL or mg
};

constexpr std::array<Unit, 18> kUnits{{
    {"mm", Dimension::length, 1.0},
    {"cm", Dimension::length, 10.0},
    {"m", Dimension::length, 1000.0},
    {"um", Dimension::length, 0.001},
    {"min", Dimension::time, 1.0},
    {"s", Dimension::time, 1.0 / 60.0},
    {"sec", Dimension::time, 1.0 / 60},
    {"h", Dimension::time, 60.0},
    {"minutes", Dimension::time, 1.0},
    {"seconds", Dimension::time, 1.0 / 60.0},
    {"mL", Dimension::volume, 1.0},
    {"L", Dimension::volume, 1000.0},
    {"uL", Dimension::volume, 0.001},
    {"mg", Dimension::mass, 1.0},
    {"g", Dimension::mass, 1000.0},
    {"kg", Dimension::mass, 1e6},
    {"ug", Dimension::mass, 0.001},
    {"\u00b5L", Dimension::volume, 0.001},
}};

const Unit *find_unit(std::string_view name) {
    const auto unit = std::find_if(kUnits.begin(), kUnits.end(), [&](const Unit &known) {
        return equal_ignoring_case(known.name, name);
    });
    return unit == kUnits.end() ? nullptr : &*unit;
}

} // namespace

NameWithUnit split_unit(std::string_view header) {
    const std::string_view text = trimmed(header);
    std::size_t end = text.size();
    if (end > 0 && (text.back() == ')' || text.back() == ']')) {
        --end;
    }
    const std::size_t before = text.substr(0, end).find_last_of(" _/,([");
    if (before == std::string_view::npos || before == 0) {
        return {std::string(text), ""};
    }
    const std::string_view unit = trimmed(text.substr(before + 1, end - before - 1));
    std::string_view name = text.substr(0, before);
    while (!name.empty() &&
           std::string_view(" _/,([").find(name.back()) != std::string_view::npos) {
        name.remove_suffix(1);
    }
    if (name.empty() || find_unit(unit) == nullptr) {
        return {std::string(text), ""};
    }
    return {std::string(name), std::string(unit)};
}

std::optional<double> unit_factor(std::string_view from, std::string_view to) {
    const Unit *given = find_unit(from);
    const Unit *wanted = find_unit(to);
    if (given == nullptr || wanted == nullptr || given->dimension != wanted->dimension) {
        return std::nullopt;
    }
    return given->size / wanted->size;
}

} // namespace cospot
