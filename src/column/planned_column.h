#pragma once

#include "column/column_result.h"
#include "integration/photo_settings.h"
#include "options/command.h"

#include <istream>
#include <optional>
#include <string>

namespace cospot {

/// What is asked of `column`.
struct ColumnOptions {
    std::optional<std::string> file;      ///< table of compounds; "-": standard input
    std::vector<ColumnAlias> aliases;     ///< what it calls its columns
    PhotoSettings photo{};                ///< where it is a photo of a plate
    std::optional<std::string> compounds; ///< names of the library, instead of a file
    std::optional<std::string> system;    ///< of the plate
    std::optional<std::string> target;    ///< else the role in the file
    std::optional<std::string> eluent;    ///< of the plate, without a system
    std::optional<std::string> own_column;
    fractions::ColumnSettings settings; ///< but for `own`
    bool keeps_models = true;           ///< whether the library may keep what was computed
};

/// Plans the column. Throws InputError for what the file or the library does not hold.
[[nodiscard]] ColumnResult planned_column(const ColumnOptions &options,
                                          const Invocation &invocation,
                                          std::istream &standard_input);

} // namespace cospot
