#include "quantities/column_elution.h"

#include "quantities/domain.h"

#include <cmath>
#include <numbers>

namespace cospot::quantities {

double column_volumes(double rf) {
    require(rf > 0.0 && rf < 1.0, "an R_F", rf, "an R_F between 0 and 1, both excluded");
    return 1.0 / rf;
}

double bed_volume_ml(const ColumnBed &bed) {
    require(bed.diameter_mm > 0.0, "a column diameter", bed.diameter_mm, "a diameter above 0 mm");
    require(bed.height_mm > 0.0, "a bed height", bed.height_mm, "a height above 0 mm");
    constexpr double mm3_per_ml = 1000.0;
    return std::numbers::pi / 4.0 * bed.diameter_mm * bed.diameter_mm * bed.height_mm / mm3_per_ml;
}

double silica_mass_g(const ColumnBed &bed) {
    return kSilicaDensity_g_per_ml * bed_volume_ml(bed);
}

double hold_up_of_silica_ml(double silica_g) {
    require(silica_g > 0.0, "a mass of silica", silica_g, "a mass above 0 g");
    return kMobilePhaseShare / kSilicaDensity_g_per_ml * silica_g;
}

ElutedBand eluted_band(double column_volumes, double hold_up_ml, double plate_number,
                       double load_ml) {
    require(column_volumes > 0.0, "a number of column volumes", column_volumes, "a number above 0");
    require(hold_up_ml > 0.0, "a hold-up volume", hold_up_ml, "a volume above 0 mL");
    require(plate_number > 0.0, "a plate number", plate_number, "a plate number above 0");
    require(load_ml >= 0.0, "a loaded volume", load_ml, "a volume of 0 mL or more");
    const double volume = column_volumes * hold_up_ml;
    return {volume + load_ml / 2.0,
            std::sqrt(volume * volume / plate_number + load_ml * load_ml / 12.0)};
}

double overload_variance(double held_ml, double share) {
    require(held_ml >= 0.0, "a volume behind the hold-up", held_ml, "a volume of 0 mL or more");
    require(share >= 0.0 && share <= 1.0, "a share of the capacity", share, "a share from 0 to 1");
    return 6.0 / 16.0 * held_ml * held_ml * share;
}

double resolution(const ElutedBand &a, const ElutedBand &b) {
    require(a.sigma_ml > 0.0, "a standard deviation", a.sigma_ml, "a width above 0 mL");
    require(b.sigma_ml > 0.0, "a standard deviation", b.sigma_ml, "a width above 0 mL");
    return std::abs(b.volume_ml - a.volume_ml) / (2.0 * (a.sigma_ml + b.sigma_ml));
}

} // namespace cospot::quantities
