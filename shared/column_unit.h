#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace cospot {

/// The name of a column without the unit that stands at its end, and the unit: "distance_mm",
/// "distance (mm)", "distance [mm]", "distance / mm" and "distance, mm" are all "distance" and
/// "mm". Only units that `unit_factor` knows are taken off; else the unit is empty.
struct NameWithUnit {
    std::string name;
    std::string unit;
};

[[nodiscard]] NameWithUnit split_unit(std::string_view header);

/// What a number in unit `from` is multiplied with to be in unit `to`, of lengths (mm, cm, m, um),
/// times (min, s, h), volumes (mL, L, uL) and masses (mg, g, kg, ug); nothing where one cannot be
/// turned into the other. The case of letters is ignored.
[[nodiscard]] std::optional<double> unit_factor(std::string_view from, std::string_view to);

} // namespace cospot
