#include "options/version.h"

namespace cospot {

const char *const kVersion = COSPOT_VERSION;

} // namespace cospot
