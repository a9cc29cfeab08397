#include "program_fixture.h"

#include "../../library/unprivileged.h"

namespace cospot {
namespace {

/// Invented values.
class HistoryTest : public ProgramTest {
protected:
    HistoryTest() {
        learned_ = file("v.csv", "compound,smiles,system,quantity,value,run\n"
                                 "ethanol,CCO,silica,Rf,0.30,p1\nethanol,CCO,silica,Rf,0.32,p2\n"
                                 "benzene,c1ccccc1,silica,Rf,0.80,p1\n");
        cospot({"learn", "--create-systems", learned_});
        cospot({"learn", "--create-systems",
                file("w.csv", "compound,smiles,system,quantity,value,run\n"
                              "benzene,,alumina,Rf,0.90,p3\n")});
    }

    std::vector<nlohmann::json> history(std::vector<std::string> arguments) const {
        arguments.insert(arguments.begin(), {"--json", "history"});
        const Outcome outcome = cospot(std::move(arguments));
        EXPECT_EQ(outcome.code, kDone) << outcome.err;
        return outcome.lines();
    }

    std::string learned_;
};

TEST_F(HistoryTest, SaysWhoWhenWhatAndByWhichCommandTheNewestFirst) {
    cospot({"retire", "--value", "1", "--reason", "plate ran askew"});
    const auto changes = history({});
    ASSERT_EQ(changes.size(), 3U);
    EXPECT_EQ(changes[0]["verb"], "retire");
    EXPECT_EQ(changes[0]["what"], "1 value withdrawn");
    EXPECT_EQ(changes[0]["command"], "retire --value 1 --reason 'plate ran askew'");
    EXPECT_EQ(changes[0]["detail"], "plate ran askew (value 1)");
    EXPECT_EQ(changes[2]["command"], "learn --create-systems " + learned_);
    EXPECT_EQ(changes[2]["what"], "3 values, 2 compounds and 1 system added");
    EXPECT_FALSE(changes[2]["who"].get<std::string>().empty());
    EXPECT_EQ(changes[2]["at"].get<std::string>().size(), 20U);
}

TEST_F(HistoryTest, OfACompoundASystemOrARunOnly) {
    EXPECT_EQ(history({"ethanol"}).size(), 1U);
    EXPECT_EQ(history({"ethanol"})[0]["values"], 2);
    EXPECT_EQ(history({"benzene"}).size(), 2U);
    EXPECT_EQ(history({"Alumina"}).size(), 1U);
    EXPECT_EQ(history({"--run", "p1"})[0]["values"], 2);
    EXPECT_EQ(history({"ethanol", "--run", "p1"})[0]["values"], 1);
    EXPECT_TRUE(history({"ethanol", "--run", "p3"}).empty());
    EXPECT_EQ(history({"benzene", "--run", "p3"}).size(), 1U);
}

TEST_F(HistoryTest, WhatWasMendedAndTakenBackIsThere) {
    cospot({"rename", "ethanol", "alcohol", "--smiles", "CO", "--reason", "was methanol"});
    cospot({"retire", "--compound", "alcohol", "--reason", "recalled"});
    cospot({"retire", "--undo", "--compound", "alcohol", "--reason", "fine"});
    cospot({"retire", "--value", "1", "--reason", "askew"});
    cospot({"retire", "--undo", "--value", "1", "--reason", "straight"});
    const auto changes = history({"alcohol"});
    std::vector<std::string> verbs;
    for (const auto &change : changes) {
        verbs.push_back(change["verb"]);
    }
    EXPECT_EQ(verbs, (std::vector<std::string>{"retire --undo", "retire", "retire --undo", "retire",
                                               "rename", "learn"}));
    EXPECT_HOLDS(changes[4]["detail"].get<std::string>(), "LFQSCWFLJHTTHZ-UHFFFAOYSA-N");
    EXPECT_EQ(changes[4]["structures"], 1);
    EXPECT_EQ(history({"--run", "p1"}).size(), 3U); // learned; value 1 retired and taken back
    cospot({"rename", "silica", "plates"});
    EXPECT_EQ(history({"silica"})[0]["verb"], "rename");
    cospot({"retire", "--system", "plates", "--reason", "lot"});
    cospot({"retire", "--undo", "--system", "plates", "--reason", "fine"});
    EXPECT_EQ(history({"alcohol"}).size(), 8U); // the values of it that were withdrawn and back
}

TEST_F(HistoryTest, IsBoundedAndSaysHowManyMore) {
    const Outcome text = cospot({"history", "--top", "1"});
    EXPECT_HOLDS(unwrapped(text.out), "The newest 1 of 2 changes of the library. 1 more:");
    const Outcome json = cospot({"--json", "history", "--top", "1"});
    EXPECT_EQ(json.lines().size(), 1U);
    EXPECT_HOLDS(json.err, "1 change more");
}

TEST_F(HistoryTest, OlderChangesHaveNoCommand) {
    library::Database(folder_ / "library.db", library::Access::write)
        .execute("UPDATE change SET command = '' WHERE id = 1");
    EXPECT_TRUE(history({"ethanol"})[0]["command"].is_null());
    EXPECT_HOLDS(cospot({"history", "ethanol"}).out, "not recorded");
}

TEST_F(HistoryTest, ReportsAndNarrowScreens) {
    expect_fits_screen(cospot({"history"}).out);
    EXPECT_HOLDS(cospot({"history", "ethanol"}).out, "1 change of ethanol.");
    for (const std::string ending : {"html", "csv", "json"}) {
        EXPECT_EQ(cospot({"history", "--report", path("h." + ending)}).code, kDone);
        EXPECT_HOLDS(content("h." + ending), "learn --create-systems");
    }
}

TEST_F(HistoryTest, WrongUseIsAnError) {
    EXPECT_HOLDS(unwrapped(cospot({"history", "ethanl"}).err), "did you mean \"ethanol\"?");
    for (const std::vector<std::string> &arguments : {std::vector<std::string>{"history", "none"},
                                                      {"history", "--run", "none"},
                                                      {"history", "--top", "0"},
                                                      {"history", "--system"},
                                                      {"history", "ethanol", "--system"}}) {
        EXPECT_EQ(cospot(arguments).code, kBadInput) << arguments.back();
    }
}

TEST_F(HistoryTest, WhoMayOnlyReadSeesItToo) {
    const library::ReadOnlyFolder read_only(folder_ / "");
    EXPECT_EQ(history({}).size(), 2U);
}

} // namespace
} // namespace cospot
