#pragma once

#include "library/database.h"
#include "library/systems.h"
#include "readers/chromatogram_table.h"
#include "shared/error.h"
#include "shared/quantity.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// How the peak of the reference compound is told from the others of a run.
struct ReferenceChoice {
    std::optional<std::string> peak;     ///< its name, as the user gave it
    std::optional<std::string> declared; ///< what the sample is declared to be: the largest peak
};

/// The peak of a run that relative retention counts from.
struct ReferencePeak {
    std::size_t index = 0;   ///< among the peaks of the run
    bool is_assumed = false; ///< nobody named it: it is the largest, and the sample is declared so
};

/// The peak of the compound that `reference` names: the one whose column `compound` gives any of
/// its names; else the one that the user named; else, where the sample is declared to be that
/// compound and all peaks have areas, the largest. None where none of this tells. Throws InputError
/// for a named peak that the run lacks, two peaks of the compound, and a named peak that
/// contradicts the column.
[[nodiscard]] std::optional<ReferencePeak> find_reference_peak(library::Database &database,
                                                               const std::string &reference,
                                                               const std::vector<Peak> &peaks,
                                                               const ReferenceChoice &choice,
                                                               const std::string &file);

/// Throws InputError where a system cannot show the quantity: R_F in a column, all others on a
/// plate, relative retention where no reference is named.
void check_shows(const library::System &system, Quantity quantity, const Where &where);

/// What is wrong where a run has no such peak, and what to give.
[[nodiscard]] InputError no_reference_peak(const library::System &system, const std::string &file);

} // namespace cospot
