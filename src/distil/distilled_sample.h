#pragma once

#include "distil/recovery.h"
#include "quantities/boiling_scale.h"
#include "readers/chromatogram_table.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot::distillation {

/// Where a peak lies.
[[nodiscard]] inline std::string_view to_text(quantities::LadderPosition position) {
    switch (position) {
    case quantities::LadderPosition::inside:
        return "inside";
    case quantities::LadderPosition::after_last:
        return "behind the ladder";
    case quantities::LadderPosition::before_first:
    case quantities::LadderPosition::before_hold_up:
        break;
    }
    return "before the ladder";
}

/// A peak on the scale of boiling points.
struct DistilledPeak {
    std::string name;
    double retention_time_min = 0.0;
    double area = 0.0;
    double per_cent = 0.0;          ///< of all area but the solvent's
    quantities::ScaledTime boiling; ///< no boiling point outside the ladder
    bool is_solvent = false;        ///< left out
    std::optional<double> start_min{};
    std::optional<double> end_min{};
    std::optional<double> height{};         ///< any unit
    std::optional<double> width_half_min{}; ///< at half height
};

/// A chromatogram as a distillation.
struct DistilledSample {
    std::string name; ///< of the file, without folder and ending
    quantities::BoilingScale scale;
    std::vector<DistilledPeak> peaks; ///< in the order of elution
    double before_per_cent = 0.0;     ///< area before the first alkane
    double behind_per_cent = 0.0;     ///< area behind the last one
    std::vector<Recovered> recovered; ///< empty where no area lies on the scale
    bool uses_widths = false;         ///< every peak states its start and end, within the ladder
};

/// Puts the peaks of a temperature-programmed run on the scale and adds up their areas. Peaks up to
/// `solvent_end_min` are solvent and left out. Throws InputError (with the file's name and line)
/// for a peak without area, and where no area is left.
[[nodiscard]] DistilledSample distil(const std::string &file, const std::vector<Peak> &peaks,
                                     const quantities::BoilingScale &scale,
                                     std::optional<double> solvent_end_min);

} // namespace cospot::distillation
