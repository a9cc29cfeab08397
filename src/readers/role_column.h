#pragma once

#include "shared/table.h"

namespace cospot {

/// What a row of a plate, chromatogram or long table is of.
enum class RowRole {
    sample,
    standard, ///< a known compound beside the samples
    cospot,   ///< sample and standard applied to one lane of a plate
};

/// The role in the column "role": sample (or unknown), standard (std, reference, ref) and, where
/// `may_be_cospot`, cospot; empty or without that column `otherwise`. Anything else is a fault of
/// the row.
[[nodiscard]] RowRole read_role(const TableReader &table, RowRole otherwise,
                                bool may_be_cospot = false);

} // namespace cospot
