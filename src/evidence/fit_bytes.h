#pragma once

#include "evidence/kept_bytes.h"
#include "model/matcher/nearby.h"
#include "model/matcher/system_model.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// Add one whenever the bytes change, or what `fit_system` makes of values, or how far candidates
/// reach (`matcher/nearby.h`, `retention_scale.h`): older bytes then do not count. Structures such
/// as `matcher::Reach` are stored as they lie in memory.
inline constexpr std::int64_t kFitVersion = 8;

/// So many candidates are a part, but for the last one: they just fit a page of the library.
inline constexpr std::size_t kCandidatesInPart = 63;

/// A fitted model as bytes that a library can keep.
struct FitBytes {
    std::string summary;            ///< all but the candidates
    std::vector<std::string> parts; ///< the candidates in the order of location

    bool operator==(const FitBytes &) const = default;
};

/// `model` must hold measured candidates only, and all of them, as `fit_system` makes them.
[[nodiscard]] FitBytes to_bytes(const matcher::SystemModel &model);

/// What holds for all of a model, and where its candidates are to be found.
struct FitSummary {
    matcher::SystemModel model;            ///< without candidates
    matcher::Reach reach;                  ///< of all of them
    std::size_t candidates = 0;            ///< how many there are
    std::vector<double> starts;            ///< location of the first candidate of each part
    std::vector<Fingerprint> fingerprints; ///< of the bytes of each part
};

/// The summary of a model of that quantity; none where the bytes come from a machine with another
/// order of bytes, or are damaged.
[[nodiscard]] std::optional<FitSummary> summary_from_bytes(Quantity quantity,
                                                           std::string_view bytes);

/// Adds the candidates of a part, whose number counts from 0; false where the bytes are not those
/// that belong there.
[[nodiscard]] bool take_part(const FitSummary &summary, std::size_t number, std::string_view part,
                             std::vector<matcher::CandidateDensity> &candidates);

/// The model with so many of its candidates, which are in the order of location; the very model
/// that `to_bytes` was given where they are all. None where they cannot be candidates.
[[nodiscard]] std::optional<matcher::SystemModel>
model_from(FitSummary summary, const std::vector<matcher::CandidateDensity> &candidates);

} // namespace cospot
