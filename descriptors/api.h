#pragma once

#include "descriptors/structure.h"

namespace cospot::descriptors {

/// The module's functions, for a program that loads the library with dlopen: RDKit takes several
/// times longer to load than the rest of a short command. They throw what their namesakes throw.
struct Api {
    Structure (*read_smiles)(std::string_view smiles);
};

} // namespace cospot::descriptors

/// The one symbol to look up in libcospot_descriptors.so; what it returns lives as long as the
/// library stays loaded. Never fails.
extern "C" const cospot::descriptors::Api *cospot_descriptors_api();
