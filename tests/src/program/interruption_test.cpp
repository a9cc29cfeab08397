// Ctrl-C and the like: the library stays sound, no unfinished file stays, and the shell is told.
#include "library_state.h"
#include "program_fixture.h"
#include "spawned_program.h"

#include "../../library/sample_library.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <random>
#include <thread>

namespace cospot {
namespace {

namespace fs = std::filesystem;
using std::chrono::milliseconds;
using std::chrono::steady_clock;

class InterruptionTest : public ProgramTest {
protected:
    InterruptionTest() {
        const Outcome learned =
            cospot({"learn", "--create-systems",
                    file("first.csv", "compound,smiles,system,quantity,value,run\n"
                                      "ethanol,CCO,s,Rf,0.3,r1\n")});
        EXPECT_EQ(learned.code, kDone) << learned.err;
    }

    /// A table of values of one run, every hundredth row of which is faulty if asked for.
    [[nodiscard]] std::string table(const std::string &name, int rows, bool has_faults) const {
        std::string content = "compound,smiles,system,quantity,value,run\n";
        for (int i = 0; i < rows; ++i) {
            content += has_faults && i % 100 == 99
                           ? fmt::format("ethanol,,s,Rf,much,{}\n", name)
                           : fmt::format("ethanol,,s,Rf,{:.7f},{}\n", 1e-7 * (i + 1), name);
        }
        return file(name + ".csv", content);
    }

    [[nodiscard]] SpawnedProgram start(std::vector<std::string> arguments) const {
        arguments.insert(arguments.begin(), {"--library", library_.string()});
        return {arguments, messages_ / "messages"};
    }

    /// Waits until the program changes the library.
    void wait_for_journal() const {
        for (int i = 0; i < 10'000 && !fs::exists(library_.string() + "-journal"); ++i) {
            std::this_thread::sleep_for(milliseconds(1));
        }
    }

