#pragma once

#include "evidence/reference_peak.h"
#include "integration/integration_settings.h"
#include "integration/photo_settings.h"
#include "library/database.h"
#include "library/systems.h"
#include "quantities/ladder.h"
#include "readers/chromatogram_table.h"
#include "readers/feature.h"
#include "readers/input_kind.h"
#include "shared/error.h"

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// What the command line says about how a file is to be read. Which settings matter depends on the
/// kind of the file.
struct InputSettings {
    std::optional<std::string> system;                   ///< of a plate or chromatogram
    Where system_where{"command line, --system", 0, ""}; ///< where that is said
    TableForm form;                                      ///< how tables are read
    IntegrationSettings integration{};                   ///< how traces are
    PhotoSettings photo{};                               ///< how photos of plates are
    bool is_one_of_several = false;    ///< files: then a plate is named by its file
    std::optional<std::string> sample; ///< name of a chromatogram's sample
    std::optional<std::string> ladder_file;
    std::optional<double> hold_up_min;
    ReferenceChoice reference; ///< which peak is the reference compound's
    bool is_blank = false;     ///< only times and areas matter: the library need not be comparable
    bool ladder_gaps = false;  ///< interpolate across missing members
    bool extrapolate = false;  ///< give indices outside the ladder
    std::vector<ColumnAlias> ladder_aliases{}; ///< what the ladder's table calls columns
    /// A peak with a compound and without a role is a standard; else it is the sample's, and its
    /// name a statement of the user.
    bool names_are_standards = true;
    bool may_stand_alone = true; ///< a plate with standards needs no system of the library
    double reading_error_mm = 0.5;
    double time_error_min = 0.005;
};

/// The settings of a plate whose table may name its system: that one, else the settings' own. A
/// table that names another system than the settings is refused at `where`.
[[nodiscard]] InputSettings with_system(InputSettings settings, const std::string &of_table,
                                        const Where &where);

/// The system that the settings name for a plate or chromatogram. Throws InputError where none is
/// named, the library does not hold it, or a file of that kind cannot be run on it.
[[nodiscard]] library::System system_of_settings(library::Database &database,
                                                 const InputSettings &settings, InputKind kind);

/// Adds the features of another run or file.
void append(FeatureSet &all, FeatureSet more);

/// Turns the content of a plate, chromatogram or long table into features. Throws InputError where
/// the file is faulty or a setting that its kind needs is missing.
[[nodiscard]] FeatureSet read_features(library::Database &database, const std::string &content,
                                       const std::string &file, const InputSettings &settings,
                                       std::istream &standard_input);

} // namespace cospot
