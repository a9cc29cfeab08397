#include "traces/time_unit.h"

#include "shared/text.h"

#include <algorithm>
#include <array>

namespace cospot {

std::optional<double> minutes_in(std::string_view unit) {
    constexpr std::array<std::string_view, 5> seconds{"s", "sec", "secs", "second", "seconds"};
    constexpr std::array<std::string_view, 4> minutes{"min", "mins", "minute", "minutes"};
    const std::string text = lower_ascii(trimmed(unit));
    if (std::find(seconds.begin(), seconds.end(), text) != seconds.end()) {
        return 1.0 / 60.0;
    }
    return std::find(minutes.begin(), minutes.end(), text) != minutes.end() ? std::optional(1.0)
                                                                            : std::nullopt;
}

double minutes_per_unit(std::string_view stated, const TraceOptions &options, const Where &where) {
    const auto own = minutes_in(stated);
    if (!own && !trimmed(stated).empty()) {
        throw InputError(where, "times in the unit " + in_quotes(stated), "seconds or minutes");
    }
    if (options.time_unit.empty()) {
        if (!own) {
            throw InputError(where, "times without a unit", "--time-unit s or --time-unit min");
        }
        return *own;
    }
    const auto given = minutes_in(options.time_unit);
    if (!given) {
        throw bad_usage("--time-unit " + in_quotes(options.time_unit), "s or min");
    }
    if (own && *own != *given) {
        throw InputError(where, "times in " + std::string(trimmed(stated)),
                         "the same unit as --time-unit " + options.time_unit +
                             ", which is needed only where the file states none");
    }
    return *given;
}

} // namespace cospot
