#pragma once

#include "prediction/retention_table.h"

#include <cstddef>
#include <string>
#include <vector>

namespace cospot::evaluation {

inline constexpr std::size_t kFolds = 5;

/// Measured retention, and which fifth of the compounds each compound belongs to.
struct Dataset {
    prediction::RetentionTable table; ///< one value a compound and mixture: the mean of replicates
    std::vector<std::string> labels;  ///< of the mixtures
    std::vector<std::size_t> fold;    ///< of the compounds; a structure is one compound
};

/// R_F of tlc-xu2022, and log10 k of hplc-isocratic below the folder. Throws InputError.
[[nodiscard]] Dataset read_plates(const std::string &folder);
[[nodiscard]] Dataset read_columns(const std::string &folder);

/// The table of the compounds outside one fold.
[[nodiscard]] prediction::RetentionTable training_part(const Dataset &data, std::size_t fold);

} // namespace cospot::evaluation
