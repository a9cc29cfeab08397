#pragma once

#include "fractions/flash_columns.h"
#include "quantities/column_elution.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot::fractions {

enum class Role { unknown, target, impurity };

[[nodiscard]] std::string_view to_text(Role role); ///< "", "target", "impurity"

/// A compound of the sample with its place on a plate.
struct PlateCompound {
    std::string name;
    double rf = 0.0; ///< 0 to 1
    Role role = Role::unknown;
    std::optional<double> amount_mg;
};

/// What the user may settle; the rest is advised.
struct ColumnSettings {
    std::optional<double> load_mg; ///< of the whole sample; else the sum of amounts
    std::optional<double> diameter_mm;
    double bed_mm = kFlashBed_mm;
    std::optional<double> hold_up_ml; ///< measured column volume
    std::optional<double> plate_number;
    std::optional<double> fraction_ml;
    double load_ml = 0.0;    ///< volume in which the sample is loaded; 0: dry
    double forerun_ml = 0.0; ///< collected before fraction 1
};

/// Height of a plate in a bed of flash silica where nobody gives a plate number (common practice,
/// no source): 150 plates in 150 mm, with which neighbours at R_F 0.25 and 0.35 are resolved by
/// about 1.
inline constexpr double kPlateHeight_mm = 1.0;

/// Fractions are given for this many standard deviations to both sides: 95 % of a Gaussian band.
inline constexpr double kBandSigmas = 2.0;

/// How one compound leaves the column.
struct PlannedBand {
    std::optional<double> column_volumes; ///< none where R_F is 0 or 1
    std::optional<quantities::ElutedBand> band;
    std::optional<int> first_fraction; ///< with the volume of a fraction; 0: in the forerun
    std::optional<int> last_fraction;
};

/// Two compounds that follow each other out of the column.
struct Neighbours {
    std::size_t first = 0; ///< index in the plan; leaves first
    std::size_t second = 0;
    double rf_difference = 0.0;
    std::optional<double> column_volumes; ///< between them
    std::optional<double> resolution;     ///< of Gaussian bands
};

enum class PlanWarning {
    close,        ///< two neighbours differ by less than 0.1 in R_F
    at_start,     ///< R_F 0: no column volume
    at_front,     ///< R_F 1: no column volume
    target_range, ///< the target is outside R_F 0.1 to 0.5
    in_forerun,   ///< the target, or a part of it, leaves before fraction 1
    overlap,      ///< fractions of the target hold a neighbour too
    overload,     ///< more than the table gives for the column
    beyond_table, ///< more than the widest column of the table takes
};

[[nodiscard]] std::string_view to_text(PlanWarning warning); ///< "close", "at_start", ...

struct PlanFinding {
    PlanWarning warning = PlanWarning::close;
    std::vector<std::size_t> compounds; ///< indices in the plan
};

/// A column planned from a plate.
struct ColumnPlan {
    std::vector<PlateCompound> compounds; ///< in the order in which they leave, highest R_F first
    std::vector<PlannedBand> bands;       ///< one a compound
    std::vector<Neighbours> neighbours;
    std::optional<std::size_t> target; ///< index
    std::optional<double> difference;  ///< smallest of R_F that matters: to the target if any
    std::optional<double> load_mg;
    std::optional<ColumnAdvice> advice; ///< by the table; none without load or difference
    std::optional<double> diameter_mm;  ///< given or advised
    std::optional<double> silica_g;
    std::optional<double> hold_up_ml;
    double plate_number = 0.0;
    std::optional<double> fraction_ml;
    std::vector<PlanFinding> findings;
};

/// Plans a column. The difference of R_F that the table is asked for is the smallest between
/// neighbours, of the target only where there is one; where it is below 0.1, on which the table
/// says nothing, its rows for 0.1 are taken and a warning tells. The diameter, and the size of
/// fractions, are the table's where they are not given. Throws InputError for settings that are not
/// above 0
/// (`load_ml` and `forerun_ml`: from 0).
[[nodiscard]] ColumnPlan plan_column(std::vector<PlateCompound> compounds,
                                     const ColumnSettings &settings);

/// The band of a compound in column volumes: with what the load does where the volume of the column
/// is known, else of a load that takes no room. None where R_F is 0 or 1.
[[nodiscard]] std::optional<quantities::ElutedBand> band_in_column_volumes(const ColumnPlan &plan,
                                                                           std::size_t compound);

} // namespace cospot::fractions
