// A library in a folder that several people may write: who only reads it is in nobody's way.
#include "library_state.h"
#include "program_fixture.h"
#include "spawned_program.h"

#include "../../library/unprivileged.h"

#include <fmt/format.h>

#include <sys/stat.h>

#include <chrono>
#include <thread>

namespace cospot {
namespace {

namespace fs = std::filesystem;

class SharedFolder : public ProgramTest {
protected:
    SharedFolder() {
        chmod((folder_ / "").c_str(), 0777);
        std::string rows = "compound,smiles,system,quantity,value,run\n";
        for (int run = 0; run < 500; ++run) {
            rows += fmt::format("ethanol,CCO,s,Rf,{:.4f},r{}\n", 0.3 + 0.0001 * run, run);
        }
        EXPECT_EQ(cospot({"learn", "--create-systems", file("first.csv", rows)}).code, kDone);
        more_ = file("more.csv", "compound,smiles,system,quantity,value\nethanol,CCO,s,Rf,0.45\n");
        unknown_ = file("u.csv", "sample,feature,system,quantity,value\nf,1,s,Rf,0.31\n");
    }

    /// What SQLite keeps beside the library.
    [[nodiscard]] std::vector<std::string> left() const {
        std::vector<std::string> found;
        for (const char *name : {"library.db-wal", "library.db-shm"}) {
            if (fs::exists(folder_ / name)) {
                found.emplace_back(name);
            }
        }
        return found;
    }

    void leave(const std::string &journal) const {
        for (const auto &[suffix, bytes] : {std::pair("-wal", journal), {"-shm", std::string()}}) {
            const std::string name = file("library.db" + std::string(suffix), bytes);
            chmod(name.c_str(), 0444);
        }
    }

