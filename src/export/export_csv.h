#pragma once

#include "library/column_runs.h"
#include "library/compounds.h"
#include "library/responses.h"
#include "library/selection.h"
#include "library/systems.h"

#include <string>
#include <vector>

namespace cospot {

/// Lines of the tables that `learn` reads back: the header, then one for each value, compound,
/// system, response factor or band of a column.
[[nodiscard]] std::string values_csv_header();
[[nodiscard]] std::string csv_line(const library::ExportRecord &record);
[[nodiscard]] std::string compounds_csv_header();
[[nodiscard]] std::string csv_line(const library::Compound &compound,
                                   const std::vector<std::string> &synonyms);
[[nodiscard]] std::string systems_csv_header();
[[nodiscard]] std::string csv_line(const library::System &system);
[[nodiscard]] std::string responses_csv_header();
[[nodiscard]] std::string csv_line(const library::ResponseRecord &record);
[[nodiscard]] std::string columns_csv_header();
[[nodiscard]] std::string csv_line(const library::PackedColumn &column,
                                   const library::ColumnBand &band);

} // namespace cospot
