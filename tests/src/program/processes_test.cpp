#include "library_state.h"
#include "program_fixture.h"
#include "spawned_program.h"

#include "../../library/sample_library.h"

#include <fmt/format.h>

#include <chrono>
#include <random>
#include <thread>

namespace cospot {
namespace {

using std::chrono::steady_clock;

/// A library with one compound, to which processes add values by its name.
class ProcessesTest : public ProgramTest {
protected:
    ProcessesTest() {
        cospot({"learn", "--create-systems",
                file("first.csv", "compound,smiles,system,quantity,value\nethanol,CCO,s,Rf,0\n")});
    }

    /// Writes a table of `rows` values in a run of its own.
    [[nodiscard]] std::string table(const std::string &run, int rows) const {
        std::string content = "compound,smiles,system,quantity,value,run\n";
        for (int i = 0; i < rows; ++i) {
            content += fmt::format("ethanol,,s,Rf,{:.5f},{}\n", 0.00001 * (i + 1), run);
        }
        return file(run + ".csv", content);
    }

    [[nodiscard]] SpawnedProgram start_learning(const std::string &run,
                                                const std::string &table) const {
        return {{"--library", (folder_ / "library.db").string(), "learn", table},
                folder_ / (run + ".err")};
    }

    /// The number of values in the library, without the first one.
    [[nodiscard]] std::int64_t values() const { return values_in(library_) - 1; }

