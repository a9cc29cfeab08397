#pragma once

#include "quantities/column_elution.h"

#include <array>
#include <cstddef>
#include <optional>

namespace cospot::fractions {

// What a band does on a column, from its R_F on a plate: see MODEL.md beside this file. A spread is
// a standard deviation; of volumes and ratios it is that of the natural logarithm.

/// Stated intervals hold so many per cent: 1.96 standard deviations to both sides.
inline constexpr double kIntervalPercent = 95.0;
inline constexpr double kIntervalReach = 1.96;

/// Hold-up of the bed, from its silica: packing differs from column to column (assumed).
inline constexpr double kBedSpread = 0.1;
/// The same where it is told from a measured hold-up volume alone (assumed).
inline constexpr double kBedSpreadOfHoldUp = 0.3;
/// Volume outside the bed (assumed): 2.5 m of tube of 1.6 mm bore 5 mL, valve and detector 1 mL,
/// head and foot of a cartridge 2 mL. Never more than half of a hold-up volume that was measured.
inline constexpr double kOutside_ml = 8.0;
inline constexpr double kOutsideSpread = 0.5;
/// The same where the user gives it (assumed).
inline constexpr double kMeasuredOutsideSpread = 0.1;
/// A hold-up volume that was measured on one day, for a run of another (assumed).
inline constexpr double kHoldUpSpread = 0.1;
/// Where counting begins, from run to run, as a share of the volume outside the bed (assumed): how
/// far tube, loop and head were filled at the start.
inline constexpr double kStartShare = 0.35;
/// Retention factor on the column over that on the plate (assumed). The silica of a plate has taken
/// up water from the air and eluent from the vapour, that of a column is dry and has more surface
/// to the eluent: twice as much is common. The trade counts with 1 (1/R_F), and so does the eluent
/// that Still (1978, Table I) needs; 1.5 lies between.
inline constexpr double kHoldRatio = 1.5;
inline constexpr double kHoldRatioSpread =
    0.4;                                       ///< between columns, lots and laboratories (assumed)
inline constexpr double kCompoundSpread = 0.5; ///< between compounds on one column (assumed)
/// Between runs of one compound: another cartridge of the kind, flow, temperature, eluent mixed
/// anew (assumed).
inline constexpr double kRunSpread = 0.12;
/// Of an R_F that was read once from a plate (common practice, no source).
inline constexpr double kRfSpread = 0.03;

/// Height of a plate in a bed of flash silica where nobody gives a plate number (common practice,
/// no source): 150 plates in 150 mm.
inline constexpr double kPlateHeight_mm = 1.0;
/// Height of a bed over its diameter where only its mass is known (assumed).
inline constexpr double kBedSlenderness = 5.0;
/// What silica of 500 m2/g takes of a small molecule at most: 0.4 mg/m2 (assumed).
inline constexpr double kCapacity_mg_per_g = 200.0;
/// Load of a compound where nobody states one: that of the table for neighbours 0.2 apart in R_F,
/// 100 mg on 10 mm and 150 mm (Still 1978, Table I), 5.9 g of silica.
inline constexpr double kUsualLoad_mg_per_g = 17.0;
/// Standard deviation of the mixing outside the bed, as a share of the volume there (assumed; an
/// ideally mixed vessel has 1, plug flow 0).
inline constexpr double kMixingShare = 0.35;
/// A band reaches from so many standard deviations before its maximum ...
inline constexpr double kBandSigmas = 2.0;
/// ... to this many times as far behind it (assumed: bands on silica tail).
inline constexpr double kTailing = 1.3;
inline constexpr double kColumnWidthSpread = 0.2; ///< of widths, between columns (assumed)
inline constexpr double kBandWidthSpread = 0.4; ///< of widths, between bands of a column (assumed)

/// What the user states of a column; at least `bed`, `silica_g` or `hold_up_ml`.
struct StatedColumn {
    std::optional<quantities::ColumnBed> bed;
    std::optional<double> silica_g;   ///< counts where there is no bed
    std::optional<double> hold_up_ml; ///< measured, of all that an unretained compound passes
    std::optional<double> outside_ml; ///< measured, outside the bed
    std::optional<double> plate_number;
};

/// What all bands of a column share.
enum ColumnUnknown : std::size_t {
    kBedHoldUp,  ///< ln of mL
    kOutsideBed, ///< ln of mL
    kHold,       ///< ln of the ratio of retention factors
    kUnknowns
};
using Unknowns = std::array<double, kUnknowns>;

/// What is known of a column: mean and covariance of its unknowns, and what its bands share
/// besides.
struct ColumnBelief {
    Unknowns mean{};
    std::array<Unknowns, kUnknowns> covariance{};
    double silica_g = 0.0;
    double plate_number = 0.0;
    double scatter = 1.0;  ///< of compounds and runs, in units of the assumed spreads
    double ln_width = 0.0; ///< of widths over those that the model gives
    double width_spread = kColumnWidthSpread; ///< between columns, of `ln_width`
    double tailing = kTailing;

