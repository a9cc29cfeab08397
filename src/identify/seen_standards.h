#pragma once

#include "document/document.h"
#include "identify/overview.h"

#include <optional>
#include <span>
#include <string>

namespace cospot {

/// Which of the compounds that were spotted on the plate are seen in the lane of a sample, which
/// may be, and which are not: one sentence. Empty where the sample lies on no plate, or no standard
/// on its plate.
[[nodiscard]] std::string seen_standards_words(const AnsweredSample &sample);

/// These sentences of all samples, with what "not seen" does not mean; nothing where there is none.
[[nodiscard]] std::optional<Section>
seen_standards_section(std::span<const AnsweredSample> samples);

/// What "not seen" does not mean.
inline constexpr const char *kNotSeenIsNotGone = "Not seen does not mean that nothing is left: a "
                                                 "spot may be too weak, hidden under another one, "
                                                 "or not shown by this lamp or stain.";

} // namespace cospot
