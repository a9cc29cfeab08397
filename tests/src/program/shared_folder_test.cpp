// A library in a folder that several people may write: who only reads it is in nobody's way.
#include "library_state.h"
#include "program_fixture.h"
#include "spawned_program.h"

#include "../../library/sample_library.h"
#include "../../library/unprivileged.h"

#include <fmt/format.h>

#include <poll.h>
#include <sys/stat.h>

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

    /// Another user's file beside the library.
    void leave(const std::string &name, const std::string &bytes) const {
        chmod(file(name, bytes).c_str(), 0444);
    }

    library::TemporaryFolder folder_of_messages_;
    const fs::path library_ = folder_ / "library.db";
    std::string more_;
    std::string unknown_;
};

TEST_F(SharedFolder, AReadOnlyUserLeavesNoFiles) {
    chmod(library_.c_str(), 0444);
    const auto before = files_in(folder_ / "");
    {
        const library::OrdinaryUser reader;
        for (const auto &arguments : {std::vector<std::string>{"list"},
                                      {"show", "ethanol"},
                                      {"--json", "identify", unknown_},
                                      {"audit"},
                                      {"predict", "CCO"},
                                      {"advise", unknown_},
                                      {"prove", "--dry-run"}}) {
            const Outcome outcome = cospot(arguments);
            EXPECT_NE(outcome.code, kBadInput) << outcome.err;
            EXPECT_EQ(files_in(folder_ / ""), before) << arguments.front();
        }
        auto reading = library::open_library(library_, library::Access::read);
        reading.execute("BEGIN; SELECT count(*) FROM measurement");
        EXPECT_EQ(files_in(folder_ / ""), before);
        EXPECT_EQ(cospot({"backup", path("copy.db")}).code, kDone);
    }
    chmod(library_.c_str(), 0644);
    EXPECT_EQ(cospot({"learn", more_}).code, kDone);
    EXPECT_EQ(values_in(library_), 501);
    EXPECT_EQ(values_in(path("copy.db")), 500);
}

TEST_F(SharedFolder, AReadOnlyUserSeesNoUncommittedChange) {
    const auto values_seen = [](const library::Database &database) {
        library::Statement query = database.prepare("SELECT count(*) FROM measurement");
        return query.step() ? query.integer(0) : -1;
    };
    library::Database writer = library::open_library(library_, library::Access::write);
    chmod(library_.c_str(), 0444);
    const library::OrdinaryUser reader;
    const auto reading = library::open_library(library_, library::Access::read);
    {
        library::Transaction transaction(writer);
        writer.execute("UPDATE fit SET version = 0; DELETE FROM measurement WHERE id > 100");
        EXPECT_EQ(values_seen(reading), 500);
        transaction.commit();
    }
    EXPECT_EQ(values_seen(reading), 100);
}

TEST_F(SharedFolder, AWriterUndoesAnInterruptedChange) {
    const fs::path copy = folder_ / "copy.db";
    library::copy_cut_off(library_, "DELETE FROM measurement WHERE id > 100", copy);
    EXPECT_NE(bytes_of(copy), bytes_of(library_));
    chmod(copy.c_str(), 0444);
    {
        const library::OrdinaryUser reader;
        const Outcome outcome = cospot({"--library", copy.string(), "list"});
        EXPECT_EQ(outcome.code, kBadInput) << outcome.out;
        EXPECT_HOLDS(outcome.err, "cut off");
        EXPECT_HOLDS(outcome.err, "ask somebody who may write the library");
    }
    chmod(copy.c_str(), 0644);
    EXPECT_EQ(cospot({"--library", copy.string(), "list"}).code, kDone);
    EXPECT_EQ(bytes_of(copy), bytes_of(library_));
    EXPECT_FALSE(fs::exists(copy.string() + "-journal"));
    chmod(copy.c_str(), 0444);
    const library::OrdinaryUser reader;
    EXPECT_EQ(cospot({"--library", copy.string(), "list"}).code, kDone);
}

