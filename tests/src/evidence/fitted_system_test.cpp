#include "evidence/fitted_system.h"

#include "../../library/sample_library.h"
#include "evidence/fit_bytes.h"
#include "library/fits.h"

#include <gtest/gtest.h>

#include <optional>
#include <random>
#include <string>
#include <string_view>

namespace cospot {
namespace {

/// Twelve compounds in three runs on a plate; two of them stay at an end.
class FittedSystems : public testing::Test {
protected:
    FittedSystems() {
        std::mt19937 engine(5);
        std::normal_distribution<double> scatter(0.0, 0.01);
        for (char letter = 'A'; letter <= 'L'; ++letter) {
            const std::int64_t compound = library_.compound(letter, std::string(1, letter));
            for (const char *run : {"one", "two", "three"}) {
                const double rf = letter == 'A'   ? 0.0
                                  : letter == 'L' ? 1.0
                                                  : 0.07 * (letter - 'A') + scatter(engine);
                library_.value(compound, system_, rf, run);
            }
        }
    }

    [[nodiscard]] std::string fresh() {
        return to_bytes(fit_held(
            Quantity::Rf, library::values_on_system(library_.database, system_, Quantity::Rf)));
    }

    [[nodiscard]] std::optional<std::string> kept() {
        std::optional<std::string> bytes;
        library::read_fit(library_.database, system_, Quantity::Rf, kFitVersion,
                          [&](std::string_view found) { bytes = found; });
        return bytes;
    }

    library::SampleLibrary library_;
    std::int64_t system_ = library_.system("silica", "hexane:ethyl acetate 1:1");
};

TEST_F(FittedSystems, KeptModelsAreThoseOfTheValues) {
    const std::string before = to_bytes(fitted_system(library_.database, system_, Quantity::Rf));
    EXPECT_FALSE(kept());
    keep_fits(library_.database);
    EXPECT_EQ(kept(), before);
    EXPECT_EQ(library::kept_fit(library_.database, system_, Quantity::Rf)->values, 36);
    EXPECT_EQ(to_bytes(fitted_system(library_.database, system_, Quantity::Rf)), before);
    EXPECT_EQ(fresh(), before);
}

TEST_F(FittedSystems, AreFittedAnewAfterAChange) {
    keep_fits(library_.database);
    const std::string before = to_bytes(fitted_system(library_.database, system_, Quantity::Rf));
    library_.value(1, system_, 0.5, "four");
    EXPECT_NE(to_bytes(fitted_system(library_.database, system_, Quantity::Rf)), before);
    EXPECT_EQ(to_bytes(fitted_system(library_.database, system_, Quantity::Rf)), fresh());
    keep_fits(library_.database);
    EXPECT_EQ(kept(), fresh());
}

TEST_F(FittedSystems, BytesThatCannotBeAModelDoNotCount) {
    const std::string bytes = fresh();
    EXPECT_TRUE(model_from_bytes(Quantity::Rf, bytes));
    EXPECT_FALSE(model_from_bytes(Quantity::Rf, ""));
    EXPECT_FALSE(model_from_bytes(Quantity::Rf, bytes.substr(0, bytes.size() - 1)));
    EXPECT_FALSE(model_from_bytes(Quantity::Rf, bytes + "x"));
    std::string other_order = bytes;
    ++other_order.front();
    EXPECT_FALSE(model_from_bytes(Quantity::Rf, other_order));
    std::string too_many = bytes;
    too_many[8 + 6] = '\x7f'; // in the number of candidates
    EXPECT_FALSE(model_from_bytes(Quantity::Rf, too_many));
    std::string astray = bytes;
    const std::size_t order = 112 + 12 * 64; // behind the head and twelve compounds
    astray.replace(order, 4, "\xff\xff\xff\xff");
    EXPECT_FALSE(model_from_bytes(Quantity::Rf, astray));
    // The library answers all the same.
    library::Transaction transaction(library_.database);
    library::store_fit(library_.database, system_, Quantity::Rf, kFitVersion, 36, too_many);
    transaction.commit();
    EXPECT_EQ(to_bytes(fitted_system(library_.database, system_, Quantity::Rf)), bytes);
}

TEST_F(FittedSystems, FitsOfAnotherVersionAreReplaced) {
    {
        library::Transaction transaction(library_.database);
        library::store_fit(library_.database, system_, Quantity::Rf, kFitVersion - 1, 36, "old");
        transaction.commit();
    }
    EXPECT_EQ(to_bytes(fitted_system(library_.database, system_, Quantity::Rf)), fresh());
    keep_fits(library_.database);
    EXPECT_EQ(kept(), fresh());
}

TEST_F(FittedSystems, WhatCannotBeKeptIsDoneWithout) {
    library::Database reader(library_.file, library::Access::read);
    EXPECT_NO_THROW(keep_fits(reader));
    EXPECT_FALSE(kept());
}

TEST_F(FittedSystems, AnEmptySystemHasNoCandidates) {
    EXPECT_TRUE(fitted_system(library_.database, system_, Quantity::RI).candidates.empty());
}

} // namespace
} // namespace cospot
