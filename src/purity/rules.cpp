#include "purity/rules.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot::purity {

namespace {

bool depends_on_dose(const DoseBands &bands) {
    return bands.size() > 1 || std::any_of(bands.begin(), bands.end(), [](const DoseBand &band) {
               return band.intake.has_value();
           });
}

bool holds(const DoseBand &band, double dose_mg) {
    return !band.up_to_mg || dose_mg < *band.up_to_mg ||
           (band.inclusive && dose_mg == *band.up_to_mg);
}

} // namespace

bool needs_dose(const Rules &rules) {
    return depends_on_dose(rules.reporting) || depends_on_dose(rules.identification) ||
           depends_on_dose(rules.qualification);
}

const DoseBand *band_for(const DoseBands &bands, std::optional<double> dose_mg) {
    if (bands.empty()) {
        return nullptr;
    }
    const auto band = std::find_if(bands.begin(), bands.end(), [&](const DoseBand &one) {
        return !dose_mg || holds(one, *dose_mg);
    });
    return band != bands.end() ? &*band : &bands.back();
}

double intake_of(double percent, double dose_mg, const Intake &intake) {
    return percent / 100.0 * dose_mg / intake.mg_per_unit;
}

bool intake_counts(const DoseBand &band, std::optional<double> dose_mg) {
    return band.intake && dose_mg &&
           band.intake->amount.value < intake_of(band.percent.value, *dose_mg, *band.intake);
}

bool exceeds(const Decimal &reported, const DoseBand &band, std::optional<double> dose_mg) {
    return intake_counts(band, dose_mg)
               ? exceeds(intake_of(reported.value, *dose_mg, *band.intake), band.intake->amount)
               : exceeds(reported.value, band.percent);
}

std::string to_text(const DoseBand &band, std::optional<double> dose_mg) {
    return intake_counts(band, dose_mg)
               ? fmt::format("{} {} a day", to_text(band.intake->amount), band.intake->unit)
               : to_text(band.percent) + " %";
}

} // namespace cospot::purity