    library::TemporaryFolder messages_;
    const fs::path library_ = folder_ / "library.db";
};

TEST_F(InterruptionTest, LearningIsUndoneAndCanBeRunAgain) {
    constexpr int kRows = 400'000 / kSlowness;
    const std::string many = table("many", kRows, true);
    const auto before = files_in(folder_ / "");
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
        SpawnedProgram program = start({"learn", "--partial", many});
        wait_for_journal();
        std::this_thread::sleep_for(milliseconds(150)); // some rows and refusals are written
        program.send(signal);
        EXPECT_EQ(program.wait_for_signal(), signal) << program.messages();
        EXPECT_NE(program.messages().find("interrupted"), std::string::npos) << program.messages();
        EXPECT_EQ(files_in(folder_ / ""), before);
        EXPECT_EQ(integrity_of(library_), "ok");
        EXPECT_EQ(values_in(library_), 1);
    }
    const std::string less = table("many", 1000, true);
    EXPECT_EQ(cospot({"learn", "--partial", less}).code, kNeedsAttention);
    EXPECT_EQ(values_in(library_), 1 + 990);
    fs::remove(less + ".refused.csv");
    EXPECT_EQ(cospot({"learn", "--partial", less}).code, kNeedsAttention);
    EXPECT_EQ(values_in(library_), 1 + 990); // each row once
}

TEST_F(InterruptionTest, ASignalThatWasIgnoredStaysIgnored) {
    const auto before = std::signal(SIGHUP, SIG_IGN);
    SpawnedProgram program = start({"learn", table("kept", 50'000, false)});
    (void)std::signal(SIGHUP, before);
    wait_for_journal();
    program.send(SIGHUP);
    EXPECT_EQ(program.wait(), kDone) << program.messages();
    EXPECT_EQ(values_in(library_), 50'001);
}

TEST_F(InterruptionTest, WhileFitsAreMadeTheChangeIsStoredAndTheUserIsTold) {
    ASSERT_EQ(cospot({"learn", table("many", 400'000 / kSlowness, false)}).code, kDone);
    const auto retired = [&] {
        return number_in(library_,
                         "SELECT count(*) FROM measurement WHERE retired_change_id IS NOT NULL");
    };
    for (const int signal : {SIGINT, SIGTERM}) {
        const std::int64_t before = retired();
        SpawnedProgram program = start(
            {"retire", "--value", std::to_string(before + 1), "--reason", "an invented reason"});
        for (int i = 0; i < 10'000 && retired() == before; ++i) {
            std::this_thread::sleep_for(milliseconds(1));
        }
        program.send(signal);
        EXPECT_EQ(program.wait_for_signal(), signal) << program.messages();
        EXPECT_EQ(retired(), before + 1);
        EXPECT_NE(program.messages().find("is committed"), std::string::npos) << program.messages();
        EXPECT_EQ(program.messages().find("undone"), std::string::npos) << program.messages();
    }
}

/// A command that makes a file or changes the library, and how to see that what it made is whole.
struct Work {
    std::vector<std::string> arguments;
    std::string made; ///< name of the file
    bool (*is_whole)(const fs::path &made);
};

bool is_sound_library(const fs::path &file) {
    return integrity_of(file) == "ok";
}

bool is_whole_page(const fs::path &file) {
    return bytes_of(file).ends_with("</html>\n");
}

constexpr int kRows = 20'000 / kSlowness;

bool is_whole_export(const fs::path &file) {
    const std::string text = bytes_of(file);
    return std::count(text.begin(), text.end(), '\n') == kRows + 2; // a heading, the first value
}

TEST_F(InterruptionTest, NoUnfinishedFileIsEverLeft) {
    ASSERT_EQ(cospot({"learn", table("some", kRows, false)}).code, kDone);
    const fs::path base = folder_ / "base.db";
    ASSERT_EQ(cospot({"backup", base.string()}).code, kDone);
    const std::string other = (folder_ / "other.db").string();
    ASSERT_EQ(cospot({"--library", other, "init"}).code, kDone);
    ASSERT_EQ(
        cospot({"--library", other, "learn", "--create-systems", (folder_ / "first.csv").string()})
            .code,
        kDone);
    ASSERT_EQ(cospot({"--library", other, "learn", table("else", 5000, false)}).code, kDone);
    const std::string unknown =
        file("u.csv", "sample,feature,system,quantity,value\nf,1,s,Rf,0.0005\n");
    const auto path = [&](const char *name) { return (folder_ / name).string(); };
    const std::vector<Work> all{
        {{"backup", path("b.db")}, "b.db", is_sound_library},
        {{"export", "values", "--output", path("v.csv")}, "v.csv", is_whole_export},
        {{"--library", path("new.db"), "init"}, "new.db", is_sound_library},
        {{"prove", "--report", path("p.html")}, "p.html", is_whole_page},
        {{"identify", unknown, "--report", path("i.html")}, "i.html", is_whole_page},
        {{"merge", other}, "library.db", is_sound_library}};
    auto allowed = files_in(folder_ / "");
    std::mt19937 engine(20260131);
    std::uniform_real_distribution<double> moment(0.0, 1.0);
    int interruptions = 0;
    for (const Work &work : all) {
        allowed.insert(work.made);
        steady_clock::duration longest{};
        for (int i = 0; i < 8; ++i) { // the moments differ from work to work
            fs::remove(folder_ / work.made);
            fs::copy_file(base, library_, fs::copy_options::overwrite_existing);
            const auto begin = steady_clock::now();
            SpawnedProgram program = start(work.arguments);
            if (i == 0) { // how long it takes
                (void)program.wait();
                longest = steady_clock::now() - begin;
            } else {
                std::this_thread::sleep_for(longest * moment(engine));
                program.send(i % 2 == 0 ? SIGINT : SIGTERM);
                interruptions += program.wait_for_signal() != 0 ? 1 : 0;
            }
            EXPECT_EQ(integrity_of(library_), "ok");
            const std::int64_t values = values_in(library_);
            EXPECT_TRUE(values == kRows + 1 || values == kRows + 5001) << values;
            for (const std::string &name : files_in(folder_ / "")) {
                EXPECT_EQ(allowed.count(name), 1U) << name;
            }
            EXPECT_TRUE(!fs::exists(folder_ / work.made) || work.is_whole(folder_ / work.made))
                << work.made;
        }
    }
    EXPECT_GT(interruptions, 6);
}

} // namespace
} // namespace cospot
