// A disk without room: what is stored is whole or absent, and the message says what to do.
#include "library_state.h"
#include "program_fixture.h"
#include "spawned_program.h"

#include "../../library/sample_library.h"

#include <fmt/format.h>

#include <csignal>
#include <sched.h>
#include <sys/mount.h>
#include <sys/resource.h>

namespace cospot {
namespace {

namespace fs = std::filesystem;

/// While it lives, no file that this process writes grows beyond a size, as on a full disk.
class FullDisk {
public:
    explicit FullDisk(rlim_t bytes) : handler_(std::signal(SIGXFSZ, SIG_IGN)) {
        getrlimit(RLIMIT_FSIZE, &before_);
        const rlimit limit{bytes, before_.rlim_max};
        setrlimit(RLIMIT_FSIZE, &limit);
    }
    ~FullDisk() {
        setrlimit(RLIMIT_FSIZE, &before_);
        (void)std::signal(SIGXFSZ, handler_);
    }
    FullDisk(const FullDisk &) = delete;
    FullDisk &operator=(const FullDisk &) = delete;

private:
    rlimit before_{};
    void (*handler_)(int);
};

/// A library with two systems and a compound, and a table of 3,000 further values.
class FullDiskTest : public ProgramTest {
protected:
    FullDiskTest() {
        const Outcome learned =
            cospot({"learn", "--create-systems",
                    file("first.csv", "compound,smiles,system,quantity,value,run\n"
                                      "ethanol,CCO,s,Rf,0.31,r1\nethanol,CCO,s,Rf,0.33,r2\n")});
        EXPECT_EQ(learned.code, kDone) << learned.err;
        std::string rows = "compound,smiles,system,quantity,value,run\n";
        for (int i = 0; i < kRows; ++i) {
            rows += fmt::format("ethanol,CCO,s,Rf,{:.5f},many\n", 0.0001 * (i + 1));
        }
        many_ = file("many.csv", rows);
    }

    Outcome on_full_disk(rlim_t bytes, const std::vector<std::string> &arguments) const {
        const FullDisk full(bytes);
        return cospot(arguments);
    }

    /// Nothing happened but a message that names the file and what to do.
    static void expect_refused(const Outcome &outcome, const std::string &name) {
        EXPECT_EQ(outcome.code, kBadInput) << outcome.out;
        EXPECT_NE(outcome.err.find(name), std::string::npos) << outcome.err;
        EXPECT_TRUE(outcome.err.find("ree some space") != std::string::npos) << outcome.err;
    }

    /// As `values_in`, but the library stays in the form that it has.
    [[nodiscard]] std::int64_t number_of_values() const {
        const auto database = library::open_library(library_, library::Access::read);
        library::Statement query = database.prepare("SELECT count(*) FROM measurement");
        return query.step() ? query.integer(0) : -1;
    }

