#pragma once

#include "advise/information.h"
#include "evidence/further_evidence.h"
#include "library/ids.h"
#include "model/matcher/system_model.h"
#include "quantities/stains.h"

#include <optional>
#include <span>
#include <vector>

namespace cospot {

/// What further measurements would show of the candidates of a feature, and of an unlisted
/// compound, which is the last hypothesis everywhere. A candidate of which nothing is known counts
/// like an unlisted one.
struct Outlook {
    std::vector<Forecast> forecasts;
    std::size_t known = 0; ///< candidates of which something is known
};

/// On another system, in a run of its own. `compounds` are ids of the library, empty for a
/// candidate that it does not hold.
[[nodiscard]] Outlook outlook_on(const matcher::SystemModel &model,
                                 std::span<const std::optional<library::CompoundId>> compounds);

/// Together with the standard of one candidate, in the same lane or injection: by how much the
/// feature and the standard differ, on the model scale, where what runs have in common cancels.
/// Nothing where the system does not hold the standard, or shows it at the start or front only.
[[nodiscard]] std::optional<Outlook>
outlook_beside(const matcher::SystemModel &model,
               std::span<const std::optional<library::CompoundId>> compounds, std::size_t standard);

/// Probabilities of being seen and not seen with a reagent or lamp, by hypothesis; for those of
/// whom no groups are known, and for unlisted, the mean over `library`.
[[nodiscard]] std::vector<std::vector<double>>
stain_likelihoods(const Stain &stain, std::span<const CompoundTraits> candidates,
                  std::span<const CompoundTraits> library);

/// Probabilities of the nominal masses that the candidates have, and of any other, by hypothesis.
/// One mass in a hundred is wrong (`kOtherTechniqueErrs`).
[[nodiscard]] std::vector<std::vector<double>>
mass_likelihoods(std::span<const CompoundTraits> candidates,
                 std::span<const CompoundTraits> library);

} // namespace cospot
