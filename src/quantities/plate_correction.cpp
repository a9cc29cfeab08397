#include "quantities/plate_correction.h"

#include "quantities/domain.h"

#include <algorithm>
#include <cmath>

namespace cospot::quantities {

namespace {

void check_reference(const PlateReference &reference) {
    const auto check = [&](const Uncertain &rf, std::string_view kind) {
        require(rf.value > 0.0 && rf.value < 1.0,
                fmt::format("{} R_F for {}", kind, reference.compound), rf.value,
                "a reference between start and front (R_F between 0 and 1, both excluded)");
        require(rf.standard_uncertainty >= 0.0,
                fmt::format("an uncertainty of the {} R_F for {}", kind, reference.compound),
                rf.standard_uncertainty, "an uncertainty of 0 or more");
    };
    check(reference.measured_rf, "measured");
    check(reference.reference_rf, "reference");
}

void check_order(const PlateReference &lower, const PlateReference &upper) {
    if (lower.measured_rf.value == upper.measured_rf.value) {
        throw InputError({},
                         fmt::format("{} and {} at the same measured R_F of {}", lower.compound,
                                     upper.compound, exact_text(lower.measured_rf.value)),
                         "references that are apart on the plate");
    }
    if (lower.reference_rf.value >= upper.reference_rf.value) {
        throw InputError(
            {},
            fmt::format("{} measured below {} (R_F {} and {}), but with reference values {} and {}",
                        lower.compound, upper.compound, exact_text(lower.measured_rf.value),
                        exact_text(upper.measured_rf.value), exact_text(lower.reference_rf.value),
                        exact_text(upper.reference_rf.value)),
            "reference values that rise with the measured ones");
    }
}

} // namespace

std::vector<PlateReference> ordered_references(std::vector<PlateReference> references) {
    std::for_each(references.begin(), references.end(), check_reference);
    std::stable_sort(references.begin(), references.end(),
                     [](const PlateReference &a, const PlateReference &b) {
                         return a.measured_rf.value < b.measured_rf.value;
                     });
    for (std::size_t i = 1; i < references.size(); ++i) {
        check_order(references[i - 1], references[i]);
    }
    return references;
}

Uncertain corrected_rf(const std::vector<PlateReference> &ordered, Uncertain measured) {
    require(measured.value >= 0.0 && measured.value <= 1.0, "an R_F", measured.value,
            "an R_F from 0 to 1");
    require(measured.standard_uncertainty >= 0.0, "an uncertainty", measured.standard_uncertainty,
            "an uncertainty of 0 or more");
    const auto next = std::upper_bound(ordered.begin(), ordered.end(), measured.value,
                                       [](double rf, const PlateReference &reference) {
                                           return rf < reference.measured_rf.value;
                                       });
    const PlateReference start{"start", {0.0, 0.0}, {0.0, 0.0}};
    const PlateReference front{"front", {1.0, 0.0}, {1.0, 0.0}};
    const PlateReference &lower = next == ordered.begin() ? start : *(next - 1);
    const PlateReference &upper = next == ordered.end() ? front : *next;

    const double width = upper.measured_rf.value - lower.measured_rf.value;
    const double slope = (upper.reference_rf.value - lower.reference_rf.value) / width;
    const double share = (measured.value - lower.measured_rf.value) / width;
    const double terms[] = {slope * measured.standard_uncertainty,
                            slope * (1.0 - share) * lower.measured_rf.standard_uncertainty,
                            slope * share * upper.measured_rf.standard_uncertainty,
                            (1.0 - share) * lower.reference_rf.standard_uncertainty,
                            share * upper.reference_rf.standard_uncertainty};
    double variance = 0.0;
    for (const double term : terms) {
        variance += term * term;
    }
    return {std::lerp(lower.reference_rf.value, upper.reference_rf.value, share),
            std::sqrt(variance)};
}

} // namespace cospot::quantities
