#pragma once

#include "shared/table.h"

namespace cospot {

/// What a row of a plate, chromatogram or long table is of.
enum class RowRole {
    sample,
    standard, ///< a known compound beside the samples
    cospot,   ///< sample and standard applied to one lane of a plate
};

/// The role in the column "role"; empty or without that column `otherwise`. Throws InputError for
/// anything else than sample, standard and, where `may_be_cospot`, cospot.
[[nodiscard]] RowRole read_role(const TableReader &table, RowRole otherwise,
                                bool may_be_cospot = false);

} // namespace cospot
