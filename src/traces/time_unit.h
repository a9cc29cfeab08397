#pragma once

#include "shared/error.h"
#include "traces/trace.h"

#include <optional>
#include <string>
#include <string_view>

namespace cospot {

/// How many minutes one unit of time is: seconds or minutes, in full or short, in any case. Nothing
/// for any other text.
[[nodiscard]] std::optional<double> minutes_in(std::string_view unit);

/// How many minutes the unit of a file is. `stated` is what the file says, empty where it says
/// nothing: then `--time-unit` holds. Throws InputError where neither says it, where the file names
/// another unit than seconds or minutes, and where the two contradict each other: a unit is never
/// guessed.
[[nodiscard]] double minutes_per_unit(std::string_view stated, const TraceOptions &options,
                                      const Where &where);

} // namespace cospot
