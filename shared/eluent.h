#pragma once

#include "shared/error.h"

#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// One solvent of a mobile phase with its share of the volume.
struct SolventPart {
    std::string solvent;
    double parts; ///< volume parts as written, e.g. 3 of "3:1"
};

/// Reads a mobile phase such as "hexane:ethyl acetate 3:1": solvent names divided by ':' or '/',
/// then as many volume parts. A text without parts ("helium", "acetone") is one solvent, 1 part.
/// Throws InputError where names and parts do not match, or a part is not above 0 or above a
/// million.
[[nodiscard]] std::vector<SolventPart> parse_eluent(std::string_view text, const Where &where);

/// The volume fraction of each part; they sum to 1.
[[nodiscard]] std::vector<double> volume_fractions(const std::vector<SolventPart> &eluent);

} // namespace cospot
