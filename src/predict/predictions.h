#pragma once

#include "expectation/compound_profile.h"
#include "library/systems.h"
#include "options/command.h"

#include <iosfwd>
#include <string>
#include <vector>

namespace cospot {

/// What a call of `predict` asks for.
struct PredictOptions {
    std::vector<std::string> targets; ///< files, compounds of the library, or SMILES
    std::vector<std::string> systems; ///< names; empty: all of the library
    bool with_retention = true;       ///< else only what the structures say
    bool keeps_models = true;         ///< whether the library may keep what was learned
};

/// What each compound is, and what to expect of it on each system.
struct Predictions {
    std::vector<library::System> systems;
    std::vector<CompoundProfile> profiles;
    bool with_retention = true;     ///< as it was asked
    std::vector<std::string> notes; ///< on compounds that are retired
};

/// Opens the library of the call; a target "-" is read from `standard_input`. Throws InputError for
/// a target or system that cannot be read or is not known.
[[nodiscard]] Predictions predictions(const PredictOptions &options, const Invocation &invocation,
                                      std::istream &standard_input);

} // namespace cospot
