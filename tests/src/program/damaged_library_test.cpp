// Files that are no library, or one no longer: refused with a message, never read wrongly.
#include "library_state.h"
#include "program_fixture.h"

#include <fmt/format.h>

#include <sys/stat.h>

namespace cospot {
namespace {

namespace fs = std::filesystem;

/// A library of several hundred values of 20 compounds on four systems, as one file.
class DamagedLibraryTest : public ProgramTest {
protected:
    DamagedLibraryTest() {
        std::string rows = "compound,smiles,system,quantity,value,run,date,note\n";
        for (int compound = 1; compound <= 20; ++compound) {
            for (int system = 1; system <= 4; ++system) {
                for (int run = 1; run <= 8; ++run) {
                    rows +=
                        fmt::format("alkanol {0},{1}O,s{2},Rf,{3:.4f},r{4},2025-0{4}-11,{5}\n",
                                    compound, std::string(static_cast<std::size_t>(compound), 'C'),
                                    system, 0.04 * compound + 0.02 * system + 0.001 * run, run,
                                    "an invented note of some length");
                }
            }
        }
        const Outcome learned = cospot({"learn", "--create-systems", file("v.csv", rows)});
        EXPECT_EQ(learned.code, kDone) << learned.err;
        EXPECT_EQ(cospot({"backup", whole_.string()}).code, kDone);
        unknown_ = file("u.csv", "sample,feature,system,quantity,value\n"
                                 "f,1,s1,Rf,0.31\nf,1,s2,Rf,0.33\nf,2,s3,Rf,0.52\n");
    }

    Outcome with(const fs::path &library, std::vector<std::string> arguments) const {
        arguments.insert(arguments.begin(), {"--library", library.string()});
        return cospot(arguments);
    }

    /// Commands that read a library, each another part of it.
    [[nodiscard]] std::vector<std::vector<std::string>> readings() const {
        return {{"--json", "list"},
                {"--json", "list", "systems"},
                {"--json", "show", "alkanol 7", "--all"},
                {"export", "values"},
                {"--json", "identify", unknown_},
                {"--json", "audit"}};
    }

    /// Every command refuses the file by its name, says what to do, and leaves it alone.
    void expect_refused(const fs::path &library, const std::string &advice) const {
        const std::string before = bytes_of(library);
        std::vector<std::vector<std::string>> commands = readings();
        commands.push_back({"learn", (folder_ / "v.csv").string()});
        commands.push_back({"retire", "--value", "1", "--reason", "test"});
        commands.push_back({"prove"});
        commands.push_back({"backup", (folder_ / "copy.db").string()});
        for (const auto &arguments : commands) {
            expect_message(with(library, arguments), library, advice);
        }
        expect_message(cospot({"merge", library.string()}), library, advice);
        EXPECT_EQ(bytes_of(library), before);
        EXPECT_FALSE(fs::exists(folder_ / "copy.db"));
    }

    static void expect_message(const Outcome &outcome, const fs::path &library,
                               const std::string &advice) {
        EXPECT_EQ(outcome.code, kBadInput) << library << outcome.out;
        EXPECT_NE(outcome.err.find(library.filename().string()), std::string::npos) << outcome.err;
        EXPECT_NE(outcome.err.find(advice), std::string::npos) << outcome.err;
    }

    [[nodiscard]] fs::path written(const std::string &name, const std::string &bytes) const {
        return file(name, bytes);
    }

