#include "fractions/band_model.h"

#include "quantities/domain.h"
#include "shared/error.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace cospot::fractions {

namespace {

double plate_k(double rf) {
    return 1.0 / rf - 1.0;
}

/// The retention factor of a compound whose R_F was misread by so much. A plate is read to a few
/// thousandths: start and front are never reached.
double misread_k(const LoadedCompound &compound, double off) {
    constexpr double nearest = 0.005;
    return plate_k(std::clamp(compound.rf + off, std::min(compound.rf, nearest),
                              std::max(compound.rf, 1.0 - nearest)));
}

/// Height of a bed of this mass, mm, with the assumed slenderness.
double bed_height_mm(double silica_g) {
    constexpr double mm3_per_ml = 1000.0;
    const double volume_mm3 = silica_g / quantities::kSilicaDensity_g_per_ml * mm3_per_ml;
    const double diameter = std::cbrt(4.0 * volume_mm3 / (std::numbers::pi * kBedSlenderness));
    return kBedSlenderness * diameter;
}

/// Lower triangle L of L L^T = covariance.
std::array<Unknowns, kUnknowns> triangle(const std::array<Unknowns, kUnknowns> &covariance) {
    std::array<Unknowns, kUnknowns> lower{};
    for (std::size_t i = 0; i < kUnknowns; ++i) {
        for (std::size_t j = 0; j <= i; ++j) {
            double rest = covariance[i][j];
            for (std::size_t k = 0; k < j; ++k) {
                rest -= lower[i][k] * lower[j][k];
            }
            lower[i][j] = i == j            ? std::sqrt(std::max(0.0, rest))
                          : lower[j][j] > 0 ? rest / lower[j][j]
                                            : 0.0;
        }
    }
    return lower;
}

/// Volume outside the bed: given, or assumed.
double outside_of(const StatedColumn &column) {
    if (column.outside_ml) {
        const double most = column.hold_up_ml.value_or(*column.outside_ml + 1.0);
        quantities::require(*column.outside_ml < most, "a volume outside the bed",
                            *column.outside_ml, "one below the hold-up volume");
        return *column.outside_ml;
    }
    return column.hold_up_ml ? std::min(kOutside_ml, *column.hold_up_ml / 2.0) : kOutside_ml;
}

/// How far ln V may lie below and above its expected value: independent causes, each at the two
/// ends of its own interval, their effects added in squares. The sides differ, as V is a sum of
/// volumes.
class Reach {
public:
    void add(double first, double second) {
        below_ += std::pow(std::min({0.0, first, second}), 2);
        above_ += std::pow(std::max({0.0, first, second}), 2);
    }
    [[nodiscard]] double below() const { return std::sqrt(below_); }
    [[nodiscard]] double above() const { return std::sqrt(above_); }

private:
    double below_ = 0.0;
    double above_ = 0.0;
};

Reach reach_of_maximum(const ColumnBelief &column, const LoadedCompound &compound) {
    const double k = plate_k(compound.rf);
    const double expected = std::log(maximum_ml(column.mean, k));
    const auto effect = [&](const Unknowns &unknowns, double of_k) {
        return std::log(maximum_ml(unknowns, of_k)) - expected;
    };
    Reach reach;
    const auto lower = triangle(column.covariance);
    for (std::size_t cause = 0; cause < kUnknowns; ++cause) {
        Unknowns less = column.mean;
        Unknowns more = column.mean;
        for (std::size_t i = 0; i < kUnknowns; ++i) {
            less[i] -= kIntervalReach * lower[i][cause];
            more[i] += kIntervalReach * lower[i][cause];
        }
        reach.add(effect(less, k), effect(more, k));
    }
    const double held = std::exp(kIntervalReach * kCompoundSpread * column.scatter);
    reach.add(effect(column.mean, k / held), effect(column.mean, k * held));
    const double misread = kIntervalReach * compound.rf_spread;
    reach.add(effect(column.mean, misread_k(compound, -misread)),
              effect(column.mean, misread_k(compound, misread)));
    const double run = kIntervalReach * std::sqrt(own_variance(column, compound).of_run);
    reach.add(-run, run);
    return reach;
}

Reach reach_of_known(const ColumnBelief &column, const LoadedCompound &compound, std::size_t runs) {
    Reach reach;
    const double run = kIntervalReach * std::sqrt(own_variance(column, compound).of_run *
                                                  (1.0 + 1.0 / static_cast<double>(runs)));
    reach.add(-run, run);
    return reach;
}

/// Standard deviation of the front half: plates, overload, mixing outside the bed, loaded volume.
double sigma_of(const ColumnBelief &column, const LoadedCompound &compound, double maximum) {
    const double load_mg = compound.load_mg.value_or(kUsualLoad_mg_per_g * column.silica_g);
    const double in_bed = std::max(maximum - column.outside_ml(), column.bed_ml());
    const double held = in_bed - column.bed_ml(); // t_0 k, as a volume
    const double overload = quantities::overload_variance(
        held, std::min(1.0, load_mg / (kCapacity_mg_per_g * column.silica_g)));
    const double mixing = kMixingShare * column.outside_ml();
    const double plates =
        quantities::eluted_band(1.0, in_bed, column.plate_number, compound.load_ml).sigma_ml;
    return std::exp(column.ln_width) * std::sqrt(plates * plates + overload + mixing * mixing);
}

} // namespace

