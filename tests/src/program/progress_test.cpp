// How far long work has come: on a terminal only, with the time left.
#include "library_state.h"
#include "program_fixture.h"
#include "spawned_program.h"

#include <fmt/format.h>

#include <thread>

#include <cstdlib>
#include <fcntl.h>
#include <unistd.h>

namespace cospot {
namespace {

/// A terminal without a screen; gathers what is written to it.
class Terminal {
public:
    Terminal() : descriptor_(posix_openpt(O_RDWR | O_NOCTTY)) {
        if (descriptor_ >= 0 && grantpt(descriptor_) == 0 && unlockpt(descriptor_) == 0) {
            name_ = ptsname(descriptor_); // NOLINT(concurrency-mt-unsafe)
        }
    }
    ~Terminal() { close(descriptor_); }
    Terminal(const Terminal &) = delete;
    Terminal &operator=(const Terminal &) = delete;

    /// Empty where there are no terminals.
    [[nodiscard]] const std::string &name() const { return name_; }

    /// All that is written until the last program that has it open ends.
    [[nodiscard]] std::string read_all() const {
        std::string text;
        std::string block(4096, '\0');
        while (true) {
            const ssize_t count = read(descriptor_, block.data(), block.size());
            if (count <= 0) {
                return text;
            }
            text.append(block, 0, static_cast<std::size_t>(count));
        }
    }

private:
    int descriptor_;
    std::string name_;
};

class ProgressTest : public ProgramTest {
protected:
    ProgressTest() {
        std::string rows = "compound,smiles,system,quantity,value,run\n";
        for (int i = 0; i < 400'000 / kSlowness; ++i) {
            rows += fmt::format("ethanol,CCO,s,Rf,{:.7f},r\n", 1e-7 * (i + 1));
        }
        many_ = file("many.csv", rows);
    }

    [[nodiscard]] std::vector<std::string> learning() const {
        return {"--library", (folder_ / "library.db").string(),
                "learn",     "--create-systems",
                "--dry-run", many_};
    }

    std::string many_;
};

TEST_F(ProgressTest, IsShownOnATerminalWithTheTimeLeft) {
    const Terminal terminal;
    if (terminal.name().empty()) {
        GTEST_SKIP() << "no pseudo-terminals here";
    }
    SpawnedProgram program(learning(), terminal.name());
    const std::string shown = terminal.read_all();
    EXPECT_EQ(program.wait(), kDone) << shown;
    EXPECT_NE(shown.find("\r"), std::string::npos);
    EXPECT_NE(shown.find(" rows, "), std::string::npos) << shown;
    EXPECT_NE(shown.find(" s left"), std::string::npos) << shown;
    EXPECT_NE(shown.find("\r\033[K"), std::string::npos); // taken away at the end
}

TEST_F(ProgressTest, IsNotWrittenToAFile) {
    SpawnedProgram program(learning(), folder_ / "messages");
    EXPECT_EQ(program.wait(), kDone);
    EXPECT_EQ(program.messages().find(" left"), std::string::npos) << program.messages();
    EXPECT_EQ(program.messages().find('\r'), std::string::npos) << program.messages();
}

} // namespace
} // namespace cospot
