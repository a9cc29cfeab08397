#pragma once

#include "model/prediction/compound_space.h"

#include <string>
#include <vector>

namespace cospot {

/// What the structures say about themselves, for retention from structure; salts as their free
/// form. On all cores; loads RDKit. Throws InputError for a SMILES that cannot be read.
[[nodiscard]] std::vector<prediction::CompoundFeatures>
features_of(const std::vector<std::string> &smiles);

} // namespace cospot
