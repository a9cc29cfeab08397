#include "evidence/fitted_system.h"

#include "../../library/sample_library.h"
#include "evidence/fit_bytes.h"
#include "library/fits.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdint>
#include <functional>
#include <limits>
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
            const auto compound = library_.compound(letter, std::string(1, letter));
            for (const char *run : {"one", "two", "three"}) {
                const double rf = letter == 'A'   ? 0.0
                                  : letter == 'L' ? 1.0
                                                  : 0.07 * (letter - 'A') + scatter(engine);
                library_.value(compound, system_, rf, run);
            }
        }
    }

    [[nodiscard]] FitBytes fresh() {
        return to_bytes(
            fit_held(Technique::tlc, Quantity::Rf,
                     library::values_on_system(library_.database, system_, Quantity::Rf)));
    }

    [[nodiscard]] std::optional<FitBytes> kept() {
        const auto fit = library::kept_fit(library_.database, system_, Quantity::Rf);
        if (!fit) {
            return std::nullopt;
        }
        FitBytes bytes;
        library::read_summary(library_.database, *fit, [&](std::string_view found) {
            bytes.summary = found.substr(sizeof(Fingerprint)); // its seal
        });
        library::read_parts(library_.database, *fit, 0, 1000,
                            [&](std::string_view found) { bytes.parts.emplace_back(found); });
        return bytes;
    }

    void store(const FitBytes &bytes, std::int64_t version = kFitVersion) {
        library::Transaction transaction(library_.database);
        library::store_fit(
            library_.database, system_, Quantity::Rf, version, 36,
            sealed(library::origin_of_fit(library_.database, system_, Quantity::Rf), bytes.summary),
            bytes.parts);
        transaction.commit();
    }

    library::SampleLibrary library_;
    library::SystemId system_ = library_.system("silica", "hexane:ethyl acetate 1:1");
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

TEST(FitBytes, KeepAgeTechniqueAndDisagreement) {
    const matcher::SystemModel model = matcher::fit_system(Technique::gc, Quantity::tR,
                                                           {{1, 1, true, 3.0, 0.0, 2024.5},
                                                            {1, 2, true, 9.0, 0.0, 2025.25},
                                                            {2, 1, true, 12.0, 0.0, 2024.5}});
    ASSERT_TRUE(model.candidates[0].disagrees);
    const FitBytes bytes = to_bytes(model);
    auto summary = summary_from_bytes(Quantity::tR, bytes.summary);
    ASSERT_TRUE(summary);
    std::vector<matcher::CandidateDensity> candidates;
    ASSERT_TRUE(take_part(*summary, 0, bytes.parts.at(0), candidates));
    const auto kept = model_from(std::move(*summary), candidates);
    ASSERT_TRUE(kept);
    EXPECT_EQ(kept->newest_year, 2025.25);
    EXPECT_EQ(kept->technique, Technique::gc);
    EXPECT_DOUBLE_EQ(kept->spread.assumed, 0.045); // half a per cent of the nine minutes
    EXPECT_TRUE(kept->candidates[0].disagrees);
    EXPECT_FALSE(kept->candidates[1].disagrees);
}

TEST_F(FittedSystems, AreFittedAnewAfterAChange) {
    keep_fits(library_.database);
    const FitBytes before = to_bytes(fitted_system(library_.database, system_, Quantity::Rf));
    library_.value(library::CompoundId{1}, system_, 0.5, "four");
    EXPECT_NE(to_bytes(fitted_system(library_.database, system_, Quantity::Rf)), before);
    EXPECT_EQ(to_bytes(fitted_system(library_.database, system_, Quantity::Rf)), fresh());
    keep_fits(library_.database);
    EXPECT_EQ(kept(), fresh());
}

TEST_F(FittedSystems, AFitOfAnotherSystemDoesNotCount) {
    const auto other = library_.system("alumina", "hexane:ethyl acetate 1:1");
    library_.value(library::CompoundId{1}, other, 0.9, "one");
    library_.value(library::CompoundId{2}, other, 0.8, "one");
    keep_fits(library_.database);
    library_.database.execute("PRAGMA foreign_keys = OFF; UPDATE fit SET system_id = -system_id");
    library_.database.execute(
        fmt::format("UPDATE fit SET system_id = CASE system_id WHEN -{0} THEN {1} "
                    "ELSE {0} END",
                    system_, other));
    EXPECT_EQ(to_bytes(fitted_system(library_.database, system_, Quantity::Rf)), fresh());
}

TEST_F(FittedSystems, AFitIsNotUsedWhereTheNumberOfValuesChanged) {
    keep_fits(library_.database);
    library_.database.execute("DROP TRIGGER fit_of_deleted_value");
    library_.database.execute("DELETE FROM measurement WHERE compound_id = 3");
    EXPECT_EQ(to_bytes(fitted_system(library_.database, system_, Quantity::Rf)), fresh());
}

