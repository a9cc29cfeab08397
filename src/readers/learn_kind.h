#pragma once

#include "readers/input_file.h"
#include "shared/table.h"

#include <vector>

namespace cospot {

/// The kinds of file that `learn` reads.
enum class LearnKind {
    measurements,
    compounds,
    smiles_list,
    sdf,
    plate,
    chromatogram,
    responses,
    column_runs
};

/// Tells the kind: by its ending for .sdf, .sd, .smi and .smiles, else by its header. A column
/// distance_mm or lane makes a plate, peak, or tR without system, a chromatogram, response_factor a
/// table of these, start_mL one of column runs, compound a table of measurements or, without
/// system, quantity and value, of compounds. With `is_of_run`, which a ladder or hold-up time says,
/// a table with neither values nor structures is a chromatogram, whose reader says what it lacks.
/// The file is back at its start afterwards.
[[nodiscard]] LearnKind learn_kind(InputFile &file, const std::vector<ColumnAlias> &aliases,
                                   bool is_of_run = false);

} // namespace cospot
