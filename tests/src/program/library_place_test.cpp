// Where a library lies: odd names, links, read-only places, and files that move away.
#include "library_state.h"
#include "program_fixture.h"

#include "../../library/sample_library.h"
#include "../../library/unprivileged.h"

#include <sys/stat.h>
#include <unistd.h>

namespace cospot {
namespace {

namespace fs = std::filesystem;

using Texts = std::vector<std::string>;

class LibraryPlaceTest : public ProgramTest {
protected:
    LibraryPlaceTest() {
        fs::permissions(folder_ / "", fs::perms(0755)); // an ordinary user passes through
        const Outcome learned = cospot({"learn", "--create-systems",
                                        file("v.csv", "compound,smiles,system,quantity,value\n"
                                                      "ethanol,CCO,s,Rf,0.30\n")});
        EXPECT_EQ(learned.code, kDone) << learned.err;
        unknown_ = file("u.csv", "sample,feature,system,quantity,value\nf,1,s,Rf,0.31\n");
    }

    Outcome with(const fs::path &library, Texts arguments) const {
        arguments.insert(arguments.begin(), {"--library", library.string()});
        return cospot(arguments);
    }

    [[nodiscard]] fs::path folder(const std::string &name) const {
        fs::create_directory(folder_ / name);
        return folder_ / name;
    }

    const fs::path library_ = folder_ / "library.db";
    const std::string values_ = (folder_ / "v.csv").string();
    std::string unknown_;
};

const Texts kOddNames{"with  blanks .db", "it's \"quoted\".db", "what?.db",
                      "what?mode=memory", "number#1.db",        "100%.db",
                      "%41%00%2F.db",     "a&b;c|d$(e)`f`.db",  "Bücherei β 図書館.db",
                      "line\nbreak.db",   "-dash.db",           "file:name.db",
                      "back\\slash.db",   "[glob]*.db",         ":memory:"};

TEST_F(LibraryPlaceTest, OddLibraryNamesWorkInEveryCommand) {
    for (const std::string &name : kOddNames) {
        SCOPED_TRACE(name);
        const fs::path place = folder("place");
        const fs::path library = place / name;
        ASSERT_EQ(with(library, {"init"}).code, kDone);
        const Outcome learned = with(library, {"learn", "--create-systems", values_});
        ASSERT_EQ(learned.code, kDone) << learned.err;
        EXPECT_EQ(values_in(library), 1);
        for (const char *ending : {".html", ".csv", ".json"}) {
            const Outcome outcome =
                with(library, {"identify", unknown_, "--report", library.string() + ending});
            EXPECT_EQ(outcome.code, kDone) << outcome.err;
        }
        EXPECT_EQ(with(library, {"backup", library.string() + ".copy"}).code, kDone);
        EXPECT_EQ(values_in(library.string() + ".copy"), 1);
        EXPECT_EQ(
            with(library, {"export", "values", "--output", library.string() + ".values"}).code,
            kDone);
        EXPECT_EQ(cospot({"merge", library.string()}).code, kDone);
        EXPECT_EQ(files_in(place),
                  (std::set<std::string>{name, name + ".html", name + ".csv", name + ".json",
                                         name + ".copy", name + ".values"}));
        {
            const library::ReadOnlyFolder read_only(place);
            EXPECT_NE(with(library, {"list"}).out.find("ethanol"), std::string::npos);
        }
        fs::remove_all(place);
    }
}

/// The working folder for one test.
class WorkingFolder {
public:
    explicit WorkingFolder(const fs::path &folder) : before_(fs::current_path()) {
        fs::current_path(folder);
    }
    ~WorkingFolder() { fs::current_path(before_); }
    WorkingFolder(const WorkingFolder &) = delete;
    WorkingFolder &operator=(const WorkingFolder &) = delete;

private:
    fs::path before_;
};

TEST_F(LibraryPlaceTest, OddRelativeNamesAreNeverReadAsUris) {
    const fs::path place = folder("here");
    const WorkingFolder here(place);
    for (const std::string &name : kOddNames) {
        SCOPED_TRACE(name);
        ASSERT_EQ(with(name, {"init"}).code, kDone);
        ASSERT_EQ(with(name, {"learn", "--create-systems", values_}).code, kDone);
        EXPECT_EQ(with(name, {"backup", "./" + name + ".copy"}).code, kDone);
        EXPECT_EQ(files_in(place), (std::set<std::string>{name, name + ".copy"}));
        EXPECT_EQ(values_in(place / name), 1);
        fs::remove(name);
        fs::remove(name + ".copy");
    }
}

TEST_F(LibraryPlaceTest, AnOldLibraryWithAnOddNameIsUpgraded) {
    const fs::path old = folder("place") / "what? 100% #1 β.db";
    library::create_filled_format_1(old);
    EXPECT_EQ(with(old, {"list"}).code, kDone);
    EXPECT_EQ(files_in(folder_ / "place"),
              (std::set<std::string>{"what? 100% #1 β.db", "what? 100% #1 β.db.format-1.backup"}));
}

TEST_F(LibraryPlaceTest, ALinkStaysALinkAndFilesLieBesideTheLibrary) {
    const fs::path links = folder("links");
    const fs::path link = links / "link.db";
    fs::create_symlink(library_, link);
    const std::string more =
        file("w.csv", "compound,smiles,system,quantity,value\nethanol,CCO,s,Rf,0.32\n");
    EXPECT_EQ(with(link, {"learn", more}).code, kDone);
    EXPECT_EQ(with(link, {"--json", "list"}).out, cospot({"--json", "list"}).out);
    EXPECT_EQ(values_in(library_), 2);
    EXPECT_EQ(cospot({"merge", link.string()}).code, kBadInput); // the library itself
    EXPECT_EQ(with(link, {"init"}).code, kBadInput);
    EXPECT_EQ(cospot({"backup", link.string()}).code, kBadInput);
    EXPECT_TRUE(fs::is_symlink(link));
    EXPECT_EQ(files_in(links), (std::set<std::string>{"link.db"}));
}

TEST_F(LibraryPlaceTest, TheBackupOfAnUpgradeLiesBesideTheLibraryNotBesideTheLink) {
    const fs::path links = folder("links");
    const fs::path old = folder("real") / "old.db";
    library::create_filled_format_1(old);
    fs::create_symlink("../real/old.db", links / "link.db");
    const Outcome outcome = with(links / "link.db", {"list"});
    EXPECT_EQ(outcome.code, kDone) << outcome.err;
    EXPECT_TRUE(fs::is_symlink(links / "link.db"));
    EXPECT_EQ(files_in(links), (std::set<std::string>{"link.db"}));
    EXPECT_EQ(files_in(folder_ / "real"),
              (std::set<std::string>{"old.db", "old.db.format-1.backup"}));
}

TEST_F(LibraryPlaceTest, ADanglingLinkIsNotWrittenThrough) {
    const fs::path link = folder_ / "dangling.db";
    fs::create_symlink(folder_ / "nowhere.db", link);
    for (const Texts &arguments : {Texts{"init"}, Texts{"list"}, Texts{"learn", values_}}) {
        const Outcome outcome = with(link, arguments);
        EXPECT_EQ(outcome.code, kBadInput);
        EXPECT_NE(outcome.err.find("dangling.db"), std::string::npos) << outcome.err;
    }
    for (const Texts &arguments :
         {Texts{"backup", link.string()}, Texts{"export", "values", "--output", link.string()}}) {
        EXPECT_NE(cospot(arguments).err.find("never overwritten"), std::string::npos);
    }
    EXPECT_TRUE(fs::is_symlink(link));
    EXPECT_FALSE(fs::exists(folder_ / "nowhere.db"));
}

/// A copy of a library of an older program, in the log of which a change waits.
class LeftoversTest : public LibraryPlaceTest {
protected:
    LeftoversTest() {
        library::Database writer(library_, library::Access::write);
        writer.execute("PRAGMA journal_mode = WAL; UPDATE compound SET name = 'renamed'");
        for (const char *suffix : {"", "-wal", "-shm"}) {
            fs::copy(library_.string() + suffix, copy_.string() + suffix);
        }
    }

