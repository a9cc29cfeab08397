#pragma once

#include "evidence/input_features.h"
#include "library/database.h"
#include "quantities/ladder.h"
#include "readers/measurement_table.h"

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// When, how and by whom a plate or chromatogram was run.
struct RunDetails {
    InputSettings reading; ///< system, ladder and so on
    std::string run;       ///< where the file names none; empty: the file's name
    std::string date;
    std::string operator_name;
    std::string instrument;
    std::string source;
};

/// The values that a raw run gives for its known standards.
struct RawRun {
    std::vector<MeasurementRow> rows;
    std::optional<quantities::Ladder> ladder;
    std::vector<std::string> remarks; ///< e.g. peaks that got no index
    bool is_partial = false;          ///< lanes or plates were left out
};

/// The plates of a file: the R_F, as read, of each spot with the role "standard", whose label names
/// it. A front must be stated: one that standards tell would give them back what is known of them.
[[nodiscard]] RawRun standards_of_plates(library::Database &database, std::istream &in,
                                         const std::string &file, const RunDetails &details);

/// The chromatograms of a file: the index, relative retention, retention factor or time of each
/// peak whose column "compound" names it; the other peaks are passed over.
[[nodiscard]] std::vector<RawRun>
standards_of_chromatograms(library::Database &database, std::istream &in, const std::string &file,
                           const RunDetails &details, std::istream &standard_input);

} // namespace cospot
