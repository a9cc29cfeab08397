#pragma once

#include <string>
#include <string_view>

namespace cospot {

/// The three kinds of file that `identify` reads.
enum class InputKind { plate, chromatogram, feature_table };

/// Tells the kind from the header: a column distance_mm makes a plate, feature a long table, peak a
/// chromatogram. Throws InputError, with what is expected, for a header that is none of these.
[[nodiscard]] InputKind input_kind(const std::string &content, const std::string &file);

} // namespace cospot
