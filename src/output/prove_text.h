#pragma once

#include "document/style.h"
#include "proving/proof.h"

#include <string>

namespace cospot {

/// What was asked of one technique, with plain verdicts and a table; 80 columns.
[[nodiscard]] std::string prove_text(const ProvedQuestion &proved, const Style &style);

} // namespace cospot
