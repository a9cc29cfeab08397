#pragma once

#include "document/json.h"
#include "library/column_runs.h"
#include "library/descriptions.h"
#include "library/overview.h"
#include "library/sheets.h"
#include "library/value_records.h"

#include <cstddef>
#include <optional>

namespace cospot {

/// A compound, a system, a sheet that is remembered, a column, a band of it or a measured value of
/// the library. A value has its state where all values are visited.
[[nodiscard]] Json library_json(const library::Compound &compound, const library::Counts &counts,
                                const std::optional<library::Description> &description = {});
[[nodiscard]] Json library_json(const library::System &system, const library::Counts &counts);
[[nodiscard]] Json library_json(const library::RememberedSheet &sheet);
[[nodiscard]] Json library_json(const library::PackedColumn &column, std::size_t bands);
[[nodiscard]] Json library_json(const library::ColumnBand &band);
[[nodiscard]] Json library_json(const library::MeasurementRecord &record,
                                library::Visit which = library::Visit::held);

} // namespace cospot