    const fs::path whole_ = folder_ / "whole.db";
    std::string unknown_;
};

TEST_F(DamagedLibraryTest, ACutLibraryIsRefusedWhereverItWasCut) {
    const std::string bytes = bytes_of(whole_);
    ASSERT_GT(bytes.size(), 20U * 4096U);
    for (const std::size_t length : {0U, 1U, 15U}) {
        expect_refused(written("cut.db", bytes.substr(0, length)), "init");
    }
    for (const std::size_t length :
         {std::size_t{16}, std::size_t{99}, std::size_t{100}, std::size_t{512}, std::size_t{4095},
          std::size_t{4096}, std::size_t{4097}, bytes.size() / 2, bytes.size() - 4097,
          bytes.size() - 4096, bytes.size() - 1000, bytes.size() - 1}) {
        SCOPED_TRACE(length);
        expect_refused(written("cut.db", bytes.substr(0, length)), "backup");
    }
}

TEST_F(DamagedLibraryTest, ADamagedPageIsReportedOrNotNeededButNeverReadWrongly) {
    const std::string bytes = bytes_of(whole_);
    std::vector<std::string> answers;
    for (const auto &arguments : readings()) {
        answers.push_back(with(whole_, arguments).out);
        ASSERT_EQ(answers.back().empty(), arguments[1] == "audit"); // which finds nothing
    }
    constexpr std::size_t page = 4096;
    std::size_t reports = 0;
    for (const bool is_blank : {false, true}) {
        // Every other page blank, those between them inverted.
        for (std::size_t at = is_blank ? page : 0; at < bytes.size(); at += 2 * page) {
            std::string damaged = bytes;
            for (std::size_t i = at == 0 ? 100 : at; i < at + page; ++i) { // the head stays
                damaged[i] = is_blank ? '\0' : static_cast<char>(~damaged[i]);
            }
            const fs::path library = written("page.db", damaged);
            for (std::size_t i = 0; i < answers.size(); ++i) {
                const Outcome outcome = with(library, readings()[i]);
                SCOPED_TRACE(fmt::format("page {}, {}", at / page + 1, readings()[i][1]));
                if (outcome.code == kBadInput) {
                    ++reports;
                    expect_message(outcome, library, "restore a backup");
                } else {
                    EXPECT_EQ(outcome.out, answers[i]);
                }
            }
            const Outcome copied = with(library, {"backup", (folder_ / "copy.db").string()});
            if (copied.code == kDone) { // a page that holds nothing
                EXPECT_EQ(values_in(folder_ / "copy.db"), 640);
                fs::remove(folder_ / "copy.db");
            }
            ASSERT_EQ(bytes_of(library), damaged);
        }
    }
    EXPECT_GT(reports, bytes.size() / page / 2);
}

TEST_F(DamagedLibraryTest, BytesThatFlippedNeverMakeTheProgramFail) {
    const std::string bytes = bytes_of(whole_);
    for (std::size_t at = 4096; at < bytes.size(); at += 3700) {
        std::string damaged = bytes;
        for (std::size_t i = at; i < std::min(at + 24, bytes.size()); ++i) {
            damaged[i] = static_cast<char>(~damaged[i]);
        }
        const fs::path library = written("flipped.db", damaged);
        for (const auto &arguments : readings()) {
            const Outcome outcome = with(library, arguments);
            if (outcome.code == kBadInput) {
                expect_message(outcome, library, "restore a backup");
            }
        }
        EXPECT_EQ(bytes_of(library), damaged);
    }
}

TEST_F(DamagedLibraryTest, AValueThatIsNoFiniteNumberIsDamage) {
    library::Database(whole_, library::Access::write)
        .execute(
            "UPDATE measurement SET value = 9e999 WHERE id = (SELECT min(m.id) FROM measurement "
            "AS m JOIN compound AS c ON c.id = m.compound_id WHERE c.name = 'alkanol 7')");
    std::vector<std::vector<std::string>> commands = readings();
    commands.push_back({"prove", "--dry-run"});
    for (const auto &arguments : commands) {
        SCOPED_TRACE(arguments.back());
        if (arguments[1] != "list") { // which reads no values
            expect_message(with(whole_, arguments), whole_, "restore a backup");
        }
    }
}

TEST_F(DamagedLibraryTest, OtherKindsOfFilesAreNoLibrary) {
    const std::string init = "cospot --library FILE init";
    expect_refused(written("table.db", "compound,smiles\nethanol,CCO\n"), init);
    expect_refused(written("picture.db", "\x89PNG\r\n\x1A\n" + std::string(9000, '\x07')), init);
    const fs::path other = folder_ / "other.db";
    library::Database(other, library::Access::create)
        .execute("CREATE TABLE compound (id INTEGER); INSERT INTO compound VALUES (1)");
    expect_refused(other, init);
    for (const char *name : {"/dev/null", "/dev/zero"}) {
        expect_message(with(name, {"list"}), name, init);
        expect_message(with(name, {"learn", (folder_ / "v.csv").string()}), name, init);
        expect_message(cospot({"merge", name}), name, init);
    }
    const fs::path folder = folder_ / "folder.db";
    fs::create_directory(folder);
    const fs::path pipe = folder_ / "pipe.db";
    ASSERT_EQ(mkfifo(pipe.c_str(), 0600), 0);
    for (const fs::path &name : {folder, pipe}) { // opening a pipe would wait for ever
        expect_message(with(name, {"list"}), name, init);
        expect_message(with(name, {"learn", (folder_ / "v.csv").string()}), name, init);
        expect_message(cospot({"merge", name.string()}), name, init);
        expect_message(with(name, {"init"}), name, "never overwritten");
    }
}

TEST_F(DamagedLibraryTest, OrphanedFitsDoNotPreventABackup) {
    library::Database(whole_, library::Access::write)
        .execute("PRAGMA foreign_keys = OFF; DELETE FROM fit;"
                 "INSERT INTO fit (system_id, quantity, version, value_count, summary) "
                 "VALUES (99, 'Rf', 1, 1, x'')");
    const Outcome copied = with(whole_, {"backup", path("copy.db")});
    EXPECT_EQ(copied.code, kDone) << copied.err;
    EXPECT_EQ(values_in(path("copy.db")), 640);
    for (const auto &arguments : readings()) {
        EXPECT_EQ(with(path("copy.db"), arguments).out, cospot(arguments).out);
    }
}

TEST_F(DamagedLibraryTest, AMissingTableIsDamageInPlainWords) {
    library::Database(whole_, library::Access::write)
        .execute("PRAGMA foreign_keys = OFF; DROP TABLE fit_part; DROP TABLE fit");
    expect_message(with(whole_, {"identify", unknown_}), whole_, "no table fit");
    const std::string more =
        file("more.csv", "compound,smiles,system,quantity,value,run\nx,CCO,more,Rf,0.5,r\n");
    expect_message(with(whole_, {"learn", "--create-systems", more}), whole_, "restore a backup");
}

TEST_F(DamagedLibraryTest, ALibraryOfANewerFormatAsksForANewerProgram) {
    library::Database(whole_, library::Access::write).execute("PRAGMA user_version = 999");
    expect_refused(whole_, "update cospot");
}

} // namespace
} // namespace cospot
