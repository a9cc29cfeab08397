#pragma once

#include <sys/types.h>

#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

namespace cospot::desk {

/// The program itself, called with a verb in the folder of a sheet: what fails or hangs there does
/// not touch the desk, and what is stopped is undone as after Ctrl-C. Its results and messages go
/// to files without names, which live as long as this object.
class VerbProcess {
public:
    /// Starts it. Throws std::system_error where the computer has no room for it.
    VerbProcess(const std::filesystem::path &folder, const std::vector<std::string> &arguments);
    /// Stops it if it still runs, and waits for it.
    ~VerbProcess();
    VerbProcess(const VerbProcess &) = delete;
    VerbProcess &operator=(const VerbProcess &) = delete;

    /// Readable (end of file) once the program has ended.
    [[nodiscard]] int end_signal() const noexcept { return end_; }
    /// Asks it to undo what is unfinished and end.
    void stop() noexcept;
    /// Waits for its end; returns the exit code, 128 and the signal where one ended it.
    int wait();

    /// What it has written so far, at most `most` bytes from the beginning.
    [[nodiscard]] std::string results(std::size_t most) const;
    [[nodiscard]] std::string messages(std::size_t most) const;

private:
    int results_ = -1;
    int messages_ = -1;
    int end_ = -1;
    pid_t child_ = -1;
    int code_ = -1;
};

} // namespace cospot::desk
