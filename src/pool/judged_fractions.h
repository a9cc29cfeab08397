#pragma once

#include "fractions/warnings.h"
#include "integration/photo_settings.h"
#include "options/command.h"
#include "pool/pool_result.h"

#include <istream>
#include <optional>
#include <string>

namespace cospot {

/// What is asked of `pool`.
struct PoolOptions {
    std::string file;                 ///< table of fractions; "-": standard input
    std::vector<ColumnAlias> aliases; ///< what it calls its columns
    PhotoSettings photo{};            ///< where it is a photo of a plate
    std::optional<double> tolerance;  ///< of R_F, below 1; else by what the spots show
    double reading_error_mm = 0.0;
    fractions::ElutionOrder order = fractions::ElutionOrder::by_rf;
    std::optional<std::string> system; ///< of the plates, in the library
    std::optional<std::string> target; ///< letter or R_F of a component, or name of a compound
    std::optional<double> loaded_mg;
    std::optional<double> fraction_ml; ///< of a trace by volume
    std::optional<double> baseline;    ///< signal of a trace up to which there is nothing
};

/// Judges the fractions of the file. Throws InputError for what the file or the library does not
/// hold.
[[nodiscard]] PoolResult judged_fractions(const PoolOptions &options, const Invocation &invocation,
                                          std::istream &standard_input);

} // namespace cospot
