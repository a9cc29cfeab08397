#include "library/predictions.h"

#include "library/retire.h"
#include "sample_library.h"

#include <gtest/gtest.h>

#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace cospot::library {
namespace {

class Predictions : public testing::Test {
protected:
    /// A fit of the first two systems, and one of a third.
    void keep() {
        Transaction transaction(library_.database);
        store_features(library_.database, compound_, "features");
        const std::vector<SystemId> family{silica_, weaker_};
        store_prediction_fit(library_.database, family, Quantity::Rf, "a fit");
        const std::vector<SystemId> alone{other_};
        store_prediction_fit(library_.database, alone, Quantity::Rf, "of the other");
        transaction.commit();
    }

    std::optional<std::string> kept(SystemId system, Quantity quantity = Quantity::Rf) {
        return kept_prediction_fit(library_.database, system, quantity);
    }

    std::int64_t rows_in(const std::string &table) {
        Statement query = library_.database.prepare("SELECT count(*) FROM " + table);
        return query.step() ? query.integer(0) : -1;
    }

    SampleLibrary library_;
    CompoundId compound_ = library_.compound('A', "alpha");
    SystemId silica_ = library_.system("silica", "hexane:ethyl acetate 1:1");
    SystemId weaker_ = library_.system("weaker", "hexane:ethyl acetate 9:1");
    SystemId other_ = library_.system("alumina", "hexane:ethyl acetate 1:1");
    MeasurementId value_ = library_.value(compound_, weaker_, 0.4, "first run");
};

TEST_F(Predictions, ReadBackByteForByteAndReplaceEarlierOnes) {
    EXPECT_FALSE(kept(silica_));
    EXPECT_FALSE(kept_features(library_.database, compound_));
    keep();
    const std::vector<SystemId> family{silica_, weaker_};
    const std::string bytes("a\0b", 3);
    store_features(library_.database, compound_, bytes);
    EXPECT_EQ(kept_features(library_.database, compound_), bytes);
    store_prediction_fit(library_.database, family, Quantity::Rf, bytes);
    EXPECT_EQ(kept(silica_), bytes);
    EXPECT_EQ(kept(weaker_), bytes);
    EXPECT_EQ(kept(other_), "of the other");
    EXPECT_EQ(rows_in("prediction_fit"), 2);
    EXPECT_EQ(rows_in("prediction_system"), 3);
    EXPECT_FALSE(kept(silica_, Quantity::k));
}

TEST_F(Predictions, AnyChangeToAValueOrStructureDeletesThem) {
    const std::vector<std::pair<std::string, std::function<void()>>> changes{
        {"a new value", [&] { library_.value(compound_, weaker_, 0.41, "second run"); }},
        {"a value is retired", [&] { retire_values(library_.database, {value_}, "spilt"); }},
        {"and taken back", [&] { take_back_values(library_.database, {value_}, "it was not"); }},
        {"a system is retired", [&] { retire_system(library_.database, "weaker", "old"); }},
        {"and taken back", [&] { take_back_system(library_.database, "weaker", "in use"); }},
        {"another eluent",
         [&] {
             library_.database.execute(
                 "UPDATE system SET mobile_phase = 'hexane' WHERE name = 'silica'");
         }},
        {"another structure",
         [&] { library_.database.execute("UPDATE compound SET smiles = 'CC'"); }},
        {"somebody deletes a value by hand",
         [&] { library_.database.execute("DELETE FROM measurement WHERE value = 0.41"); }}};
    for (const auto &[what, change] : changes) {
        keep();
        change();
        EXPECT_FALSE(kept(silica_)) << what;
        EXPECT_FALSE(kept(weaker_)) << what;
        EXPECT_EQ(kept(other_), "of the other") << what;
        EXPECT_EQ(rows_in("prediction_system"), 1) << what;
        EXPECT_EQ(kept_features(library_.database, compound_).has_value(),
                  what != "another structure")
            << what;
    }
}

} // namespace
} // namespace cospot::library
