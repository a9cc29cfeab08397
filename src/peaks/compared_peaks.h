#pragma once

#include "integration/integration.h"

#include <vector>

namespace cospot {

/// A peak of the file's own table beside the found one that is nearest to it.
struct ComparedPeak {
    const StoredPeak *stored = nullptr;
    const signal::FoundPeak *found = nullptr; ///< none lies around its time
};

[[nodiscard]] std::vector<ComparedPeak> compared_with_stored(const Integration &integration);

} // namespace cospot
