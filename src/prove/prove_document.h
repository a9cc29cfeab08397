#pragma once

#include "document/document.h"
#include "prove/library_proofs.h"

namespace cospot {

/// How far the library can be trusted: a summary of the questions, then each with its verdicts, its
/// reliability, and whether it is corrected; at last what was not tried.
[[nodiscard]] Document prove_document(const LibraryProofs &proofs);

} // namespace cospot
