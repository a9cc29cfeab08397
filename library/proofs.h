#pragma once

#include "library/database.h"
#include "library/systems.h"

#include <cstdint>
#include <optional>
#include <string>

namespace cospot::library {

/// What a proof of the library found for features of one technique; see the schema.
struct Proof {
    Technique technique = Technique::tlc;
    bool several_systems = false;
    std::int64_t questions = 0;
    double exponent = 1.0;
    double least_in_set = 0.0;
    double calibration_error = 0.0;
    std::string at_utc; ///< when it was stored
};

void add_proof(Database &database, const Proof &proof, std::int64_t change);

/// The newest proof of the technique; nothing if none was stored.
[[nodiscard]] std::optional<Proof> newest_proof(Database &database, Technique technique,
                                                bool several_systems);

/// The day (YYYY-MM-DD, UTC) of the newest proof of any technique; empty if none was stored.
[[nodiscard]] std::string newest_proof_day(Database &database);

} // namespace cospot::library