    Outcome read_only_list() const {
        const library::ReadOnlyFolder read_only(place_);
        return with(copy_, {"list"});
    }

    const fs::path place_ = folder("medium");
    const fs::path copy_ = place_ / "copy.db";
};

TEST_F(LeftoversTest, ChangesInTheLogAreReadWithItsIndex) {
    const Outcome outcome = read_only_list();
    EXPECT_EQ(outcome.code, kDone) << outcome.err;
    EXPECT_NE(outcome.out.find("renamed"), std::string::npos) << outcome.out;
}

TEST_F(LeftoversTest, WhoMayNotWriteItIsToldSo) {
    const library::ReadOnlyFolder read_only(place_);
    const Outcome outcome = with(copy_, {"learn", values_});
    EXPECT_EQ(outcome.code, kBadInput);
    EXPECT_NE(outcome.err.find("read-only"), std::string::npos) << outcome.err;
}

TEST_F(LeftoversTest, ALogWithoutItsIndexIsRefusedNotIgnored) {
    fs::remove(copy_.string() + "-shm");
    const Outcome outcome = read_only_list();
    EXPECT_EQ(outcome.code, kBadInput) << outcome.out;
    EXPECT_NE(outcome.err.find("copy the library"), std::string::npos) << outcome.err;
    EXPECT_NE(outcome.err.find("-wal"), std::string::npos) << outcome.err;
}

TEST_F(LeftoversTest, ChangesInTheLogAreSeenThroughALink) {
    fs::remove(copy_.string() + "-shm");
    const fs::path link = folder("links") / "link.db";
    fs::create_symlink(copy_, link);
    const library::ReadOnlyFolder read_only(place_);
    const Outcome outcome = with(link, {"list"});
    EXPECT_EQ(outcome.code, kBadInput) << outcome.out;
    EXPECT_NE(outcome.err.find("-wal"), std::string::npos) << outcome.err;
}

TEST_F(LeftoversTest, WithoutALogItIsSaidWhatToDo) {
    fs::remove(copy_.string() + "-shm");
    fs::remove(copy_.string() + "-wal");
    const Outcome outcome = read_only_list();
    EXPECT_EQ(outcome.code, kBadInput) << outcome.out;
    EXPECT_NE(outcome.err.find("copy the library"), std::string::npos) << outcome.err;
}

TEST_F(LibraryPlaceTest, WhatCannotBeWrittenSaysWhatToDo) {
    const fs::path place = folder("medium");
    const fs::path library = place / "ours.db";
    ASSERT_EQ(cospot({"backup", library.string()}).code, kDone);
    const std::string before = bytes_of(library);
    const library::ReadOnlyFolder read_only(place);
    for (const Texts &arguments : {Texts{"learn", values_}, Texts{"merge", library_.string()},
                                   Texts{"retire", "--value", "1", "--reason", "test"}}) {
        const Outcome outcome = with(library, arguments);
        EXPECT_EQ(outcome.code, kBadInput);
        EXPECT_NE(outcome.err.find("ours.db"), std::string::npos) << outcome.err;
        EXPECT_NE(outcome.err.find("read-only"), std::string::npos) << outcome.err;
        EXPECT_NE(outcome.err.find("copy it into a folder"), std::string::npos) << outcome.err;
    }
    for (const Texts &arguments :
         {Texts{"backup", (place / "b.db").string()},
          Texts{"export", "values", "--output", (place / "v.csv").string()},
          Texts{"audit", "--report", (place / "r.html").string()}}) {
        const Outcome outcome = with(library, arguments);
        EXPECT_EQ(outcome.code, kBadInput);
        EXPECT_NE(outcome.err.find("a folder that you can write"), std::string::npos)
            << outcome.err;
    }
    EXPECT_EQ(bytes_of(library), before);
    EXPECT_EQ(files_in(place), (std::set<std::string>{"ours.db"}));
}

TEST_F(LibraryPlaceTest, AnUnreadableFileIsReportedAsSuch) {
    const fs::path place = folder("medium");
    const fs::path library = place / "theirs.db";
    ASSERT_EQ(cospot({"backup", library.string()}).code, kDone);
    const library::ReadOnlyFolder ordinary_user(place);
    const uid_t user = geteuid();
    if (getuid() == 0) { // only its owner may take the right to read a file away
        ASSERT_EQ(seteuid(0), 0);
    }
    ASSERT_EQ(chmod(library.c_str(), 0), 0);
    ASSERT_EQ(seteuid(user), 0);
    const Outcome outcome = with(library, {"list"});
    EXPECT_EQ(outcome.code, kBadInput);
    EXPECT_NE(outcome.err.find("may not read"), std::string::npos) << outcome.err;
}

TEST_F(LibraryPlaceTest, ALibraryThatIsTakenAwayIsReadToTheEnd) {
    library::Database database = library::open_library(library_, library::Access::read);
    database.execute("BEGIN");
    EXPECT_EQ(library::find_by_name(database, "ethanol").size(), 1U);
    fs::remove(library_);
    EXPECT_EQ(library::find_by_name(database, "ethanol").size(), 1U);
}

TEST_F(LibraryPlaceTest, AChangeOfALibraryThatWasReplacedIsReportedAsLost) {
    const fs::path replacement = folder_ / "replacement.db";
    ASSERT_EQ(with(replacement, {"init"}).code, kDone);
    {
        library::Database database = library::open_library(library_, library::Access::write);
        library::Transaction transaction(database);
        (void)library::begin_change(database, "learn", "");
        database.execute("UPDATE compound SET name = 'renamed'");
        fs::rename(replacement, library_);
        try {
            transaction.commit();
            FAIL() << "a change went into a file that has no name";
        } catch (const library::DatabaseError &error) {
            const std::string message = error.what();
            EXPECT_NE(message.find("library.db"), std::string::npos) << message;
            EXPECT_NE(message.find("run the command again"), std::string::npos) << message;
        }
    }
    EXPECT_EQ(integrity_of(library_), "ok");
    EXPECT_EQ(values_in(library_), 0);
    EXPECT_EQ(number_in(library_, "SELECT count(*) FROM compound"), 0);
}

} // namespace
} // namespace cospot
