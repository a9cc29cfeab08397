#pragma once

#include "purity/judged_sample.h"
#include "readers/feature.h"

#include <functional>
#include <optional>
#include <span>
#include <string>

namespace cospot::purity {

/// The response of one compound relative to another on the system of the sample, where the library
/// holds it.
using RelativeResponse = std::function<std::optional<double>(const std::string &compound,
                                                             const std::string &relative_to)>;

/// Amount by comparison with a known amount in the same run (internal standard, Ph. Eur. 2.2.46):
/// ppm = ppm of the known * (area / area of the known) / response relative to it. All above 0, the
/// area from 0.
[[nodiscard]] double ppm_by_response(double area, double known_area, double known_ppm,
                                     double response);

/// Sets the ppm of every feature that has none of its own and whose likeliest compound has a
/// response factor relative to a standard of its own run with area and ppm. Throws InputError where
/// neither a feature has an amount, be it below a limit, nor a standard: area per cent is not ppm;
/// `file` is named then.
void set_ppm(JudgedSample &sample, std::span<const RunStandard> standards,
             const RelativeResponse &response_of, const std::string &file);

} // namespace cospot::purity
