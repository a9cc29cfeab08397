#include "library/column_runs.h"

#include "sample_library.h"

#include <gtest/gtest.h>

namespace cospot::library {
namespace {

PackedColumn invented_column(const std::string &name, std::optional<double> silica_g) {
    PackedColumn column;
    column.name = name;
    column.silica_g = silica_g;
    return column;
}

ColumnBand invented_band(const std::string &compound, double start_ml, double end_ml) {
    ColumnBand band;
    band.compound = compound;
    band.rf = 0.4;
    band.start_ml = start_ml;
    band.end_ml = end_ml;
    return band;
}

class ColumnRuns : public testing::Test {
protected:
    ColumnId add(const PackedColumn &column) {
        Transaction transaction(library_.database);
        const auto id = add_column(library_.database, column, change());
        transaction.commit();
        return id;
    }

    bool add(ColumnId column, const ColumnBand &band) {
        Transaction transaction(library_.database);
        const bool is_new = add_band(library_.database, column, band, change());
        transaction.commit();
        return is_new;
    }

    ChangeId change() { return begin_change(library_.database, "test", ""); }

    SampleLibrary library_;
};

TEST_F(ColumnRuns, ReadBackAsStoredAndAreStoredOnce) {
    const ColumnId id = add(invented_column("blue", 12.0));
    ColumnBand band = invented_band("alpha", 20.0, 30.0);
    band.peak_ml = 24.0;
    band.run = "r1";
    band.date = "2026-03-02";
    band.note = "odd";
    EXPECT_TRUE(add(id, band));
    EXPECT_FALSE(add(id, band));
    EXPECT_TRUE(add(id, invented_band("alpha", 20.0, 30.0)));
    const auto bands = bands_of_column(library_.database, id);
    ASSERT_EQ(bands.size(), 2U);
    EXPECT_EQ(bands[0].peak_ml, 24.0);
    EXPECT_EQ(bands[0].note, "odd");
    EXPECT_FALSE(bands[1].peak_ml);
    EXPECT_FALSE(bands[1].amount_mg);
    const auto found = find_column(library_.database, "BLUE");
    ASSERT_TRUE(found);
    EXPECT_EQ(found->name, "blue");
    EXPECT_TRUE(is_same_bed(*found, invented_column("x", 12.0)));
    EXPECT_FALSE(is_same_bed(*found, invented_column("x", 13.0)));
    EXPECT_FALSE(find_column(library_.database, "red"));
}

TEST_F(ColumnRuns, ImpossibleColumnsAndBandsAreNotStored) {
    EXPECT_ANY_THROW(add(invented_column("without size", std::nullopt)));
    const ColumnId id = add(invented_column("blue", 12.0));
    EXPECT_ANY_THROW(add(invented_column("Blue", 12.0)));
    EXPECT_ANY_THROW(add(id, invented_band("alpha", 30.0, 20.0)));
    ColumnBand outside = invented_band("alpha", 20.0, 30.0);
    outside.peak_ml = 40.0;
    EXPECT_ANY_THROW(add(id, outside));
    EXPECT_ANY_THROW(add(ColumnId{as_number(id) + 1}, invented_band("alpha", 20.0, 30.0)));
}

} // namespace
} // namespace cospot::library
