#pragma once

#include "document/document.h"
#include "pool/pool_result.h"

namespace cospot {

/// What `pool` says: what to combine and what to look at before, the run as a picture, each
/// component, every fraction, and what all of it rests on.
[[nodiscard]] Document pool_document(const PoolResult &result);

} // namespace cospot
