#pragma once

#include "fractions/band_model.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace cospot::fractions {

/// A band that was seen to leave a column.
struct SeenBand {
    std::string run; ///< bands of one name were one run; without a name each is a run of its own
    std::string compound;
    double rf = 0.5; ///< on a plate in the eluent of the run; 0 to 1, both excluded
    double start_ml = 0.0;
    std::optional<double> peak_ml; ///< of the maximum; tells of tailing
    double end_ml = 0.0;
    std::optional<double> amount_mg;
    double load_ml = 0.0;

    [[nodiscard]] double middle_ml() const { return (start_ml + end_ml) / 2.0; }
};

/// What bands that were seen tell of their column. Compounds of one name and R_F count as one
/// compound, whose own retention is asked once however often it is run. Works with the extended
/// Kalman update, repeated at its own result (Gauss-Newton).
[[nodiscard]] ColumnBelief calibrated(const ColumnBelief &assumed,
                                      const std::vector<SeenBand> &bands);

/// R_F of one compound in one eluent differ by less than this from plate to plate.
inline constexpr double kSameRf = 0.05;

/// Where a compound left this column before, in an eluent in which it has this R_F.
[[nodiscard]] std::optional<KnownMiddle> known_middle(const std::vector<SeenBand> &bands,
                                                      const std::string &compound, double rf);

/// How intervals from other runs hold the bands of each run.
struct HoldOut {
    std::size_t bands = 0;
    std::size_t middles = 0; ///< of them, middle within the stated interval
    std::size_t wholes = 0;  ///< start and end within theirs
};

/// Leaves out one run after the other, more than twenty runs in twenty parts. No bands where there
/// is but one run.
[[nodiscard]] HoldOut held_out(const ColumnBelief &assumed, const std::vector<SeenBand> &bands);

/// By which factors V may lie above and below what is expected (`Interval::factor`, of the middle),
/// for a compound of a plan.
struct Teaching {
    double now = 1.0;
    double other = 1.0; ///< after one run of the plan, for another compound of that R_F
    double same = 1.0;  ///< for the compound itself in the same eluent
};

/// What one run with all these compounds would teach about the one at `index`.
[[nodiscard]] Teaching taught_by_one_run(const ColumnBelief &column,
                                         const std::vector<LoadedCompound> &compounds,
                                         std::size_t index,
                                         const std::optional<KnownMiddle> &known);

/// How many runs these bands were seen in.
[[nodiscard]] std::size_t count_runs(const std::vector<SeenBand> &bands);

} // namespace cospot::fractions
