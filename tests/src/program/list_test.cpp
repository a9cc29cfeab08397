#include "program_fixture.h"

#include <fmt/format.h>

#include <string>
#include <vector>

namespace cospot {
namespace {

/// 25 alkanes with a value on each of two systems, in an order of learning that is not that of
/// names.
class ListTest : public ProgramTest {
protected:
    ListTest() {
        std::string rows = "compound,smiles,system,quantity,value,run\n";
        for (int i = 24; i >= 0; --i) {
            for (const char *system : {"silica-a", "silica-b"}) {
                rows += fmt::format("alkane {:02},{},{},Rf,0.5,p1\n", i,
                                    std::string(static_cast<std::size_t>(i) + 1, 'C'), system);
            }
        }
        cospot({"learn", "--systems",
                file("systems.csv", "system,technique,stationary_phase,mobile_phase\n"
                                    "silica-a,tlc,silica gel,hexane:ethyl acetate 4:1\n"
                                    "silica-b,tlc,silica gel,toluene\n"
                                    "paper-1,paper,cellulose,water\n"),
                file("values.csv", rows)});
    }

    std::vector<nlohmann::json> listed(std::vector<std::string> arguments) const {
        arguments.insert(arguments.begin(), {"--json", "list"});
        return cospot(arguments).lines();
    }
};

TEST_F(ListTest, APageSaysHowManyOfHowMany) {
    EXPECT_HOLDS(cospot({"list", "--top", "10"}).out, "10 of 25 compounds.");
    EXPECT_HOLDS(cospot({"list", "--top", "10", "--skip", "20"}).out, "21 to 25 of 25 compounds.");
    EXPECT_HOLDS(cospot({"list", "--skip", "25"}).out, "None of 25 compounds.");
    EXPECT_HOLDS(cospot({"list"}).out, "25 compounds.");
    EXPECT_HOLDS(cospot({"list", "systems", "--top", "1"}).out, "1 of 3 systems.");
}

TEST_F(ListTest, PagesOneAfterTheOtherAreTheWholeList) {
    const auto whole = listed({});
    ASSERT_EQ(whole.size(), 25U);
    EXPECT_FALSE(whole[0].contains("of"));
    std::vector<nlohmann::json> paged;
    for (const char *skip : {"0", "10", "20"}) {
        for (nlohmann::json &one : listed({"--top", "10", "--skip", skip})) {
            EXPECT_EQ(one["of"], 25);
            one.erase("of");
            paged.push_back(one);
        }
    }
    EXPECT_EQ(paged, whole);
    EXPECT_EQ(paged[3]["compound"], "alkane 03");
    EXPECT_EQ(paged[3]["values"], 2);
    EXPECT_EQ(paged[3]["systems"], 2);
}

TEST_F(ListTest, APageOfASearchCountsWhatWasFound) {
    const auto twenties = listed({"--name", "ALKANE 2", "--top", "2"});
    ASSERT_EQ(twenties.size(), 2U);
    EXPECT_EQ(twenties[0]["compound"], "alkane 20");
    EXPECT_EQ(twenties[0]["of"], 5);
    const auto on_system = listed({"--system", "silica-a", "--top", "2", "--skip", "1"});
    ASSERT_EQ(on_system.size(), 2U);
    EXPECT_EQ(on_system[0]["compound"], "alkane 01");
    EXPECT_EQ(on_system[0]["values"], 1);
    EXPECT_EQ(on_system[0]["of"], 25);
    const auto with_chain = listed({"--substructure", "CCCCCCCCCCCCCCCCCCCCCC", "--top", "3"});
    ASSERT_EQ(with_chain.size(), 3U); // 22 to 25 carbon atoms
    EXPECT_EQ(with_chain[0]["compound"], "alkane 21");
    EXPECT_EQ(with_chain[0]["of"], 4);
}

TEST_F(ListTest, SystemsAreFoundByNameOrPhase) {
    const auto names = [&](const std::string &part) {
        std::string found;
        for (const auto &one : listed({"systems", "--name", part})) {
            found += one["system"].get<std::string>() + ' ';
        }
        return found;
    };
    EXPECT_EQ(names("SILICA"), "silica-a silica-b ");
    EXPECT_EQ(names("ethyl acetate"), "silica-a ");
    EXPECT_EQ(names("Cellulose"), "paper-1 ");
    EXPECT_EQ(names("nothing"), "");
}

TEST_F(ListTest, APageOfNoneIsRefused) {
    EXPECT_EQ(cospot({"list", "--top", "0"}).code, kBadInput);
    EXPECT_EQ(cospot({"list", "--skip", "-1"}).code, kBadInput);
    EXPECT_EQ(cospot({"show", "silica-a", "--top", "0"}).code, kBadInput);
}

TEST_F(ListTest, ShowListsTheFirstValuesAndSaysOfHowMany) {
    EXPECT_HOLDS(unwrapped(cospot({"show", "silica-a", "--top", "3"}).out),
                 "25 values of 25 compounds; the first 3 are listed");
    const auto whole = cospot({"--json", "show", "silica-a"}).lines();
    const auto first = cospot({"--json", "show", "silica-a", "--top", "3"}).lines();
    ASSERT_EQ(first.size(), 4U);
    EXPECT_EQ(std::vector(whole.begin(), whole.begin() + 4), first);
    EXPECT_EQ(first[0]["values_asked_for"], 25);
    const auto narrow =
        cospot({"--json", "show", "silica-a", "--name", "alkane 1", "--top", "3"}).lines();
    ASSERT_EQ(narrow.size(), 4U);
    EXPECT_EQ(narrow[0]["values_asked_for"], 10);
    EXPECT_EQ(narrow[1]["compound"], "alkane 10");
    const std::string both = cospot({"show", "alkane 07", "--top", "2"}).out;
    EXPECT_EQ(both.find("are listed"), std::string::npos) << both; // these are all
}

/// What the library remembers of tables.
class SheetsTest : public ListTest {
protected:
    Outcome learned_as(const std::string &name) const {
        return cospot({"learn", "--map", "compound=Substanz", "--map", "value=Wert", "--as", name,
                       file("own.csv", "Substanz,smiles,system,quantity,Wert\n"
                                       "benzene,c1ccccc1,silica-a,Rf,0.7\n")});
    }
    Outcome used(const std::string &name) const {
        return cospot({"learn", "--as", name, "--dry-run", path("own.csv")});
    }
};

TEST_F(SheetsTest, AreListedWithTheirColumnsAndTheDay) {
    EXPECT_HOLDS(cospot({"list", "sheets"}).out, "No sheets.");
    ASSERT_EQ(learned_as("class sheet").code, kDone);
    ASSERT_EQ(learned_as("another").code, kDone);
    const auto sheets = listed({"sheets"});
    ASSERT_EQ(sheets.size(), 2U);
    EXPECT_EQ(sheets[0]["sheet"], "another");
    EXPECT_EQ(sheets[1]["sheet"], "class sheet");
    const auto columns = nlohmann::json::parse(R"([{"column": "compound", "header": "Substanz"},
                                                   {"column": "value", "header": "Wert"}])");
    EXPECT_EQ(sheets[1]["columns"], columns);
    EXPECT_EQ(sheets[1]["at"].get<std::string>().size(), 20U);
    EXPECT_FALSE(sheets[1]["who"].get<std::string>().empty());
    const std::string text = cospot({"list", "sheets"}).out;
    EXPECT_HOLDS(text, "2 sheets.");
    EXPECT_HOLDS(unwrapped(text), "compound: Substanz");
}

TEST_F(SheetsTest, AForgottenSheetIsUsedNoMoreAndStandsInTheHistory) {
    learned_as("class sheet");
    learned_as("another");
    ASSERT_EQ(used("class sheet").code, kDone);
    const Outcome outcome =
        cospot({"retire", "--sheet", "Class Sheet", "--reason", "the form is another now"});
    ASSERT_EQ(outcome.code, kDone) << outcome.err;
    EXPECT_EQ(used("class sheet").code, kBadInput);
    EXPECT_EQ(used("another").code, kDone);
    EXPECT_EQ(listed({"sheets"}).size(), 1U);
    const std::string newest = cospot({"--json", "history", "--top", "1"}).lines().at(0).dump();
    EXPECT_HOLDS(newest, "the form is another now");
    EXPECT_HOLDS(newest, "compound=Substanz, value=Wert");
    EXPECT_EQ(learned_as("class sheet").code, kDone); // it can be told anew
    EXPECT_EQ(listed({"sheets"}).size(), 2U);
}

TEST_F(SheetsTest, ForgettingWhatIsNotThereIsRefusedAndChangesNothing) {
    learned_as("class sheet");
    const std::size_t changes = cospot({"--json", "history"}).lines().size();
    const Outcome outcome = cospot({"retire", "--sheet", "classsheet", "--reason", "x"});
    EXPECT_EQ(outcome.code, kBadInput);
    EXPECT_HOLDS(unwrapped(outcome.err), "\"class sheet\"");
    EXPECT_EQ(cospot({"retire", "--sheet", "class sheet"}).code, kBadInput); // no reason
    EXPECT_EQ(cospot({"retire", "--undo", "--sheet", "class sheet", "--reason", "x"}).code,
              kBadInput);
    EXPECT_EQ(cospot({"--json", "history"}).lines().size(), changes);
    EXPECT_EQ(listed({"sheets"}).size(), 1U);
}

} // namespace
} // namespace cospot
