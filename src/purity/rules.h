#pragma once

#include "readers/purity_rules.h"

#include <optional>
#include <string>

namespace cospot::purity {

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
