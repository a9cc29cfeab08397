#pragma once

#include "document/json.h"

#include <cstddef>
#include <string>
#include <vector>

namespace cospot {

/// What cannot be told apart, as one entry: a candidate, several, or `unlisted`.
struct Proposal {
    std::vector<std::string> names;
    double probability = 0.0;
    std::string basis;     ///< of the first name; empty for `unlisted`
    std::size_t first = 0; ///< where the candidate of the first name stands; the others follow it
    std::size_t more = 0;  ///< further names, which are not listed
};

/// The proposals of one object of `identify --json`, the likeliest first, `unlisted` among them.
/// Empty for a feature that nothing could be compared with.
[[nodiscard]] std::vector<Proposal> proposals_of(const Json &result);

[[nodiscard]] bool is_unlisted(const Proposal &proposal);

/// "a or b", with at most three names.
[[nodiscard]] std::string name_of(const Proposal &proposal);

/// "flask 1 / 2"; the feature alone where the sample has no name.
[[nodiscard]] std::string feature_name(const Json &result);

/// "Rf 0.39 ± 0.01 on silica-HEA41" of one of the result's observations.
[[nodiscard]] std::string observation_words(const Json &observation);

/// All that was observed of the feature, in words.
[[nodiscard]] std::string readings_of(const Json &result);

/// A value with the digits that its quantity deserves.
[[nodiscard]] std::string shown_value_of(const Json &quantity, double value);

/// "0.39 ± 0.01"; the value alone where the spread is 0.
[[nodiscard]] std::string shown_with_spread(const Json &quantity, double value, double spread);

} // namespace cospot
