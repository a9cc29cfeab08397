#pragma once

#include "model/prediction/retention_table.h"

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

/// R_F of tlc-xu2022, and log10 k of hplc-isocratic below the folder. All readers throw
/// InputError.
[[nodiscard]] Dataset read_plates(const std::string &folder);
[[nodiscard]] Dataset read_columns(const std::string &folder);

/// Retention times (min) of hplc-report under gradients, on the systems that hold at least
/// `kFewestStructures` of them. The mixtures stand for systems and have no composition.
[[nodiscard]] Dataset read_gradients(const std::string &folder);
inline constexpr std::size_t kFewestStructures = 140;

/// Retention indices of gc-pnnl2023, of derivatives, while the structures are of the free
/// compounds.
[[nodiscard]] Dataset read_indices(const std::string &folder);

/// The table of the compounds outside one fold.
[[nodiscard]] prediction::RetentionTable training_part(const Dataset &data, std::size_t fold);

} // namespace cospot::evaluation
