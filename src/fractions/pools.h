#pragma once

#include "fractions/fraction.h"

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

namespace cospot::fractions {

/// What a plate or trace says of a fraction. One spot is no proof of purity: it is one spot seen in
/// this system.
enum class FractionState {
    no_spot,  ///< looked at, and nothing was seen
    one_spot, ///< one component was seen
    mixed,    ///< several components were seen
};

[[nodiscard]] std::string_view to_text(FractionState state); ///< "no spot", "one spot", "mixed"

/// A sum over fractions of which some may not be known.
struct PartialSum {
    double total = 0.0;
    std::size_t known = 0; ///< fractions that count in `total`
    std::size_t of = 0;    ///< fractions
};

/// How much of a component its one-spot fractions hold.
struct Recovery {
    /// Share of its intensity, 0 to 1, relative to all fractions in which it was seen.
    double one_spot = 0.0;
    bool by_volume = false;      ///< intensities were multiplied by the volumes of the fractions
    bool is_lower_bound = false; ///< of a trace: the mixed fractions count as if all its own
};

/// What is to be done about one component.
struct ComponentPool {
    std::vector<int> one_spot;           ///< fractions to combine
    std::vector<int> mixed;              ///< fractions in which others were seen beside it
    std::vector<int> missed;             ///< looked at, within its band, and it was not seen
    std::vector<FractionRange> not_seen; ///< within its band, and nobody looked
    /// Fractions at either end of its band with less than `kWeakShare` of its strongest spot.
    std::vector<int> weak_edges;
    std::optional<Recovery> recovery; ///< none where the intensity of a spot is not known
    PartialSum one_spot_mass_mg;
    PartialSum one_spot_volume_ml;
    PartialSum mixed_mass_mg; ///< of all components in those fractions together
};

/// Neighbouring fractions in which the same components overlap.
struct MixedPool {
    std::vector<int> fractions;
    std::vector<std::size_t> components; ///< indices in the run
    PartialSum mass_mg;
    PartialSum volume_ml;
};

/// What is to be done with all fractions.
struct Pooling {
    std::vector<FractionState> states;                   ///< one a fraction of the run
    std::vector<std::vector<std::size_t>> components_in; ///< the same; indices in the run
    std::vector<ComponentPool> components;               ///< one a component of the run
    std::vector<MixedPool> mixed;
    std::vector<int> no_spot;
    std::vector<FractionRange> not_seen; ///< between the first and the last fraction looked at
    /// Components of the first fraction looked at, unless that is fraction 1, and of the last one:
    /// they may have begun before, or go on. Indices in the run.
    std::vector<std::size_t> open_start;
    std::vector<std::size_t> open_end;
};

/// Common practice, no source.
inline constexpr double kWeakShare = 0.05;

/// Judges the fractions of a run. Intensity is taken as proportional to the amount of one component
/// in the fractions (times the fraction's volume where all are known, else as if all volumes were
/// equal); intensities of different components are never compared.
[[nodiscard]] Pooling judge_fractions(const ColumnRun &run);

/// The sum of what is known of some fractions, by number.
[[nodiscard]] PartialSum sum_over(const ColumnRun &run, const std::vector<int> &numbers,
                                  std::optional<double> Fraction::*amount);

} // namespace cospot::fractions
