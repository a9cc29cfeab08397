#pragma once

#include "descriptors/api.h"

namespace cospot {

/// The functions of the descriptors module, opened at the first call: loading RDKit takes several
/// times longer than the rest of a short command. Throws std::runtime_error when the shared library
/// is not where the program was installed.
[[nodiscard]] const descriptors::Api &structure_service();

} // namespace cospot
