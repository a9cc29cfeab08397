#include "evidence/fitted_system.h"

#include "../../library/sample_library.h"
#include "evidence/fit_bytes.h"
#include "library/fits.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdint>
#include <functional>
#include <optional>
#include <random>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

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

    [[nodiscard]] FitBytes fresh() {
        return to_bytes(fit_held(
            Quantity::Rf, library::values_on_system(library_.database, system_, Quantity::Rf)));
    }

    [[nodiscard]] std::optional<FitBytes> kept() {
        const auto fit = library::kept_fit(library_.database, system_, Quantity::Rf);
        if (!fit) {
            return std::nullopt;
        }
        FitBytes bytes;
        library::read_summary(library_.database, *fit,
                              [&](std::string_view found) { bytes.summary = found; });
        library::read_parts(library_.database, *fit, 0, 1000,
                            [&](std::string_view found) { bytes.parts.emplace_back(found); });
        return bytes;
    }

    void store(const FitBytes &bytes, std::int64_t version = kFitVersion) {
        library::Transaction transaction(library_.database);
        library::store_fit(library_.database, system_, Quantity::Rf, version, 36, bytes.summary,
                           bytes.parts);
        transaction.commit();
    }

    library::SampleLibrary library_;
    std::int64_t system_ = library_.system("silica", "hexane:ethyl acetate 1:1");
};

TEST_F(FittedSystems, KeptModelsAreThoseOfTheValues) {
    const FitBytes before = to_bytes(fitted_system(library_.database, system_, Quantity::Rf));
    EXPECT_FALSE(kept());
    keep_fits(library_.database);
    EXPECT_EQ(kept(), before);
    EXPECT_EQ(library::kept_fit(library_.database, system_, Quantity::Rf)->values, 36);
    EXPECT_EQ(to_bytes(fitted_system(library_.database, system_, Quantity::Rf)), before);
    EXPECT_EQ(fresh(), before);
}

TEST_F(FittedSystems, AreFittedAnewAfterAChange) {
    keep_fits(library_.database);
    const FitBytes before = to_bytes(fitted_system(library_.database, system_, Quantity::Rf));
    library_.value(1, system_, 0.5, "four");
    EXPECT_NE(to_bytes(fitted_system(library_.database, system_, Quantity::Rf)), before);
    EXPECT_EQ(to_bytes(fitted_system(library_.database, system_, Quantity::Rf)), fresh());
    keep_fits(library_.database);
    EXPECT_EQ(kept(), fresh());
}

TEST_F(FittedSystems, BytesThatCannotBeAModelDoNotCount) {
    const FitBytes sound = fresh();
    ASSERT_TRUE(summary_from_bytes(Quantity::Rf, sound.summary));
    std::vector<std::pair<std::string, FitBytes>> damaged;
    const auto damage = [&](const std::string &what, const std::function<void(FitBytes &)> &how) {
        damaged.emplace_back(what, sound);
        how(damaged.back().second);
    };
    damage("no summary", [](FitBytes &bytes) { bytes.summary.clear(); });
    damage("a byte short", [](FitBytes &bytes) { bytes.summary.pop_back(); });
    damage("a byte more", [](FitBytes &bytes) { bytes.summary += 'x'; });
    damage("of another machine", [](FitBytes &bytes) { ++bytes.summary.front(); });
    damage("too many candidates", [](FitBytes &bytes) { bytes.summary[8 + 6] = '\x7f'; });
    damage("a candidate more", [](FitBytes &bytes) { ++bytes.summary[8]; });
    damage("no candidates", [](FitBytes &bytes) { bytes.parts.clear(); });
    damage("a part short", [](FitBytes &bytes) { bytes.parts[0].pop_back(); });
    damage("one twice",
           [](FitBytes &bytes) { bytes.parts[0].replace(64, 64, bytes.parts[0].substr(0, 64)); });
    damage("no spread", [](FitBytes &bytes) { bytes.parts[0].replace(16, 8, 8, '\0'); });
    damage("at no end", [](FitBytes &bytes) { bytes.parts[0][60] = 3; });
    damage("in another order", [](FitBytes &bytes) {
        std::swap_ranges(bytes.parts[0].begin(), bytes.parts[0].begin() + 64,
                         bytes.parts[0].begin() + 64);
    });
    const std::string no_number("\xff\xff\xff\xff\xff\xff\xff\xff");
    damage("nowhere", [&](FitBytes &bytes) { bytes.parts[0].replace(8, 8, no_number); });
    damage("a mean that is no number",
           [&](FitBytes &bytes) { bytes.parts[0].replace(40, 8, no_number); });
    damage("a start that is no number", [&](FitBytes &bytes) {
        bytes.summary.replace(17 * 8, 8, no_number); // behind the head
    });
    for (const auto &[what, bytes] : damaged) {
        ASSERT_NE(bytes, sound) << what;
        store(bytes); // the library answers all the same
        EXPECT_EQ(to_bytes(fitted_system(library_.database, system_, Quantity::Rf)), sound) << what;
    }
}

TEST_F(FittedSystems, FitsOfAnotherVersionAreReplaced) {
    store({"old", {}}, kFitVersion - 1);
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
