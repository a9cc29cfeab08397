#pragma once

#include "document/html.h"
#include "document/probability_text.h"

namespace cospot {

/// A probability in a table: as it is printed everywhere, sorted by its value.
[[nodiscard]] inline html::Cell probability_cell(double probability) {
    return {html::escaped(probability_text(probability)), probability};
}

} // namespace cospot
