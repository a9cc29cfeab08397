#pragma once

#include "document/document.h"
#include "document/style.h"

#include <string>

namespace cospot {

struct TerminalSettings {
    Style style;
    bool with_details = false; ///< what --explain asks for
};

/// The document as lines of at most 80 columns. Figures show their lines for a terminal, if they
/// have any; structures are left out.
[[nodiscard]] std::string terminal_text(const Document &document, const TerminalSettings &settings);

} // namespace cospot
