#include "program_fixture.h"

#include "../../library/sample_library.h"
#include "../../library/unprivileged.h"

namespace cospot {
namespace {

class BackupTest : public ProgramTest {
protected:
    BackupTest() {
        cospot({"learn", "--create-systems",
                file("v.csv", "compound,smiles,system,quantity,value\n"
                              "ethanol,CCO,silica,Rf,0.30\nethanol,CCO,silica,Rf,0.32\n")});
    }
    const std::string copy_ = (folder_ / "copy.db").string();
};

TEST_F(BackupTest, IsALibraryOfTheSameContent) {
    const Outcome outcome = cospot({"backup", copy_});
    EXPECT_EQ(outcome.code, kDone) << outcome.err;
    EXPECT_NE(outcome.out.find("checked"), std::string::npos);
    const std::string content = library_content();
    // The library given last counts.
    EXPECT_EQ(cospot({"--library", copy_, "--json", "list"}).out +
                  cospot({"--library", copy_, "--json", "list", "systems"}).out,
              content);
}

TEST_F(BackupTest, TellsWhatItHolds) {
    const auto json = cospot({"--json", "backup", copy_}).lines().at(0);
    EXPECT_EQ(json["values"], 2);
    EXPECT_EQ(json["withdrawn"], 0);
    EXPECT_EQ(json["compounds"], 1);
    EXPECT_EQ(json["systems"], 1);
    EXPECT_EQ(json["bytes"], std::filesystem::file_size(copy_));
}

TEST_F(BackupTest, NeverOverwrites) {
    EXPECT_EQ(cospot({"backup", copy_}).code, kDone);
    const Outcome again = cospot({"backup", copy_});
    EXPECT_EQ(again.code, kBadInput);
    EXPECT_NE(again.err.find("never overwritten"), std::string::npos);
    EXPECT_EQ(cospot({"backup", (folder_ / "library.db").string()}).code, kBadInput);
}

TEST_F(BackupTest, WrongUseIsAnError) {
    EXPECT_EQ(cospot({"backup"}).code, kBadInput);
    EXPECT_EQ(cospot({"backup", (folder_ / "none" / "copy.db").string()}).code, kBadInput);
}

TEST_F(BackupTest, OfAnOldLibraryKeepsItsFormatAndLeavesItAlone) {
    const std::string old = (folder_ / "old.db").string();
    library::create_filled_format_1(old);
    EXPECT_EQ(cospot({"--library", old, "backup", copy_}).code, kDone);
    EXPECT_EQ(library::format_of(library::open_unchanged(copy_)), 1);
    EXPECT_EQ(library::format_of(library::open_unchanged(old)), 1);
}

TEST_F(BackupTest, AnOldLibraryIsUpgradedByReadingItAndTheUserIsTold) {
    const std::string old = (folder_ / "old.db").string();
    library::create_filled_format_1(old);
    const Outcome outcome = cospot({"--library", old, "--json", "show", "alpha"});
    EXPECT_EQ(outcome.code, kDone) << outcome.err;
    EXPECT_EQ(outcome.lines().size(), 2U);
    EXPECT_NE(outcome.err.find("old.db.format-1.backup"), std::string::npos) << outcome.err;
    EXPECT_EQ(cospot({"--library", old, "list"}).err, "");
}

TEST_F(BackupTest, EveryReadingCommandWorksOnReadOnlyMedia) {
    const std::string observed =
        file("u.csv", "sample,feature,system,quantity,value\na,A,silica,Rf,0.31\n");
    const library::ReadOnlyFolder read_only(folder_ / "");
    EXPECT_EQ(cospot({"list"}).code, kDone);
    EXPECT_EQ(cospot({"show", "ethanol"}).code, kDone);
    const Outcome outcome = cospot({"--json", "identify", observed});
    EXPECT_EQ(outcome.code, kDone) << outcome.err;
    EXPECT_EQ(outcome.lines().at(0)["candidates"][0]["compound"], "ethanol");
    EXPECT_EQ(cospot({"learn", observed}).code, kBadInput);
}

} // namespace
} // namespace cospot
