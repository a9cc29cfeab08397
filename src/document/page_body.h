#pragma once

#include "document/document.h"

#include <string>

namespace cospot {

/// The blocks of a document as HTML between the heading and the trace of a page. Loads RDKit where
/// structures are drawn.
[[nodiscard]] std::string page_body(const std::vector<Block> &blocks);

/// Lines for name, date and signature of each signer; nothing without signers.
[[nodiscard]] std::string signature_lines(const std::vector<std::string> &signers);

} // namespace cospot
