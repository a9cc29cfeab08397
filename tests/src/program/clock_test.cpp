// A clock that was set back: what counts is the order of changes, not their dates.
#include "library_state.h"
#include "program_fixture.h"

#include "../../library/sample_library.h"

#include <algorithm>

namespace cospot {
namespace {

class ClockTest : public ProgramTest {
protected:
    ClockTest() {
        const Outcome learned =
            cospot({"learn", "--create-systems",
                    file("v.csv", "compound,smiles,system,quantity,value,run\n"
                                  "ethanol,CCO,s,Rf,0.30,r1\nethanol,CCO,s,Rf,0.32,r2\n"
                                  "phenol,Oc1ccccc1,s,Rf,0.50,r1\n")});
        EXPECT_EQ(learned.code, kDone) << learned.err;
        from_the_future();
    }

    /// All that happened so far was done while the clock was far ahead.
    void from_the_future() const {
        library::open_library(library_, library::Access::write)
            .execute("UPDATE change SET at_utc = '2099-12-31T23:59:59Z'");
    }

    [[nodiscard]] std::vector<double> values_of_ethanol() const {
        std::vector<double> values;
        for (const auto &line : cospot({"--json", "show", "ethanol"}).lines()) {
            if (line.contains("value")) {
                values.push_back(line["value"]);
            }
        }
        std::sort(values.begin(), values.end());
        return values;
    }

    Outcome correct(const std::string &value) const {
        return cospot({"learn", "--correct",
                       file("c" + value + ".csv", "compound,smiles,system,quantity,value,run\n"
                                                  "ethanol,,s,Rf," +
                                                      value + ",r1\n")});
    }

    const std::filesystem::path library_ = folder_ / "library.db";
};

TEST_F(ClockTest, TheLastCorrectionCounts) {
    ASSERT_EQ(correct("0.35").code, kDone);
    EXPECT_EQ(values_of_ethanol(), (std::vector<double>{0.32, 0.35}));
    from_the_future();
    ASSERT_EQ(correct("0.36").code, kDone);
    EXPECT_EQ(values_of_ethanol(), (std::vector<double>{0.32, 0.36}));
    EXPECT_EQ(cospot({"--json", "show", "ethanol", "--all"}).lines().size(),
              1U + 2U + 2U); // the compound, what holds and what was superseded
}

TEST_F(ClockTest, RetiringAndTakingBackAreInTheOrderInWhichTheyWereDone) {
    ASSERT_EQ(cospot({"retire", "--value", "1", "--reason", "wrong label"}).code, kDone);
    EXPECT_EQ(values_of_ethanol(), (std::vector<double>{0.32}));
    from_the_future();
    ASSERT_EQ(cospot({"retire", "--undo", "--value", "1", "--reason", "right label"}).code, kDone);
    EXPECT_EQ(values_of_ethanol(), (std::vector<double>{0.30, 0.32}));
    from_the_future();
    ASSERT_EQ(cospot({"retire", "--system", "s", "--reason", "bottle"}).code, kDone);
    from_the_future();
    ASSERT_EQ(cospot({"retire", "--undo", "--system", "s", "--reason", "right"}).code, kDone);
    EXPECT_EQ(values_of_ethanol(), (std::vector<double>{0.30, 0.32}));
    EXPECT_EQ(number_in(library_, "SELECT count(*) FROM change"), 5); // none is lost
}

TEST_F(ClockTest, AMergeKeepsWhenThingsWereDone) {
    const std::string other = (folder_ / "other.db").string();
    ASSERT_EQ(cospot({"backup", other}).code, kDone);
    ASSERT_EQ(cospot({"--library", other, "retire", "--value", "1", "--reason", "wrong"}).code,
              kDone);
    ASSERT_EQ(cospot({"--library", other, "learn",
                      file("w.csv", "compound,smiles,system,quantity,value,run\n"
                                    "ethanol,CCO,s,Rf,0.34,r3\n")})
                  .code,
              kDone);
    EXPECT_NE(cospot({"merge", other}).code, kBadInput);
    EXPECT_EQ(values_of_ethanol(), (std::vector<double>{0.30, 0.32, 0.34}));
    EXPECT_EQ(integrity_of(library_), "ok");
}

TEST_F(ClockTest, BackupsOfOneSecondAreKeptApart) {
    const std::filesystem::path old = folder_ / "old.db";
    for (int i = 0; i < 3; ++i) {
        library::create_filled_format_1(old);
        EXPECT_EQ(cospot({"--library", old.string(), "list"}).code, kDone);
        std::filesystem::remove(old);
    }
    for (const char *name :
         {"old.db.format-1.backup", "old.db.format-1.2.backup", "old.db.format-1.3.backup"}) {
        EXPECT_EQ(values_in(folder_ / name), 1) << name;
    }
}

} // namespace
} // namespace cospot