    const std::filesystem::path library_ = folder_ / "library.db";
};

TEST_F(ProcessesTest, WritersAtTheSameTimeLoseNothingAndWaitForEachOther) {
    constexpr int kWriters = 4;
    constexpr int kChanges = 10;
    constexpr int kRows = 40;
    std::vector<std::string> faults(kWriters);
    std::vector<std::thread> writers;
    for (int writer = 0; writer < kWriters; ++writer) {
        writers.emplace_back([&, writer] {
            for (int change = 0; change < kChanges; ++change) {
                const std::string run = fmt::format("w{}c{}", writer, change);
                SpawnedProgram program = start_learning(run, table(run, kRows));
                if (program.wait() != kDone) {
                    faults[static_cast<std::size_t>(writer)] += program.messages();
                }
            }
        });
    }
    for (std::thread &writer : writers) {
        writer.join();
    }
    for (const std::string &fault : faults) {
        EXPECT_EQ(fault, "");
    }
    EXPECT_EQ(values(), kWriters * kChanges * kRows);
    EXPECT_EQ(number_in(library_, "SELECT count(*) FROM run WHERE name <> ''"),
              kWriters * kChanges);
    EXPECT_EQ(integrity_of(library_), "ok");
}

TEST_F(ProcessesTest, AWriterWaitsForReadersToFinish) {
    library::Database reader = library::open_library(library_, library::Access::read);
    reader.execute("BEGIN");
    const auto values_seen = [&] {
        library::Statement query = reader.prepare("SELECT count(*) FROM measurement");
        return query.step() ? query.integer(0) : -1;
    };
    ASSERT_EQ(values_seen(), 1);
    SpawnedProgram program = start_learning("c", table("c", 2000));
    for (int i = 0; i < 10'000 && !std::filesystem::exists(library_.string() + "-journal"); ++i) {
        std::this_thread::sleep_for(std::chrono::milliseconds(1));
    }
    for (int i = 0; i < 20; ++i) {
        std::this_thread::sleep_for(std::chrono::milliseconds(20));
        EXPECT_EQ(values_seen(), 1); // one moment, however long it takes
    }
    reader.execute("COMMIT");
    EXPECT_EQ(program.wait(), kDone) << program.messages();
    EXPECT_EQ(values_seen(), 1 + 2000);
    EXPECT_EQ(integrity_of(library_), "ok");
}

TEST_F(ProcessesTest, ALargeChangeKeepsNobodyFromReadingUntilItIsWritten) {
    library::Database writer = library::open_library(library_, library::Access::write);
    library::Transaction transaction(writer);
    constexpr std::uint64_t more_than_a_cache = 48 << 20;
    writer.execute(fmt::format("CREATE TABLE large AS WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL "
                               "SELECT i + 1 FROM n WHERE i < {}) SELECT zeroblob(4096) FROM n",
                               more_than_a_cache / 4096));
    SpawnedProgram reader({"--library", library_.string(), "list"}, folder_ / "messages");
    EXPECT_EQ(reader.wait(), kDone) << reader.messages(); // else it would wait a minute, in vain
}

TEST_F(ProcessesTest, AWriterThatWaitsForAReaderCanBeInterrupted) {
    library::Database reader = library::open_library(library_, library::Access::read);
    reader.execute("BEGIN; SELECT count(*) FROM measurement");
    SpawnedProgram program = start_learning("c", table("c", 2000));
    for (int i = 0; i < 10'000 && !std::filesystem::exists(library_.string() + "-journal"); ++i) {
        std::this_thread::sleep_for(std::chrono::milliseconds(1));
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(300)); // it wants to commit
    program.send(SIGINT);
    EXPECT_EQ(program.wait_for_signal(), SIGINT) << program.messages();
    reader.execute("COMMIT");
    EXPECT_EQ(values(), 0);
    EXPECT_EQ(files_in(folder_ / ""),
              (std::set<std::string>{"c.csv", "c.err", "first.csv", "library.db"}));
}

TEST_F(ProcessesTest, AnOldLibraryLeavesItsWriteAheadLogOnceWhileManyWrite) {
    library::Database(library_, library::Access::write).execute("PRAGMA journal_mode = WAL");
    std::vector<SpawnedProgram> programs;
    for (int i = 0; i < 4; ++i) {
        const std::string run = fmt::format("w{}", i);
        programs.push_back(start_learning(run, table(run, 100)));
    }
    int notes = 0;
    for (SpawnedProgram &program : programs) {
        EXPECT_EQ(program.wait(), kDone) << program.messages();
        notes += program.messages().find("network folder") == std::string::npos ? 0 : 1;
    }
    EXPECT_LE(notes, 1);      // none where they were never alone
    EXPECT_EQ(values(), 400); // opens it alone, for writing
    const auto library = library::open_library(library_, library::Access::read);
    EXPECT_FALSE(library::has_write_ahead_log(library));
    int backups = 0;
    for (const std::string &name : files_in(folder_ / "")) {
        backups += name.ends_with(".backup") ? 1 : 0;
    }
    EXPECT_EQ(backups, 1);
}

TEST_F(ProcessesTest, LearningOneFileTwiceAtOnceStoresItOnce) {
    const std::string both = table("both", 500);
    for (int i = 0; i < 5; ++i) {
        SpawnedProgram one = start_learning("one", both);
        SpawnedProgram two = start_learning("two", both);
        EXPECT_EQ(one.wait(), kDone) << one.messages();
        EXPECT_EQ(two.wait(), kDone) << two.messages();
        EXPECT_EQ(values(), 500);
    }
}

TEST_F(ProcessesTest, BackupsMadeWhileOthersWriteAreWholeChanges) {
    constexpr int kRows = 40;
    constexpr int kChanges = 15;
    std::thread writer([&] {
        for (int change = 0; change < kChanges; ++change) {
            const std::string run = fmt::format("c{}", change);
            (void)start_learning(run, table(run, kRows)).wait();
        }
    });
    std::vector<std::int64_t> sizes;
    for (int i = 0; i < 10; ++i) {
        const std::string name = fmt::format("backup{}.db", i);
        const Outcome outcome = cospot({"--json", "backup", (folder_ / name).string()});
        ASSERT_EQ(outcome.code, kDone) << outcome.err;
        sizes.push_back(outcome.lines().at(0)["values"].get<std::int64_t>() - 1);
    }
    writer.join();
    for (const std::int64_t size : sizes) {
        EXPECT_EQ(size % kRows, 0) << size;
    }
    EXPECT_EQ(values(), kChanges * kRows);
}

TEST_F(ProcessesTest, AnOldLibraryIsUpgradedOnceByManyProcesses) {
    std::filesystem::remove(library_);
    library::create_filled_format_1(library_);
    std::vector<SpawnedProgram> programs;
    for (int i = 0; i < 6; ++i) {
        programs.emplace_back(
            std::vector<std::string>{"--library", (folder_ / "library.db").string(), "list"},
            folder_ / fmt::format("{}.err", i));
    }
    int notes = 0;
    for (SpawnedProgram &program : programs) {
        EXPECT_EQ(program.wait(), kDone) << program.messages();
        notes += program.messages().find("upgraded") == std::string::npos ? 0 : 1;
    }
    EXPECT_EQ(notes, 1);
    EXPECT_FALSE(std::filesystem::exists(folder_ / "library.db.format-1.2.backup"));
    EXPECT_EQ(values(), 0);
}

TEST_F(ProcessesTest, KillsAtRandomMomentsLoseNoCommittedChange) {
    constexpr int kKills = kSlowness > 1 ? 40 : 100;
    constexpr int kRows = 300;
    std::mt19937 engine(20260131);
    const auto before = steady_clock::now();
    ASSERT_EQ(start_learning("warm-up", table("warm-up", kRows)).wait(), kDone);
    // Up to a little more than a whole change takes, so that kills hit every part of it.
    const auto longest = (steady_clock::now() - before) * 6 / 5;
    std::uniform_real_distribution<double> moment(0.0, 1.0);
    std::int64_t committed = kRows;
    int kills = 0;
    int kills_after_commit = 0;
    for (int attempt = 0; kills < kKills; ++attempt) {
        ASSERT_LT(attempt, 20 * kKills) << "the program ends before it can be killed";
        const std::string run = fmt::format("a{}", attempt);
        SpawnedProgram program = start_learning(run, table(run, kRows));
        std::this_thread::sleep_for(longest * moment(engine));
        program.kill();
        const int code = program.wait();
        const std::int64_t added = values() - committed;
        ASSERT_EQ(integrity_of(library_), "ok");
        ASSERT_TRUE(added == 0 || added == kRows) << added << " of " << kRows << " values";
        ASSERT_TRUE(code == -1 || (code == kDone && added == kRows)) << program.messages();
        kills += code == -1 ? 1 : 0;
        kills_after_commit += code == -1 && added == kRows ? 1 : 0;
        committed += added;
    }
    RecordProperty("kills_after_commit", kills_after_commit);
    EXPECT_LT(kills_after_commit, kills); // some hit a change that was not committed yet
    EXPECT_EQ(start_learning("last", table("last", kRows)).wait(), kDone);
    EXPECT_EQ(values(), committed + kRows);
}

} // namespace
} // namespace cospot
