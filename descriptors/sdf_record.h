#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace cospot::descriptors {

/// A data item of an SDF record: its name and its text, which may have several lines.
using SdfProperty = std::pair<std::string, std::string>;

/// One record of an SD file (CTfile format, V2000): title line, structure drawn in two dimensions,
/// data items in the given order, "$$$$". The structure reads back with the same InChIKey.
/// Throws InputError with an empty Where for a SMILES that `read_smiles` refuses, for a title or
/// name with line breaks or other control characters, for a title that begins with "$$$$" or "$RXN"
/// or
/// "$MDL", for a name that is empty or has '<' or '>', for a text with an empty line (it would end
/// the item) or a line that begins with "$$$$" or '>', and for the rare structure whose
/// stereochemistry the drawing would not keep.
[[nodiscard]] std::string write_sdf_record(std::string_view smiles, std::string_view title,
                                           const std::vector<SdfProperty> &properties);

} // namespace cospot::descriptors
