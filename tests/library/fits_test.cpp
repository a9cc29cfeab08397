#include "library/fits.h"

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
    void keep(const std::string &summary, const std::vector<std::string> &parts = {}) {
        Transaction transaction(library_.database);
        store_fit(library_.database, system_, Quantity::Rf, 7, 1, summary, parts);
        store_fit(library_.database, other_, Quantity::Rf, 7, 1, "of the other", {});
        transaction.commit();
    }

    std::optional<std::string> kept(SystemId system, Quantity quantity = Quantity::Rf) {
        std::optional<std::string> bytes;
        if (const auto fit = kept_fit(library_.database, system, quantity)) {
            read_summary(library_.database, *fit, [&](std::string_view found) { bytes = found; });
        }
        return bytes;
    }

    std::vector<std::string> parts(std::size_t first, std::size_t last) {
        std::vector<std::string> bytes;
        read_parts(library_.database, kept_fit(library_.database, system_, Quantity::Rf).value(),
                   first, last, [&](std::string_view found) { bytes.emplace_back(found); });
        return bytes;
    }

    /// Parts of any fit, also of ones that are gone.
    std::int64_t stored_parts() {
        Statement query = library_.database.prepare("SELECT count(*) FROM fit_part");
        return query.step() ? query.integer(0) : -1;
    }

    SampleLibrary library_;
    CompoundId compound_ = library_.compound('A', "alpha");
    SystemId system_ = library_.system("silica", "hexane:ethyl acetate 1:1");
    SystemId other_ = library_.system("alumina", "hexane:ethyl acetate 1:1");
    MeasurementId value_ = library_.value(compound_, system_, 0.4, "first run");
};

TEST_F(Fits, ReadBackByteForByteAndReplaceEarlierOnes) {
    EXPECT_FALSE(kept(system_));
    keep(std::string("a\0b", 3), {"one", std::string("t\0o", 3), "three"});
    EXPECT_EQ(kept(system_), std::string("a\0b", 3));
    EXPECT_EQ(parts(0, 2), (std::vector<std::string>{"one", std::string("t\0o", 3), "three"}));
    EXPECT_EQ(parts(1, 1), (std::vector<std::string>{std::string("t\0o", 3)}));
    EXPECT_EQ(parts(2, 9), (std::vector<std::string>{"three"}));
    keep("c", {"four"});
    EXPECT_EQ(kept(system_), "c");
    EXPECT_EQ(parts(0, 9), (std::vector<std::string>{"four"}));
    EXPECT_EQ(stored_parts(), 1);
    ASSERT_TRUE(kept_fit(library_.database, system_, Quantity::Rf));
    EXPECT_EQ(kept_fit(library_.database, system_, Quantity::Rf)->version, 7);
    EXPECT_EQ(kept_fit(library_.database, system_, Quantity::Rf)->values, 1);
    EXPECT_FALSE(kept(system_, Quantity::RI));
}

TEST_F(Fits, AnyChangeToASystemsValuesDeletesItsFit) {
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
        keep("a model", {"its", "parts"});
        change();
        EXPECT_FALSE(kept(system_)) << what;
        EXPECT_EQ(stored_parts(), 0) << what;
        EXPECT_TRUE(what == "a run gets its date" || kept(other_).has_value()) << what;
    }
}

} // namespace
} // namespace cospot::library
