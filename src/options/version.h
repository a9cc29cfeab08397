#pragma once

namespace cospot {

/// Version of the program, e.g. "0.1.0".
extern const char *const kVersion;

} // namespace cospot
