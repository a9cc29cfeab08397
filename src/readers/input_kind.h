#pragma once

#include "shared/table.h"

#include <string>

namespace cospot {

/// The three kinds of file that `identify` reads.
enum class InputKind { plate, chromatogram, feature_table };

/// Tells the kind from the header: a column lane or distance_mm makes a plate, feature a long
/// table, peak or tR a chromatogram. Throws InputError, with what is expected, for a header that is
/// none of these.
[[nodiscard]] InputKind input_kind(const std::string &content, const std::string &file,
                                   const std::vector<ColumnAlias> &aliases = {});

/// What to write for the headers of a chromatogram that are called otherwise, as `proposed_maps`
/// has it; empty where none of them usually means a time.
[[nodiscard]] std::string chromatogram_maps(const std::vector<std::string> &headers);

/// The same for a plate; empty where no header usually means the place of a spot.
[[nodiscard]] std::string plate_maps(const std::vector<std::string> &headers);

} // namespace cospot
