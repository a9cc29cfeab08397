#pragma once

#include "library/database.h"

#include <optional>
#include <string>
#include <vector>

namespace cospot::library {

/// A relative response factor: the peak area of a compound over that of the same mass of another.
struct Response {
    CompoundId compound{};
    CompoundId relative_to{};
    SystemId system{};
    double factor = 1.0; ///< above 0
    std::string date;    ///< YYYY-MM-DD, or empty
    std::string source;
    std::string note;
};

/// Stores it unless the same was stored before; returns whether it was new.
bool add_response(Database &database, const Response &response, ChangeId change);

/// All that were ever stored, the oldest first.
[[nodiscard]] std::vector<Response> all_responses(Database &database);

/// A factor with the names of what it holds for.
struct ResponseRecord {
    std::string compound;
    std::string relative_to;
    std::string system;
    double factor = 1.0;
    std::string date;
    std::string source;
    std::string note;
};

/// As `all_responses`, with names.
[[nodiscard]] std::vector<ResponseRecord> response_records(Database &database);

/// The factor of a compound relative to another on a system: the newest stored one, the reciprocal
/// of the reverse, or through one compound that both are known relative to. Nothing where the
/// library does not hold it; 1 for a compound relative to itself.
[[nodiscard]] std::optional<double> response_factor(Database &database, SystemId system,
                                                    CompoundId compound, CompoundId relative_to);

} // namespace cospot::library
