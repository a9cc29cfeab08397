#include "identification/beside_words.h"

#include "shared/text.h"

#include <fmt/format.h>

#include <cmath>

namespace cospot {

std::string distance_text(const BesideStandard &standard) {
    const bool is_time = standard.unit == "s";
    const bool is_ruler = standard.unit == "mm";
    const bool is_noted = standard.unit == "in Rf";
    const int digits = is_time || is_ruler ? 1 : is_noted ? 2 : 3;
    const std::string size = fmt::format("{:.{}f}", std::abs(standard.distance), digits);
    const bool is_zero = size.find_first_of("123456789") == std::string::npos;
    const char *where = standard.place.starts_with("lane") ? "on" : "at";
    if (is_zero) {
        return fmt::format("level with the standard {} {}", where, printable(standard.place));
    }
    const bool is_less = standard.distance < 0.0;
    const char *direction =
        is_time ? (is_less ? "before" : "after") : (is_less ? "below" : "above");
    return fmt::format("{} {} {} the standard {} {}", size, standard.unit, direction, where,
                       printable(standard.place));
}

std::string beside_words(const BesideStandard &standard) {
    const std::string name = printable(standard.name);
    const std::string distance = distance_text(standard);
    switch (standard.verdict) {
    case SameOrNot::runs_with:
        return fmt::format("runs with {}: {}", name, distance);
    case SameOrNot::differs:
        return fmt::format("differs from {}: {}", name, distance);
    case SameOrNot::cannot_be_told:
        break;
    }
    return fmt::format("may be {}, may be something else: {}", name, distance);
}

std::string_view to_text(SameOrNot verdict) {
    switch (verdict) {
    case SameOrNot::runs_with:
        return "runs with";
    case SameOrNot::differs:
        return "differs";
    case SameOrNot::cannot_be_told:
        break;
    }
    return "can't be told";
}

} // namespace cospot
