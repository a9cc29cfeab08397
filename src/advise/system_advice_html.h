#pragma once

#include "document/json.h"

#include <string>

namespace cospot {

/// Which systems tell compounds apart (the object of system_advice_json), for a page.
[[nodiscard]] std::string system_advice_html(const Json &advice);

} // namespace cospot
