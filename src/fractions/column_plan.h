#pragma once

#include "fractions/band_model.h"
#include "fractions/calibration.h"
#include "fractions/flash_columns.h"

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
    double rf_spread = kRfSpread; ///< standard deviation of `rf`
};

/// A column of one's own, with what its runs showed.
struct OwnColumn {
    std::string name;
    StatedColumn stated;
    std::vector<SeenBand> seen;
};

/// What the user may settle; the rest is advised.
struct ColumnSettings {
    std::optional<double> load_mg; ///< of the whole sample; else the sum of amounts
    std::optional<OwnColumn> own;  ///< then nothing else of the column's size
    std::optional<double> diameter_mm;
    double bed_mm = kFlashBed_mm;
    std::optional<double> silica_g;   ///< of a cartridge whose bed is not known
    std::optional<double> hold_up_ml; ///< measured column volume
    std::optional<double> outside_ml; ///< of the hold-up, outside the bed
    std::optional<double> plate_number;
    std::optional<double> fraction_ml;
    double load_ml = 0.0;      ///< volume in which the sample is loaded; 0: dry
    double discarded_ml = 0.0; ///< before fraction 1
};

/// How one compound leaves the column.
struct PlannedBand {
    std::optional<double> column_volumes; ///< 1/R_F, by the plate; none where R_F is 0 or 1
    std::optional<KnownMiddle> known;     ///< where it left this column before
    std::optional<ExpectedBand> expected; ///< none where the column's size is not known
    std::optional<int> first_fraction;    ///< of the expected band; 0: discarded before fraction 1
    std::optional<int> last_fraction;
    std::optional<int> first_in_95; ///< of what holds the whole band in 95 of 100 runs
    std::optional<int> last_in_95;
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
    in_discarded, ///< the target, or a part of it, may leave before fraction 1 (in 95 of 100 runs)
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
    std::optional<double> bed_mm;       ///< none of a bed of which only the mass is known
    std::optional<double> silica_g;
    std::optional<double> hold_up_ml;
    /// For packing and separation, of a column whose size is given and lies within the table.
    std::optional<double> eluent_ml;
    double plate_number = 0.0;
    std::optional<ColumnBelief> column; ///< none where its size is not known
    std::optional<Teaching> teaching;   ///< of the target, else of the last compound
    std::optional<std::size_t> taught;  ///< index of that compound
    std::optional<double> fraction_ml;
    std::vector<PlanFinding> findings;
};

/// Plans a column. The difference of R_F that the table is asked for is the smallest between
/// neighbours, of the target only where there is one; where it is below 0.1, on which the table
/// says nothing, its rows for 0.1 are taken and a warning tells. The diameter, and the size of
/// fractions, are the table's where they are not given. Throws InputError for settings that are not
/// above 0
/// (`load_ml` and `discarded_ml`: from 0).
[[nodiscard]] ColumnPlan plan_column(std::vector<PlateCompound> compounds,
                                     const ColumnSettings &settings);

/// The band of a compound in column volumes: with the volume outside the bed and what the load does
/// where the volume of the column is known, else without. None where R_F is 0 or 1.
[[nodiscard]] std::optional<quantities::ElutedBand> band_in_column_volumes(const ColumnPlan &plan,
                                                                           std::size_t compound);

} // namespace cospot::fractions
