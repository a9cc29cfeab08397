#include "fractions/band_model.h"

#include "fractions/flash_columns.h"
#include "shared/error.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot::fractions {
namespace {

ColumnBelief cartridge(double silica_g) {
    StatedColumn stated;
    stated.silica_g = silica_g;
    return assumed_column(stated);
}

LoadedCompound compound_at(double rf) {
    LoadedCompound compound;
    compound.rf = rf;
    return compound;
}

// Worked by hand: 4 g of silica hold 6.4 mL, 8 mL lie outside; k 3 on the plate, 4.5 on the column.
TEST(BandModel, AddsOutsideVolumeOnceAndRetainsMoreThanThePlate) {
    EXPECT_NEAR(expected_band(cartridge(4.0), compound_at(0.25)).band.volume_ml, 8.0 + 6.4 * 5.5,
                1e-9);
    EXPECT_NEAR(cartridge(4.0).hold_up_ml(), 14.4, 1e-9);
    EXPECT_NEAR(expected_band(cartridge(4.0), compound_at(0.001)).band.volume_ml,
                8.0 + 6.4 * (1.0 + 1.5 * 999.0), 1e-6);
    // On a large column the volume outside hardly counts, on a small one it does.
    const double small = expected_band(cartridge(4.0), compound_at(0.8)).band.volume_ml / 4.0;
    const double large = expected_band(cartridge(400.0), compound_at(0.8)).band.volume_ml / 400.0;
    EXPECT_GT(small, 1.5 * large);
}

// still1978, Table I, read: eluent for packing and separation, for a product at R_F 0.35. The
// separation takes what packing leaves, about a column volume less (common practice, no source),
// and ends within the stated interval.
TEST(BandModel, IntervalHoldsWhatThePublishedTableNeeds) {
    for (const FlashColumn &row : flash_columns(kEasySeparation)) {
        StatedColumn stated;
        stated.bed = quantities::ColumnBed{row.diameter_mm, kFlashBed_mm};
        const ExpectedBand band = expected_band(assumed_column(stated), compound_at(0.35));
        const double silica_g = quantities::silica_mass_g(*stated.bed);
        const double needed = row.eluent_ml - quantities::hold_up_of_silica_ml(silica_g);
        EXPECT_TRUE(band.whole.holds(needed)) << row.diameter_mm << " mm: " << needed;
        EXPECT_LT(band.start_ml, needed) << row.diameter_mm;
    }
}

TEST(BandModel, WholeBandIsLessSureThanItsMiddle) {
    for (const double silica_g : {4.0, 25.0, 330.0}) {
        for (const double rf : {0.02, 0.2, 0.5, 0.9, 0.99}) {
            const ExpectedBand band = expected_band(cartridge(silica_g), compound_at(rf));
            EXPECT_TRUE(band.middle.holds(band.middle_ml()));
            EXPECT_TRUE(band.whole.holds(band.start_ml) && band.whole.holds(band.end_ml));
            EXPECT_LT(band.whole.low_ml, band.middle.low_ml);
            EXPECT_GT(band.whole.high_ml, band.middle.high_ml);
            EXPECT_GT(band.start_ml, 0.0);
            EXPECT_GT(band.end_ml - band.band.volume_ml, band.band.volume_ml - band.start_ml);
        }
    }
}

TEST(BandModel, RetainedCompoundsHaveWiderIntervals) {
    const ColumnBelief column = cartridge(40.0);
    const double held = expected_band(column, compound_at(0.2)).middle.factor();
    EXPECT_GT(held, 2.0); // 1/R_F with 150 plates said 1.16
    EXPECT_LT(expected_band(column, compound_at(0.97)).middle.factor(), held / 1.5);
    LoadedCompound unsure = compound_at(0.2);
    unsure.rf_spread = 0.08;
    EXPECT_GT(expected_band(column, unsure).middle.factor(), held);
}

TEST(BandModel, AMeasuredHoldUpVolumeNarrowsTheInterval) {
    StatedColumn stated;
    stated.silica_g = 4.0;
    stated.hold_up_ml = 14.4;
    const ColumnBelief column = assumed_column(stated);
    EXPECT_NEAR(column.hold_up_ml(), 14.4, 0.2);
    EXPECT_LT(expected_band(column, compound_at(0.95)).middle.factor(),
              expected_band(cartridge(4.0), compound_at(0.95)).middle.factor());
    stated.silica_g.reset();
    EXPECT_NEAR(assumed_column(stated).outside_ml(), 7.2, 0.1); // never more than half
    stated.hold_up_ml = 400.0;
    EXPECT_NEAR(assumed_column(stated).outside_ml(), kOutside_ml, 0.5);
    stated.outside_ml = 1.5;
    EXPECT_NEAR(assumed_column(stated).outside_ml(), 1.5, 0.05);
}

TEST(BandModel, LoadAndShortBedsWiden) {
    StatedColumn stated;
    stated.bed = quantities::ColumnBed{20.0, 150.0};
    const auto sigma = [&](double load_mg) {
        LoadedCompound compound = compound_at(0.3);
        compound.load_mg = load_mg;
        return expected_band(assumed_column(stated), compound).band.sigma_ml;
    };
    EXPECT_GT(sigma(800.0), 1.2 * sigma(100.0));
    const double usual = expected_band(assumed_column(stated), compound_at(0.3)).band.sigma_ml;
    EXPECT_NEAR(usual, sigma(17.0 * quantities::silica_mass_g(*stated.bed)), 1e-9);
    stated.plate_number = 30.0;
    EXPECT_GT(sigma(100.0), usual);
}

TEST(BandModel, AnEarlierRunOfTheCompoundSetsItsVolume) {
    const ExpectedBand again =
        expected_band(cartridge(4.0), compound_at(0.3), KnownMiddle{90.0, 1});
    EXPECT_NEAR(again.middle_ml(), 90.0, 2.0);
    EXPECT_LT(again.middle.factor(), 1.6);
    EXPECT_LT(expected_band(cartridge(4.0), compound_at(0.3), KnownMiddle{90.0, 5}).middle.factor(),
              again.middle.factor());
}

TEST(BandModel, RefusesWhatNoColumnIs) {
    EXPECT_THROW((void)assumed_column({}), InputError);
    EXPECT_THROW((void)cartridge(-1.0), InputError);
    StatedColumn stated;
    stated.hold_up_ml = 10.0;
    stated.outside_ml = 10.0;
    EXPECT_THROW((void)assumed_column(stated), InputError);
}

} // namespace
} // namespace cospot::fractions
