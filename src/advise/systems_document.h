#pragma once

#include "advise/system_advice.h"
#include "document/document.h"

namespace cospot {

/// Which systems tell compounds apart, together and one by one, and which pairs none does. The
/// table of a report has a row for each set of systems.
[[nodiscard]] Document systems_document(const SystemAdvice &advice);

} // namespace cospot
