#pragma once

#include "library/database.h"
#include "library/systems.h"

#include <cstdint>
#include <optional>
#include <string>

namespace cospot::library {

/// What a proof asks the library about values that were left out of it.
enum class ProofQuestion {
    run,       ///< whole runs; single values where their run is not named
    day,       ///< all runs of a day
    new_system ///< most compounds of a system
};

/// The name that the library keeps: run, day or new_system.
[[nodiscard]] std::string to_text(ProofQuestion question);

/// More systems than this of one feature count as so many.
inline constexpr std::int64_t kMostProvedSystems = 3;

/// What a proof found about one question, and the correction that it taught; see the schema.
struct Proof {
    Technique technique = Technique::tlc;
    ProofQuestion question = ProofQuestion::run;
    std::int64_t systems = 1; ///< that the features were seen on, `kMostProvedSystems` or more
    std::int64_t questions = 0;
    double measured_exponent = 1.0;
    double transferred_exponent = 1.0;
    double unlisted_offset = 0.0;
    double measured_limit = 0.0;
    double transferred_limit = 0.0;
    double unlisted_limit = 0.0;
    double calibration_error = 0.0;
    std::string at_utc; ///< when it was stored
};

void add_proof(Database &database, const Proof &proof, ChangeId change);

/// What the newest proof of the technique says about the question; nothing if it was not asked, or
/// the structure of a compound that was measured so has been corrected since.
[[nodiscard]] std::optional<Proof> newest_proof(Database &database, Technique technique,
                                                ProofQuestion question, std::int64_t systems);

/// The day (YYYY-MM-DD, UTC) of the newest proof of any technique; empty if none was stored.
[[nodiscard]] std::string newest_proof_day(Database &database);

/// The day of the newest proof of the technique where it does not count any more, since the
/// structure of a compound was corrected; else empty.
[[nodiscard]] std::string day_of_proof_before_correction(Database &database, Technique technique);

/// The day of the newest proof that an earlier version of the program made, with one correction
/// for all questions; empty if there is none, or a newer one.
[[nodiscard]] std::string day_of_outdated_proof(Database &database);

} // namespace cospot::library
