#pragma once

#include "purity/rounding.h"

#include <optional>
#include <string>
#include <vector>

namespace cospot::purity {

/// A mass a day as it is written, e.g. 200 ug: it is compared in that unit.
struct Intake {
    Decimal amount;
    std::string unit; ///< "ug", "mg" or "g"
    double mg_per_unit = 1.0;
};

/// A threshold for daily doses up to a limit; the lower of `percent` and `intake` counts.
struct DoseBand {
    std::optional<double> up_to_mg; ///< of the declared compound a day; none: any dose
    bool inclusive = true;          ///< the dose `up_to_mg` itself belongs to the band
    Decimal percent;
    std::optional<Intake> intake;
};

/// One threshold over all doses: bands in ascending order, the last without an upper end.
using DoseBands = std::vector<DoseBand>;

/// Most per cent of a named impurity.
struct SpecifiedLimit {
    std::string compound;
    Decimal percent;
};

/// What the separation itself has to show.
struct Suitability {
    std::optional<double> resolution_at_least; ///< of the declared compound's peak from the nearest
    std::optional<double> symmetry_from;
    std::optional<double> symmetry_to;
    std::optional<double> plate_number_at_least;
};

/// What a sample is judged by. Whatever is empty is not judged.
struct Rules {
    std::string name;
    std::string source;
    DoseBands reporting;      ///< above: counts as an impurity
    DoseBands identification; ///< above: its structure has to be known
    DoseBands qualification;  ///< above: its safety has to be known
    std::vector<SpecifiedLimit> specified;
    std::optional<Decimal> any_other; ///< of an impurity that is not specified
    std::optional<Decimal> total;
    std::optional<Decimal> declared_at_least;
    Suitability suitability;
};

/// Whether any threshold depends on the dose.
[[nodiscard]] bool needs_dose(const Rules &rules);

/// The band of a daily dose in mg; null where there are no bands. Without a dose there must be one
/// band at most.
[[nodiscard]] const DoseBand *band_for(const DoseBands &bands, std::optional<double> dose_mg);

/// How much of an impurity a daily dose holds, in the unit of `intake`.
[[nodiscard]] double intake_of(double percent, double dose_mg, const Intake &intake);

/// Whether the intake of a band is lower than its per cent at this dose.
[[nodiscard]] bool intake_counts(const DoseBand &band, std::optional<double> dose_mg);

/// Whether an impurity of `reported` per cent exceeds the threshold: the lower of its per cent and
/// its daily intake, each rounded as the threshold is written (ICH Q3A(R2) and Q3B(R2), attachments
/// 1 and 2). A band with an intake needs the dose.
[[nodiscard]] bool exceeds(const Decimal &reported, const DoseBand &band,
                           std::optional<double> dose_mg);

/// The threshold that counts at this dose, e.g. "0.10 %" or "1.0 mg a day".
[[nodiscard]] std::string to_text(const DoseBand &band, std::optional<double> dose_mg);

} // namespace cospot::purity
