#pragma once

#include "audit/finding.h"
#include "library/ids.h"

#include <string>
#include <vector>

namespace cospot {

/// A structure of the library with all its names.
struct AuditedStructure {
    library::CompoundId id{};
    std::string inchikey;           ///< 27 characters
    std::string parent_inchikey;    ///< of the uncharged parent
    std::vector<std::string> names; ///< at least one, the first one first
    std::string cas;                ///< registry number, or empty
    bool open_stereo = false;       ///< stereo not fully given
};

/// Structures that the library may hold under the wrong name or twice: one name (case of ASCII
/// letters ignored) or one registry number for several structures, and structures of one skeleton
/// (the first 14 characters of the InChIKey; IUPAC International Chemical Identifier) of which one
/// leaves stereo open. The same set of structures is found once, by its name first.
[[nodiscard]] std::vector<Finding>
identity_findings(const std::vector<AuditedStructure> &structures);

} // namespace cospot