TEST_F(FittedSystems, DamagedBytesDoNotCount) {
    const FitBytes sound = fresh();
    std::vector<std::pair<std::string, FitBytes>> damaged;
    const auto damage = [&](const std::string &what, const std::function<void(FitBytes &)> &how) {
        damaged.emplace_back(what, sound);
        how(damaged.back().second);
    };
    damage("no summary", [](FitBytes &bytes) { bytes.summary.clear(); });
    damage("a byte short", [](FitBytes &bytes) { bytes.summary.pop_back(); });
    damage("a byte more", [](FitBytes &bytes) { bytes.summary += 'x'; });
    for (std::size_t at = 0; at < sound.summary.size(); at += 7) {
        damage(fmt::format("byte {} of the summary", at),
               [&](FitBytes &bytes) { bytes.summary[at] ^= '\x10'; });
    }
    damage("no candidates", [](FitBytes &bytes) { bytes.parts.clear(); });
    damage("a part short", [](FitBytes &bytes) { bytes.parts[0].pop_back(); });
    damage("a part too many", [](FitBytes &bytes) { bytes.parts.push_back(bytes.parts[0]); });
    damage("a bit of a part", [](FitBytes &bytes) { bytes.parts[0][100] ^= '\x01'; });
    for (const auto &[what, bytes] : damaged) {
        ASSERT_NE(bytes, sound) << what;
        store(bytes); // the library answers all the same
        EXPECT_EQ(to_bytes(fitted_system(library_.database, system_, Quantity::Rf)), sound) << what;
    }
}

/// What no program wrote by accident.
TEST_F(FittedSystems, ImpossibleKeptModelsAreNotUsed) {
    constexpr double nan = std::numeric_limits<double>::quiet_NaN();
    constexpr double infinite = std::numeric_limits<double>::infinity();
    const matcher::SystemModel sound =
        fit_held(Technique::tlc, Quantity::Rf,
                 library::values_on_system(library_.database, system_, Quantity::Rf));
    using Change = std::function<void(matcher::SystemModel &)>;
    const std::vector<std::pair<std::string, Change>> changes{
        {"nowhere", [](auto &model) { model.candidates[3].location = nan; }},
        {"in another order", [](auto &model) { model.candidates[3].location = 99.0; }},
        {"one twice", [](auto &model) { model.candidates[3].compound = 3; }},
        {"no spread", [](auto &model) { model.candidates[3].scale = 0.0; }},
        {"endless spread", [](auto &model) { model.candidates[3].scale = infinite; }},
        {"too few degrees of freedom", [](auto &model) { model.candidates[3].freedom = 0.5; }},
        {"no constant", [](auto &model) { model.candidates[3].log_constant = nan; }},
        {"no mean", [](auto &model) { model.candidates[3].mean = infinite; }},
        {"at no end",
         [](auto &model) { model.candidates[3].always = static_cast<matcher::Censoring>(3); }},
        {"shifted endlessly", [](auto &model) { model.shift.mean = infinite; }},
        {"a negative variance", [](auto &model) { model.shift.variance = -1.0; }},
        {"a centre nowhere", [](auto &model) { model.unlisted.centres[0] = nan; }},
        {"ends exchanged",
         [](auto &model) { std::swap(model.unlisted.low, model.unlisted.high); }}};
    for (const auto &[what, change] : changes) {
        matcher::SystemModel crafted = sound;
        change(crafted);
        store(to_bytes(crafted));
        EXPECT_EQ(to_bytes(fitted_system(library_.database, system_, Quantity::Rf)),
                  to_bytes(sound))
            << what;
    }
}

TEST_F(FittedSystems, WhatIsMissingIsKeptAnew) {
    FitBytes bytes = fresh();
    bytes.parts.clear();
    store(bytes);
    keep_fits(library_.database);
    EXPECT_EQ(kept(), fresh());
    bytes = fresh();
    bytes.summary.pop_back();
    store(bytes);
    keep_fits(library_.database);
    EXPECT_EQ(kept(), fresh());
}

TEST_F(FittedSystems, FitsOfAnotherVersionAreReplaced) {
    store({"old", {}}, kFitVersion - 1);
    EXPECT_EQ(to_bytes(fitted_system(library_.database, system_, Quantity::Rf)), fresh());
    keep_fits(library_.database);
    EXPECT_EQ(kept(), fresh());
}

TEST_F(FittedSystems, AReadOnlyLibraryIsUsedWithoutKeepingFits) {
    library::Database reader(library_.file, library::Access::read);
    EXPECT_NO_THROW(keep_fits(reader));
    EXPECT_FALSE(kept());
}

TEST_F(FittedSystems, AnEmptySystemHasNoCandidates) {
    EXPECT_TRUE(fitted_system(library_.database, system_, Quantity::RI).candidates.empty());
}

} // namespace
} // namespace cospot