TEST_F(SharedFolder, AForeignJournalDeletesNoFile) {
    const fs::path copy = folder_ / "copy.db";
    library::copy_cut_off(library_, "DELETE FROM measurement WHERE id > 100", copy);
    const std::string victim = file("victim.txt", "notes");
    // What the journal of a change of several files ends with (pager.c, writeSuperJournal).
    const auto number = [](std::uint32_t value) {
        std::string bytes;
        for (int shift = 24; shift >= 0; shift -= 8) {
            bytes += static_cast<char>((value >> static_cast<unsigned>(shift)) & 0xFFU);
        }
        return bytes;
    };
    std::uint32_t sum = 0;
    for (const char c : victim) {
        sum += static_cast<std::uint32_t>(c);
    }
    constexpr std::uint32_t page_of_locks = 0x40000000 / 4096 + 1;
    std::ofstream(copy.string() + "-journal", std::ios::binary | std::ios::app)
        << number(page_of_locks) << victim << number(static_cast<std::uint32_t>(victim.size()))
        << number(sum) << std::string("\xD9\xD5\x05\xF9\x20\xA1\x63\xD7", 8);
    const std::string before = bytes_of(copy);
    for (const auto &arguments : {std::vector<std::string>{"list"}, {"learn", more_}}) {
        std::vector<std::string> all{"--library", copy.string()};
        all.insert(all.end(), arguments.begin(), arguments.end());
        const Outcome outcome = cospot(all);
        EXPECT_EQ(outcome.code, kBadInput) << outcome.out;
        EXPECT_HOLDS(outcome.err, "copy.db-journal");
        EXPECT_TRUE(fs::exists(victim));
    }
    EXPECT_EQ(bytes_of(copy), before);
}

TEST_F(SharedFolder, AnotherUsersJournalIsNamedWithAdvice) {
    chmod(library_.c_str(), 0666);
    const fs::path copy = folder_ / "copy.db";
    library::copy_cut_off(library_, "DELETE FROM measurement WHERE id > 100", copy);
    leave("library.db-journal", bytes_of(copy.string() + "-journal"));
    const library::OrdinaryUser writer;
    for (const auto &arguments : {std::vector<std::string>{"list"}, {"learn", more_}}) {
        const Outcome outcome = cospot(arguments);
        EXPECT_EQ(outcome.code, kBadInput) << outcome.out;
        EXPECT_HOLDS(outcome.err, library_.string() + "-journal");
        EXPECT_HOLDS(outcome.err, "Never delete it");
    }
}

TEST_F(SharedFolder, AnotherUsersEmptyJournalIsRemovedOnRetry) {
    chmod(library_.c_str(), 0666);
    leave("library.db-journal", std::string(512, '\0'));
    const library::OrdinaryUser writer;
    EXPECT_EQ(cospot({"list"}).code, kDone);
    const Outcome outcome = cospot({"learn", more_});
    EXPECT_EQ(outcome.code, kBadInput);
    EXPECT_HOLDS(outcome.err, "run the command again");
    EXPECT_EQ(cospot({"learn", more_}).code, kDone);
    EXPECT_EQ(values_in(library_), 501);
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
    /// Waits until something waits to be read.
    void wait() const {
        pollfd asked{end_, POLLIN, 0};
        constexpr int patience_ms = 20'000;
        EXPECT_EQ(poll(&asked, 1, patience_ms), 1);
    }
    void close_it() {
        if (end_ >= 0) {
            close(end_);
        }
        end_ = -1;
    }

private:
    int end_ = -1;
};

TEST_F(SharedFolder, AnUnreadExportBlocksNoWriterAndLeavesNoFiles) {
    std::string rows = "compound,smiles,system,quantity,value,run\n";
    for (int run = 0; run < 3000; ++run) { // more than a pipe holds
        rows += fmt::format("ethanol,CCO,s,Rf,{:.4f},q{}\n", 0.3 + 0.0001 * run, run);
    }
    ASSERT_EQ(cospot({"learn", file("many.csv", rows)}).code, kDone);
    for (const int signal : {SIGINT, SIGTERM, SIGHUP, SIGPIPE}) {
        const std::string pipe = path(fmt::format("pipe{}", signal));
        UnreadPipe unread(pipe);
        const auto before = files_in(folder_ / "");
        SpawnedProgram program({"--library", library_.string(), "export", "values"},
                               folder_of_messages_ / "messages", pipe.c_str());
        unread.wait();
        library::Database writer = library::open_library(library_, library::Access::write);
        writer.execute(
            fmt::format("PRAGMA busy_timeout = 0; DELETE FROM measurement WHERE id = {}", signal));
        if (signal == SIGPIPE) {
            unread.close_it();
        } else {
            program.send(signal);
        }
        EXPECT_EQ(program.wait_for_signal(), signal) << program.messages();
        EXPECT_EQ(files_in(folder_ / ""), before) << signal;
    }
}

} // namespace
} // namespace cospot
