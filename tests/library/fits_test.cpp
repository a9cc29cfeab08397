#include "library/fits.h"

#include "library/corrections.h"
#include "library/retire.h"
#include "sample_library.h"

#include <gtest/gtest.h>

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace cospot::library {
namespace {

class Fits : public testing::Test {
protected:
    void keep(const std::string &bytes) {
        Transaction transaction(library_.database);
        store_fit(library_.database, system_, Quantity::Rf, 7, 1, bytes);
        store_fit(library_.database, other_, Quantity::Rf, 7, 1, "of the other");
        transaction.commit();
    }

    std::optional<std::string> kept(std::int64_t system, Quantity quantity = Quantity::Rf,
                                    std::int64_t version = 7) {
        std::optional<std::string> bytes;
        read_fit(library_.database, system, quantity, version,
                 [&](std::string_view found) { bytes = found; });
        return bytes;
    }

    SampleLibrary library_;
    std::int64_t compound_ = library_.compound('A', "alpha");
    std::int64_t system_ = library_.system("silica", "hexane:ethyl acetate 1:1");
    std::int64_t other_ = library_.system("alumina", "hexane:ethyl acetate 1:1");
    std::int64_t value_ = library_.value(compound_, system_, 0.4, "first run");
};

TEST_F(Fits, AreKeptByteForByteAndReplaced) {
    EXPECT_FALSE(kept(system_));
    keep(std::string("a\0b", 3));
    EXPECT_EQ(kept(system_), std::string("a\0b", 3));
    keep("c");
    EXPECT_EQ(kept(system_), "c");
    ASSERT_TRUE(kept_fit(library_.database, system_, Quantity::Rf));
    EXPECT_EQ(kept_fit(library_.database, system_, Quantity::Rf)->version, 7);
    EXPECT_EQ(kept_fit(library_.database, system_, Quantity::Rf)->values, 1);
    EXPECT_FALSE(kept(system_, Quantity::Rf, 8)); // of another version
    EXPECT_FALSE(kept(system_, Quantity::RI));
}

TEST_F(Fits, VanishWithWhateverChangesAValueOfTheSystem) {
    const std::vector<std::pair<std::string, std::function<void()>>> changes{
        {"a new value", [&] { library_.value(compound_, system_, 0.41, "second run"); }},
        {"a value is retired", [&] { retire_values(library_.database, {value_}, "spilt"); }},
        {"and taken back", [&] { take_back_values(library_.database, {value_}, "it was not"); }},
        {"the system is retired", [&] { retire_system(library_.database, "silica", "old"); }},
        {"and taken back", [&] { take_back_system(library_.database, "silica", "in use"); }},
        {"a run gets its date",
         [&] { library_.database.execute("UPDATE run SET date = '2026-01-31'"); }},
        {"somebody deletes a value by hand",
         [&] { library_.database.execute("DELETE FROM measurement WHERE value = 0.41"); }}};
    for (const auto &[what, change] : changes) {
        keep("a model");
        change();
        EXPECT_FALSE(kept(system_)) << what;
        EXPECT_TRUE(what == "a run gets its date" || kept(other_).has_value()) << what;
    }
}

} // namespace
} // namespace cospot::library