    const fs::path library_ = folder_ / "library.db";
    std::string more_;
    std::string unknown_;
};

TEST_F(SharedFolder, WhoMayOnlyReadTheLibraryLeavesNothingBesideIt) {
    chmod(library_.c_str(), 0444);
    {
        const library::OrdinaryUser reader;
        for (const auto &arguments : {std::vector<std::string>{"list"},
                                      {"show", "ethanol"},
                                      {"--json", "identify", unknown_},
                                      {"audit"},
                                      {"predict", "CCO"},
                                      {"advise", unknown_},
                                      {"prove", "--dry-run"},
                                      {"backup", path("copy.db")}}) {
            const Outcome outcome = cospot(arguments);
            EXPECT_NE(outcome.code, kBadInput) << outcome.err;
            EXPECT_EQ(left(), std::vector<std::string>{}) << arguments.front();
        }
        const auto reading = library::open_library(library_, library::Access::read);
        EXPECT_EQ(left(), std::vector<std::string>{});
    }
    chmod(library_.c_str(), 0644);
    EXPECT_EQ(cospot({"learn", more_}).code, kDone);
    EXPECT_EQ(values_in(library_), 501);
    const auto copy = library::open_library(path("copy.db"), library::Access::write);
    library::Statement mode = copy.prepare("PRAGMA journal_mode");
    EXPECT_EQ(mode.step() ? mode.text(0) : "", "wal");
}

TEST_F(SharedFolder, WhoMayOnlyReadSeesOneMomentWhileAnotherWrites) {
    const auto values_seen = [](const library::Database &database) {
        library::Statement query = database.prepare("SELECT count(*) FROM measurement");
        return query.step() ? query.integer(0) : -1;
    };
    chmod(library_.c_str(), 0444);
    std::optional<library::Database> before;
    {
        const library::OrdinaryUser reader;
        before = library::open_library(library_, library::Access::read);
    }
    chmod(library_.c_str(), 0644);
    library::Database writer = library::open_library(library_, library::Access::write);
    writer.execute("UPDATE fit SET version = 0; DELETE FROM measurement WHERE id > 100");
    chmod(library_.c_str(), 0444);
    {
        const library::OrdinaryUser reader;
        const auto after = library::open_library(library_, library::Access::read);
        EXPECT_EQ(values_seen(after), 100); // with what waits in the journal
        writer.execute("DELETE FROM measurement WHERE id > 50");
        EXPECT_EQ(values_seen(after), 50);
    }
    EXPECT_EQ(values_seen(*before), 500);
}

TEST_F(SharedFolder, AnEmptyJournalOfAnotherUserIsClearedByWhoeverWrites) {
    chmod(library_.c_str(), 0666);
    leave("");
    const library::OrdinaryUser writer;
    const Outcome outcome = cospot({"learn", more_});
    EXPECT_EQ(outcome.code, kDone) << outcome.err;
    EXPECT_EQ(left(), std::vector<std::string>{});
}

TEST_F(SharedFolder, AnEmptyJournalOfAnEarlierReaderIsClearedByTheNext) {
    leave("");
    EXPECT_EQ(cospot({"list"}).code, kDone);
    EXPECT_EQ(left(), std::vector<std::string>{});
}

TEST_F(SharedFolder, AJournalInUseIsNotClearedEvenIfEmpty) {
    const auto reader = library::open_library(library_, library::Access::read);
    ASSERT_EQ(left().size(), 2U);
    EXPECT_EQ(cospot({"list"}).code, kDone);
    { const library::Database writer(library_, library::Access::write); }
    EXPECT_EQ(left().size(), 2U);
}

TEST_F(SharedFolder, AReaderPutsInOrderWhatAWriterCouldNotBecauseOfIt) {
    {
        auto reader = library::open_library(library_, library::Access::read);
        reader.execute("BEGIN; SELECT count(*) FROM measurement");
        SpawnedProgram writer({"--library", library_.string(), "learn", more_}, path("messages"));
        EXPECT_EQ(writer.wait(), kDone) << writer.messages();
        EXPECT_EQ(left().size(), 2U);
    }
    EXPECT_EQ(left(), std::vector<std::string>{});
    EXPECT_EQ(values_in(library_), 501);
}

TEST_F(SharedFolder, FilesOfAnotherUserThatStayInTheWayAreNamedWithWhatToDo) {
    chmod(library_.c_str(), 0666);
    leave("");
    chmod((folder_ / "").c_str(), 0555);
    {
        const library::OrdinaryUser writer;
        const Outcome outcome = cospot({"learn", more_});
        EXPECT_EQ(outcome.code, kBadInput);
        EXPECT_HOLDS(outcome.err, library_.string() + "-wal and " + library_.string() + "-shm");
        EXPECT_HOLDS(outcome.err, "delete");
    }
    chmod((folder_ / "").c_str(), 0777);
    fs::remove(library_.string() + "-wal");
    leave("what may be a change");
    const library::OrdinaryUser writer;
    const Outcome outcome = cospot({"learn", more_});
    EXPECT_EQ(outcome.code, kBadInput);
    EXPECT_HOLDS(outcome.err, library_.string() + "-wal");
    EXPECT_HOLDS(outcome.err, "Never delete it");
    EXPECT_EQ(left().size(), 2U);
}

/// The end of a pipe that nobody reads until it is closed.
class UnreadPipe {
public:
    explicit UnreadPipe(const std::string &name) {
        EXPECT_EQ(mkfifo(name.c_str(), 0600), 0);
        end_ = open(name.c_str(), O_RDWR | O_CLOEXEC);
    }
    ~UnreadPipe() { close_it(); }
    UnreadPipe(const UnreadPipe &) = delete;
    UnreadPipe &operator=(const UnreadPipe &) = delete;
    void close_it() {
        if (end_ >= 0) {
            close(end_);
        }
        end_ = -1;
    }

private:
    int end_ = -1;
};

TEST_F(SharedFolder, AReaderThatASignalEndsLeavesNothing) {
    std::string rows = "compound,smiles,system,quantity,value,run\n";
    for (int run = 0; run < 3000; ++run) { // more than a pipe holds
        rows += fmt::format("ethanol,CCO,s,Rf,{:.4f},q{}\n", 0.3 + 0.0001 * run, run);
    }
    ASSERT_EQ(cospot({"learn", file("many.csv", rows)}).code, kDone);
    for (const int signal : {SIGINT, SIGTERM, SIGHUP, SIGPIPE}) {
        const std::string pipe = path(fmt::format("pipe{}", signal));
        UnreadPipe unread(pipe);
        SpawnedProgram program({"--library", library_.string(), "export", "values"},
                               path("messages"), pipe.c_str());
        for (int i = 0; i < 10'000 && left().size() < 2; ++i) {
            std::this_thread::sleep_for(std::chrono::milliseconds(1));
        }
        ASSERT_EQ(left().size(), 2U);
        if (signal == SIGPIPE) {
            unread.close_it();
        } else {
            program.send(signal);
        }
        EXPECT_EQ(program.wait_for_signal(), signal) << program.messages();
        EXPECT_EQ(left(), std::vector<std::string>{}) << signal;
    }
}

} // namespace
} // namespace cospot
