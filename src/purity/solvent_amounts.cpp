#include "purity/solvent_amounts.h"

#include "shared/error.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace cospot::purity {

namespace {

/// Those of the run, or beside all of them.
std::vector<RunStandard> known_amounts(std::span<const RunStandard> standards,
                                       const std::string &run) {
    std::vector<RunStandard> known;
    for (const RunStandard &standard : standards) {
        if ((standard.run.empty() || standard.run == run) && standard.ppm.value_or(0.0) > 0.0 &&
            standard.area.value_or(0.0) > 0.0) {
            known.push_back(standard);
        }
    }
    return known;
}

} // namespace

double ppm_by_response(double area, double known_area, double known_ppm, double response) {
    return known_ppm * (area / known_area) / response;
}

void set_ppm(JudgedSample &sample, std::span<const RunStandard> standards,
             const RelativeResponse &response_of, const std::string &file) {
    const std::vector<RunStandard> known =
        known_amounts(standards, sample.features.front().feature.run);
    const bool any_given =
        std::any_of(sample.features.begin(), sample.features.end(), [](const JudgedFeature &one) {
            return one.feature.ppm.has_value() || one.feature.is_ppm_below;
        });
    if (!any_given && known.empty()) {
        throw InputError(
            {file, 0, "ppm"},
            fmt::format("no amounts of {}: area per cent is not ppm", in_quotes(sample.name)),
            "a column ppm with the mg of each solvent in a kg of the sample, from your "
            "calibration (--sample takes one sample of several, --blank a blank); or ppm and area "
            "of a peak with the role standard whose amount is known and whose column compound "
            "names it, with response factors in the library (learn "
            "a table compound,relative_to,system,response_factor)");
    }
    for (JudgedFeature &feature : sample.features) {
        feature.ppm = feature.feature.ppm;
        if (feature.ppm || feature.feature.is_ppm_below || feature.identity.is_unlisted ||
            !feature.area) {
            continue;
        }
        for (const RunStandard &standard : known) {
            const auto response = response_of(feature.identity.compound, standard.compound);
            if (response && !feature.ppm) {
                feature.ppm =
                    ppm_by_response(*feature.area, *standard.area, *standard.ppm, *response);
                feature.response_factor = *response;
                feature.response_is_held = true;
            }
        }
    }
}

} // namespace cospot::purity
