#pragma once

#include "matcher/candidate_density.h"

#include <string_view>

namespace cospot {

[[nodiscard]] inline std::string_view to_text(matcher::Basis basis) {
    switch (basis) {
    case matcher::Basis::same_run:
        return "same_run";
    case matcher::Basis::measured:
        return "measured";
    case matcher::Basis::transferred:
        return "transferred";
    case matcher::Basis::predicted:
        return "predicted";
    }
    return "";
}

} // namespace cospot