double ColumnBelief::bed_ml() const {
    return std::exp(mean[kBedHoldUp]);
}

double ColumnBelief::outside_ml() const {
    return std::exp(mean[kOutsideBed]);
}

double ColumnBelief::hold_up_ml() const {
    return bed_ml() + outside_ml();
}

double ColumnBelief::hold_ratio() const {
    return std::exp(mean[kHold]);
}

double ColumnBelief::spread(ColumnUnknown unknown) const {
    return std::sqrt(covariance[unknown][unknown]);
}

double Interval::factor() const {
    return std::sqrt(high_ml / low_ml);
}

double maximum_ml(const Unknowns &column, double plate_k) {
    return std::exp(column[kOutsideBed]) +
           std::exp(column[kBedHoldUp]) * (1.0 + std::exp(column[kHold]) * plate_k);
}

Unknowns slopes_of_maximum(const Unknowns &column, double plate_k) {
    const double volume = maximum_ml(column, plate_k);
    const double held = std::exp(column[kBedHoldUp] + column[kHold]) * plate_k;
    Unknowns slopes{};
    slopes[kBedHoldUp] = (std::exp(column[kBedHoldUp]) + held) / volume;
    slopes[kOutsideBed] = std::exp(column[kOutsideBed]) / volume;
    slopes[kHold] = held / volume;
    return slopes;
}

OwnVariance own_variance(const ColumnBelief &column, const LoadedCompound &compound) {
    const double k = plate_k(compound.rf);
    const double volume = maximum_ml(column.mean, k);
    const double held = slopes_of_maximum(column.mean, k)[kHold];
    const double low = misread_k(compound, -compound.rf_spread);
    const double high = misread_k(compound, compound.rf_spread);
    const double misread = std::log(low / high) / 2.0;
    const double start = kStartShare * column.outside_ml() / volume;
    const double squared = column.scatter * column.scatter;
    return {squared * held * held * kCompoundSpread * kCompoundSpread +
                held * held * misread * misread,
            squared * kRunSpread * kRunSpread + start * start};
}

void observe(ColumnBelief &column, const Unknowns &at, const Unknowns &slopes,
             double observed_less_expected, double variance) {
    Unknowns covariance_with{}; // of the unknowns with what was observed
    double surprise = observed_less_expected;
    double total = variance;
    for (std::size_t i = 0; i < kUnknowns; ++i) {
        for (std::size_t j = 0; j < kUnknowns; ++j) {
            covariance_with[i] += column.covariance[i][j] * slopes[j];
        }
        surprise -= slopes[i] * (column.mean[i] - at[i]);
    }
    for (std::size_t i = 0; i < kUnknowns; ++i) {
        total += slopes[i] * covariance_with[i];
    }
    for (std::size_t i = 0; i < kUnknowns; ++i) {
        column.mean[i] += covariance_with[i] / total * surprise;
        for (std::size_t j = 0; j < kUnknowns; ++j) {
            column.covariance[i][j] -= covariance_with[i] * covariance_with[j] / total;
        }
    }
}

