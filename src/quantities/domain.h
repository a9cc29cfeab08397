#pragma once

#include "shared/error.h"
#include "shared/number.h"

#include <fmt/format.h>

#include <cmath>
#include <string>
#include <string_view>

namespace cospot::quantities {

/// Throws InputError "found WHAT of FOUND; expected EXPECTED" unless `found` is finite and `holds`.
/// The place is left empty: who reads a file adds it.
inline void require(bool holds, std::string_view what, double found, std::string_view expected) {
    if (!holds || !std::isfinite(found)) {
        throw InputError({}, fmt::format("{} of {}", what, exact_text(found)),
                         std::string(expected));
    }
}

} // namespace cospot::quantities
