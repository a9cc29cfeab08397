#pragma once

#include "descriptors/api.h"

#include <string>
#include <utility>
#include <vector>

namespace cospot {

/// The functions of the descriptors module, opened at the first call: loading RDKit takes several
/// times longer than the rest of a short command. Throws std::runtime_error when the shared library
/// is not where the program was installed.
[[nodiscard]] const descriptors::Api &structure_service();

/// The functional groups that occur, by name and how often, in the order of the table of groups.
[[nodiscard]] std::vector<std::pair<std::string, int>>
occurring_groups(const descriptors::Descriptors &descriptors);

} // namespace cospot