ColumnBelief assumed_column(const StatedColumn &column) {
    if (!column.bed && !column.silica_g && !column.hold_up_ml) {
        throw InputError({}, "a column of unknown size", "its bed, silica or hold-up volume");
    }
    const auto require_above_0 = [](const std::optional<double> &value, const char *what) {
        quantities::require(value.value_or(1.0) > 0.0, what, value.value_or(1.0), "one above 0");
    };
    require_above_0(column.silica_g, "a mass of silica");
    require_above_0(column.hold_up_ml, "a hold-up volume");
    require_above_0(column.outside_ml, "a volume outside the bed");
    require_above_0(column.plate_number, "a plate number");

    ColumnBelief belief;
    const double outside = outside_of(column);
    const auto silica = column.bed ? quantities::silica_mass_g(*column.bed) : column.silica_g;
    const double bed =
        silica ? quantities::hold_up_of_silica_ml(*silica) : *column.hold_up_ml - outside;
    belief.silica_g = silica.value_or(bed / quantities::hold_up_of_silica_ml(1.0));
    belief.plate_number = column.plate_number.value_or(
        (column.bed ? column.bed->height_mm : bed_height_mm(belief.silica_g)) / kPlateHeight_mm);
    belief.mean = {std::log(bed), std::log(outside), std::log(kHoldRatio)};
    const Unknowns spreads{silica ? kBedSpread : kBedSpreadOfHoldUp,
                           column.outside_ml ? kMeasuredOutsideSpread : kOutsideSpread,
                           kHoldRatioSpread};
    for (std::size_t i = 0; i < kUnknowns; ++i) {
        belief.covariance[i][i] = spreads[i] * spreads[i];
    }
    if (column.hold_up_ml) {
        // An unretained compound (k = 0) was seen to leave there.
        const ColumnBelief before = belief;
        for (int round = 0; round < 4; ++round) {
            const Unknowns at = belief.mean;
            belief = before;
            observe(belief, at, slopes_of_maximum(at, 0.0),
                    std::log(*column.hold_up_ml / maximum_ml(at, 0.0)),
                    kHoldUpSpread * kHoldUpSpread);
        }
    }
    return belief;
}

ExpectedBand expected_band(const ColumnBelief &column, const LoadedCompound &compound,
                           const std::optional<KnownMiddle> &known) {
    ExpectedBand expected;
    double &maximum = expected.band.volume_ml;
    maximum = maximum_ml(column.mean, plate_k(compound.rf)) + compound.load_ml / 2.0;
    const auto place = [&] {
        expected.band.sigma_ml = sigma_of(column, compound, maximum);
        const double half = kBandSigmas * expected.band.sigma_ml;
        // Nothing leaves before half of the hold-up volume, the space between the grains.
        expected.start_ml = std::max(maximum - half, std::min(maximum, column.hold_up_ml() / 2.0));
        expected.end_ml = maximum + column.tailing * half;
    };
    place();
    if (known) {
        maximum *= known->volume_ml / expected.middle_ml();
        place();
    }
    const Reach reach =
        known ? reach_of_known(column, compound, known->runs) : reach_of_maximum(column, compound);
    expected.middle = {expected.middle_ml() * std::exp(-reach.below()),
                       expected.middle_ml() * std::exp(reach.above())};
    // A width that is off by a factor moves the ends by its share of their distance.
    const double wider = kIntervalReach * std::hypot(column.width_spread, kBandWidthSpread);
    const double of_start = wider * (maximum - expected.start_ml) / expected.start_ml;
    const double of_end = wider * (expected.end_ml - maximum) / expected.end_ml;
    expected.whole = {expected.start_ml * std::exp(-std::hypot(reach.below(), of_start)),
                      expected.end_ml * std::exp(std::hypot(reach.above(), of_end))};
    return expected;
}

} // namespace cospot::fractions
