#pragma once

#include "integration/integration.h"
#include "quantities/ladder.h"
#include "readers/input_file.h"
#include "shared/table.h"

#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// A ladder that was found in a trace, and what to tell of it.
struct LadderOfTrace {
    quantities::Ladder ladder;
    std::string assignment; ///< "C8 at 4.210 min, C9 at 6.301 min, ..."; empty of a table
};

/// The homologues of a ladder among the peaks of its trace: the highest peaks whose spacing is
/// even, or grows evenly as under constant conditions, and smaller ones that continue the series;
/// without a solvent before them and small peaks between them. The first is the homologue of
/// `first_carbon`, each next one has a carbon more. Throws InputError where no first carbon number
/// is given, and where fewer than four peaks are spaced evenly.
[[nodiscard]] LadderOfTrace ladder_of_trace(const Integration &integration,
                                            std::optional<quantities::IndexScale> scale,
                                            const std::optional<int> &first_carbon);

/// The ladder of a file, be it a table or a trace. Of the settings only how the file is read and
/// the first carbon number hold for it. Throws InputError as `read_ladder`, `integrate` and
/// `ladder_of_trace` do.
[[nodiscard]] LadderOfTrace ladder_of_file(InputFile &file,
                                           std::optional<quantities::IndexScale> scale,
                                           quantities::LadderGaps gaps,
                                           const std::vector<ColumnAlias> &aliases,
                                           const IntegrationSettings &settings);

} // namespace cospot