    static constexpr int kRows = 3000;
    const fs::path library_ = folder_ / "library.db";
    std::string many_;
};

TEST_F(FullDiskTest, LearningStoresAllOrNothingAndCanBeRunAgain) {
    int refusals = 0;
    for (const rlim_t bytes :
         {0U, 1000U, 20'000U, 40'000U, 80'000U, 120'000U, 200'000U, 300'000U}) {
        const Outcome outcome = on_full_disk(bytes, {"learn", many_});
        ASSERT_EQ(integrity_of(library_), "ok") << bytes;
        if (outcome.code == kDone) {
            EXPECT_EQ(values_in(library_), kRows + 2) << bytes;
            break;
        }
        ++refusals;
        expect_refused(outcome, "library.db");
        EXPECT_EQ(values_in(library_), 2) << bytes;
        EXPECT_EQ(files_in(folder_ / ""),
                  (std::set<std::string>{"first.csv", "library.db", "many.csv"}));
    }
    EXPECT_GE(refusals, 4);
    EXPECT_EQ(cospot({"learn", many_}).code, kDone);
    EXPECT_EQ(values_in(library_), kRows + 2);
}

TEST_F(FullDiskTest, RefusedRowsThatCannotBeWrittenStopLearning) {
    const std::string faulty = file("faulty.csv", "compound,smiles,system,quantity,value,run\n"
                                                  "ethanol,CCO,s,Rf,0.4,r3\n"
                                                  "ethanol,CCO,s,Rf,much,r3\n");
    // Room for the journal, and a message that is longer than what is left.
    const auto before = files_in(folder_ / "");
    std::string long_rows = "compound,smiles,system,quantity,value,run\n";
    for (int i = 0; i < 600; ++i) {
        long_rows += "ethanol,CCO,s,Rf,much," + std::string(100, 'r') + "\n";
    }
    const std::string many = file("long.csv", long_rows);
    const Outcome outcome = on_full_disk(70'000, {"learn", "--partial", many});
    EXPECT_EQ(outcome.code, kBadInput) << outcome.out;
    EXPECT_NE(outcome.err.find("long.csv.refused.csv"), std::string::npos) << outcome.err;
    fs::remove(many);
    EXPECT_EQ(files_in(folder_ / ""), before);
    EXPECT_EQ(values_in(library_), 2);
    EXPECT_EQ(cospot({"learn", "--partial", faulty}).code, kNeedsAttention);
    EXPECT_EQ(values_in(library_), 3);
}

TEST_F(FullDiskTest, MergingStoresAllOrNothing) {
    const std::string other = path("other.db");
    ASSERT_EQ(cospot({"--library", other, "init"}).code, kDone);
    ASSERT_EQ(cospot({"--library", other, "learn", "--create-systems", many_}).code, kDone);
    for (const rlim_t bytes : {0U, 20'000U, 80'000U}) {
        expect_refused(on_full_disk(bytes, {"merge", other}), "");
        EXPECT_EQ(values_in(library_), 2);
        EXPECT_EQ(integrity_of(library_), "ok");
        EXPECT_EQ(values_in(other), kRows);
    }
    EXPECT_EQ(cospot({"merge", other}).code, kDone);
    EXPECT_EQ(values_in(library_), kRows + 2);
}

TEST_F(FullDiskTest, NoPartOfANewFileIsLeft) {
    ASSERT_EQ(cospot({"learn", many_}).code, kDone);
    const std::string plate = file("u.csv", "sample,feature,system,quantity,value\nf,1,s,Rf,0.3\n");
    const auto before = files_in(folder_ / "");
    const std::vector<std::pair<std::string, std::vector<std::string>>> cases{
        {"copy.db", {"backup", path("copy.db")}},
        {"v.csv", {"export", "values", "--output", path("v.csv")}},
        {"r.html", {"identify", plate, "--report", path("r.html")}},
        {"r.json", {"audit", "--report", path("r.json")}},
        {"new.db", {"--library", path("new.db"), "init"}}};
    for (const auto &[name, arguments] : cases) {
        expect_refused(on_full_disk(0, arguments), name);
        EXPECT_EQ(files_in(folder_ / ""), before) << name;
        if (name != "new.db") { // which fits into what follows
            expect_refused(on_full_disk(name == "r.json" ? 100 : 5'000, arguments), name);
            EXPECT_EQ(files_in(folder_ / ""), before) << name;
        }
    }
    for (const auto &[name, arguments] : cases) {
        EXPECT_NE(cospot(arguments).code, kBadInput) << name;
        EXPECT_TRUE(fs::exists(path(name)));
    }
}

TEST_F(FullDiskTest, ALibraryOfAnOldFormatStaysAsItIs) {
    const std::string old = path("old.db");
    library::create_filled_format_1(old);
    for (const rlim_t bytes : {0U, 8'000U, 40'000U}) {
        expect_refused(on_full_disk(bytes, {"--library", old, "list"}), "old.db");
        EXPECT_EQ(library::format_of(library::open_unchanged(old)), 1);
        EXPECT_EQ(files_in(folder_ / ""),
                  (std::set<std::string>{"first.csv", "library.db", "many.csv", "old.db"}));
    }
    EXPECT_EQ(cospot({"--library", old, "list"}).code, kDone);
    EXPECT_EQ(integrity_of(old), "ok");
    EXPECT_EQ(values_in(old), 1);
}

TEST_F(FullDiskTest, ALibraryWithAWriteAheadLogStaysAsItIs) {
    library::Database(library_, library::Access::write).execute("PRAGMA journal_mode = WAL");
    const auto before = files_in(folder_ / "");
    for (const rlim_t bytes : {0U, 20'000U, 100'000U}) {
        expect_refused(on_full_disk(bytes, {"learn", many_}), "library.db");
        EXPECT_EQ(number_of_values(), 2);
        EXPECT_EQ(files_in(folder_ / ""), before);
    }
    EXPECT_EQ(cospot({"learn", many_}).code, kDone);
    EXPECT_EQ(number_of_values(), kRows + 2);
}

TEST_F(FullDiskTest, OutputThatCannotBeWrittenIsNotPassedOver) {
    const std::string plate = file("u.csv", "sample,feature,system,quantity,value\nf,1,s,Rf,0.3\n");
    for (const std::vector<std::string> &arguments : {std::vector<std::string>{"list"},
                                                      {"show", "ethanol"},
                                                      {"export", "values"},
                                                      {"--json", "identify", plate},
                                                      {"identify", plate},
                                                      {"audit"},
                                                      {"predict", "CCO"},
                                                      {"learn", "--dry-run", many_},
                                                      {"--help"}}) {
        std::vector<std::string> all{"--library", library_.string()};
        all.insert(all.end(), arguments.begin(), arguments.end());
        SpawnedProgram program(all, path("messages"), "/dev/full");
        EXPECT_EQ(program.wait(), kBadInput) << arguments.front();
        EXPECT_NE(program.messages().find("output"), std::string::npos) << program.messages();
        EXPECT_EQ(program.messages().find("is committed"), std::string::npos) << program.messages();
    }
    // What was stored stays stored, and the message says so.
    SpawnedProgram program({"--library", library_.string(), "learn", many_}, path("messages"),
                           "/dev/full");
    EXPECT_EQ(program.wait(), kBadInput);
    EXPECT_NE(program.messages().find("is committed"), std::string::npos) << program.messages();
    EXPECT_EQ(values_in(library_), kRows + 2);
}

/// Whether this process has the folder as a disk of its own, of 512 KiB, from now on.
bool has_small_disk(const fs::path &folder) {
    const uid_t user = geteuid();
    const gid_t group = getegid();
    if (unshare(CLONE_NEWNS | (user == 0 ? 0 : CLONE_NEWUSER)) != 0) {
        return false;
    }
    if (user != 0) { // who is who in the new namespace
        std::ofstream("/proc/self/uid_map") << fmt::format("{0} {0} 1", user);
        std::ofstream("/proc/self/setgroups") << "deny";
        std::ofstream("/proc/self/gid_map") << fmt::format("{0} {0} 1", group);
    }
    return mount("none", "/", nullptr, MS_REC | MS_PRIVATE, nullptr) == 0 &&
           mount("cospot-test", folder.c_str(), "tmpfs", 0, "size=512k") == 0;
}

class SmallDiskTest : public FullDiskTest {
protected:
    void fill_and_empty(const fs::path &disk) const {
        const std::string small = (disk / "small.db").string();
        ASSERT_EQ(cospot({"--library", small, "init"}).code, kDone);
        ASSERT_EQ(cospot({"--library", small, "learn", "--create-systems", path("first.csv")}).code,
                  kDone);
        std::ofstream(disk / "ballast") << std::string(250'000, 'x');
        expect_refused(cospot({"--library", small, "learn", many_}), "small.db");
        EXPECT_EQ(values_in(small), 2);
        EXPECT_EQ(integrity_of(small), "ok");
        std::ofstream(disk / "more") << std::string(400'000, 'x'); // to the last byte
        expect_refused(cospot({"--library", small, "backup", (disk / "copy.db").string()}), "");
        EXPECT_EQ(cospot({"--library", small, "list"}).code, kDone);
        EXPECT_EQ(files_in(disk), (std::set<std::string>{"ballast", "more", "small.db"}));
        fs::remove(disk / "ballast");
        fs::remove(disk / "more");
        EXPECT_EQ(cospot({"--library", small, "learn", many_}).code, kDone);
        EXPECT_EQ(values_in(small), kRows + 2);
    }
};

TEST_F(SmallDiskTest, AFullDiskLosesNothing) {
    constexpr int kNoDisk = 77;
    const fs::path disk = folder_ / "disk";
    fs::create_directory(disk);
    const pid_t child = fork();
    if (child == 0) {
        if (!has_small_disk(disk)) {
            _exit(kNoDisk);
        }
        try {
            fill_and_empty(disk);
        } catch (const std::exception &error) {
            ADD_FAILURE() << error.what();
        }
        _exit(HasFailure() ? 1 : 0);
    }
    int status = 0;
    waitpid(child, &status, 0);
    ASSERT_TRUE(WIFEXITED(status));
    if (WEXITSTATUS(status) == kNoDisk) {
        GTEST_SKIP() << "this user may not mount a file system in a namespace";
    }
    EXPECT_EQ(WEXITSTATUS(status), 0);
}

} // namespace
} // namespace cospot
