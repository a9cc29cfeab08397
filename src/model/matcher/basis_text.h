#pragma once

#include "model/matcher/candidate_density.h"

#include <string_view>

namespace cospot::matcher {

[[nodiscard]] inline std::string_view to_text(Basis basis) {
    switch (basis) {
    case Basis::same_run:
        return "same_run";
    case Basis::measured:
        return "measured";
    case Basis::transferred:
        return "transferred";
    case Basis::predicted:
        return "predicted";
    }
    return "";
}

} // namespace cospot::matcher
