#pragma once

#include "signal/peak_finder.h"
#include "traces/trace.h"

#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// How the areas of peaks that overlap are told apart.
enum class Overlaps {
    drop, ///< a perpendicular at the lowest point between them
    skim, ///< the same, but riders on a flank by a tangent
    fit   ///< exponentially modified Gaussians, where they fit
};

inline constexpr Overlaps kAllOverlaps[]{Overlaps::drop, Overlaps::skim, Overlaps::fit};

[[nodiscard]] const char *to_text(Overlaps overlaps);

/// A change of the found peaks by hand. Times in min.
struct PeakEdit {
    enum class Kind { add, drop, split, move };
    Kind kind = Kind::add;
    double at_min = 0.0;
    double to_min = 0.0; ///< of a border that is moved
};

/// A peak that is known to be a compound. Time in min.
struct NamedPeak {
    double at_min = 0.0;
    std::string compound;
};

/// How a trace is turned into peaks.
struct IntegrationSettings {
    std::string trace{};             ///< which of the file: name or number; empty: the only one
    TraceOptions reading{};          ///< what the user says of the file
    signal::FinderSettings finder{}; ///< in min
    Overlaps overlaps = Overlaps::drop;
    bool uses_stored_peaks = false;     ///< those of the file's own table instead
    std::optional<std::string> minus{}; ///< a blank's trace, subtracted point by point
    std::vector<PeakEdit> edits{};      ///< in the order given
    std::vector<NamedPeak> names{};     ///< standards among the peaks
    std::string reason{};               ///< why, for the report
    std::string who{};                  ///< makes them
    std::optional<int> first_carbon{};  ///< of the ladder's first homologue, where it is a trace
};

} // namespace cospot
