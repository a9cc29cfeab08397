#include "distil/distil_words.h"

#include <fmt/format.h>

#include <cmath>

namespace cospot {

std::vector<std::string> ladder_notes(const quantities::BoilingScale &scale) {
    std::vector<std::string> notes;
    std::string gaps;
    for (std::size_t i = 1; i < scale.members.size(); ++i) {
        const int lower = scale.members[i - 1].carbon;
        const int upper = scale.members[i].carbon;
        if (upper - lower > 1) {
            gaps += fmt::format("{}C{} to C{}", gaps.empty() ? "" : ", ", lower, upper);
        }
    }
    if (!gaps.empty()) {
        notes.push_back("Interpolated across gaps: " + gaps);
    }
    std::string names;
    for (const int carbon : scale.left_out) {
        names += fmt::format("{}C{}", names.empty() ? "" : ", ", carbon);
    }
    if (!names.empty()) {
        notes.push_back("Left out of the ladder, their boiling points are not in the table (C5 to "
                        "C44): " +
                        names);
    }
    return notes;
}

std::vector<std::string> off_scale_words(double before_per_cent, double behind_per_cent,
                                         const quantities::BoilingScale &scale) {
    std::vector<std::string> words;
    if (before_per_cent > 0.0) {
        words.push_back(fmt::format("{:.2f} % of the area lies before the ladder: it boils below "
                                    "{:g} °C, how far is not said. Is it the solvent "
                                    "(--solvent-until MIN)?",
                                    before_per_cent, scale.members.front().celsius));
    }
    if (behind_per_cent > 0.0) {
        words.push_back(fmt::format("{:.2f} % of the area lies behind the ladder: it boils above "
                                    "{:g} °C. A longer ladder would tell.",
                                    behind_per_cent, scale.members.back().celsius));
    }
    return words;
}

std::string_view spread_words(bool uses_widths) {
    return uses_widths ? "Each peak's area counts evenly from its start to its end."
                       : "Between apexes the cumulative area is a straight line; start and end of "
                         "every peak, within the ladder, would make it sharper.";
}

std::string difference_words(double usual_difference, double spread) {
    const double rounded = std::round(usual_difference) + 0.0; // never "-0"
    return fmt::format("The usual difference, by index less estimated, is {:+.0f} °C, the spread "
                       "{:.0f} °C.",
                       rounded, spread);
}

} // namespace cospot
