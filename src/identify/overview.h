#pragma once

#include "document/document.h"
#include "identify/identify_result.h"

#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace cospot {

/// The features of one lane or sample: neighbours in the result.
struct AnsweredSample {
    std::size_t first = 0; ///< position of its first feature, from 1
    std::span<const AnsweredFeature> features;
};

[[nodiscard]] std::vector<AnsweredSample>
answered_samples(std::span<const AnsweredFeature> features);

/// Where the links of the overview of samples lead when each has a section of its own.
[[nodiscard]] std::string sample_anchor(const AnsweredSample &sample);

/// One row a lane or sample: what each of its features most likely is, how sure the least sure of
/// these is, and what to look at. Links lead to the sections of samples, or of features.
[[nodiscard]] Table sample_overview(std::span<const AnsweredSample> samples,
                                    bool has_sample_sections);

/// What all features were seen on and as, where that is one system and quantity with one reading
/// each; else null.
[[nodiscard]] const FeatureObservation *
observation_in_common(std::span<const AnsweredFeature> features);

/// The peaks that were paired on two columns; no rows where none were.
[[nodiscard]] Table pair_overview(std::span<const AnsweredFeature> features);

/// One row a feature: its reading, what it most likely is, and how many warnings it has.
[[nodiscard]] Table feature_overview(std::span<const AnsweredFeature> features);

} // namespace cospot