    [[nodiscard]] double bed_ml() const;
    [[nodiscard]] double outside_ml() const;
    [[nodiscard]] double hold_up_ml() const; ///< of both
    [[nodiscard]] double hold_ratio() const;
    [[nodiscard]] double spread(ColumnUnknown unknown) const;
};

/// What is believed of a column before any of its runs is learned. Throws InputError for what is
/// not above 0, and where nothing of its size is stated.
[[nodiscard]] ColumnBelief assumed_column(const StatedColumn &column);

/// A compound that is to be run.
struct LoadedCompound {
    double rf = 0.5;               ///< 0 to 1, both excluded
    double rf_spread = kRfSpread;  ///< above 0
    std::optional<double> load_mg; ///< of this compound; else the usual one
    double load_ml = 0.0;
};

/// Where the middle of a compound's band left this very column in earlier runs.
struct KnownMiddle {
    double volume_ml = 0.0; ///< geometric mean
    std::size_t runs = 1;
};

struct Interval {
    double low_ml = 0.0;
    double high_ml = 0.0;

    [[nodiscard]] bool holds(double ml) const { return ml >= low_ml && ml <= high_ml; }
    /// A value in the middle (of ln V) times or through this gives both ends.
    [[nodiscard]] double factor() const;
};

/// A band as it is expected, with what holds in 95 of 100 runs.
struct ExpectedBand {
    quantities::ElutedBand band; ///< maximum, and standard deviation of the front half
    double start_ml = 0.0;
    double end_ml = 0.0;
    Interval middle; ///< of the middle between start and end
    Interval whole;  ///< of start and end

    [[nodiscard]] double middle_ml() const { return (start_ml + end_ml) / 2.0; }
};

/// The band of a compound on a column.
[[nodiscard]] ExpectedBand expected_band(const ColumnBelief &column, const LoadedCompound &compound,
                                         const std::optional<KnownMiddle> &known = std::nullopt);

/// Volume of the maximum for given unknowns of the column, and its logarithm's slopes over them.
[[nodiscard]] double maximum_ml(const Unknowns &column, double plate_k);
[[nodiscard]] Unknowns slopes_of_maximum(const Unknowns &column, double plate_k);

/// Variance of ln V of one band that no knowledge of the column takes away: compound and R_F; and
/// the part of it that each run has anew.
struct OwnVariance {
    double of_compound = 0.0;
    double of_run = 0.0;
};
[[nodiscard]] OwnVariance own_variance(const ColumnBelief &column, const LoadedCompound &compound);

/// Takes into account that ln of a volume or of a sum of volumes, whose slopes over the unknowns
/// are given at `at` where it is `expected`, was observed (Kalman's update; repeated with slopes at
/// its own result it is the Gauss-Newton estimate).
void observe(ColumnBelief &column, const Unknowns &at, const Unknowns &slopes,
             double observed_less_expected, double variance);

} // namespace cospot::fractions
