#include "desk/verb_process.h"

#include "desk/spawn_actions.h"

#include <fcntl.h>
#include <signal.h> // NOLINT(modernize-deprecated-headers): kill is POSIX
#include <spawn.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <system_error>

namespace cospot::desk {

namespace {

constexpr int kStopped = 128; ///< and the signal: exit code as shells say it

[[noreturn]] void fail(const char *what) {
    throw std::system_error(errno, std::generic_category(), what);
}

/// A file without a name, for reading and writing.
int nameless_file(const std::filesystem::path &folder) {
    const int file = open(folder.c_str(), O_TMPFILE | O_RDWR | O_CLOEXEC, 0600);
    if (file < 0) {
        fail("a temporary file");
    }
    return file;
}

std::string content(int file, std::size_t most) {
    struct stat status {};
    fstat(file, &status);
    std::string text(std::min(most, static_cast<std::size_t>(status.st_size)), '\0');
    std::size_t size = 0;
    while (size < text.size()) {
        const ssize_t got =
            pread(file, text.data() + size, text.size() - size, static_cast<off_t>(size));
        if (got <= 0) {
            break;
        }
        size += static_cast<std::size_t>(got);
    }
    text.resize(size);
    return text;
}

void close_if_open(int &file) {
    if (file >= 0) {
        close(file);
        file = -1;
    }
}

} // namespace

VerbProcess::VerbProcess(const std::filesystem::path &folder,
                         const std::vector<std::string> &arguments) {
    constexpr int end_in_child = 3;
    results_ = nameless_file(folder);
    messages_ = nameless_file(folder);
    std::array<int, 2> end{};
    if (pipe2(end.data(), O_CLOEXEC) != 0) {
        fail("a pipe");
    }
    end_ = end[0];
    SpawnActions actions;
    actions.stand_in(folder);
    actions.give_nothing(STDIN_FILENO);
    actions.give(results_, STDOUT_FILENO);
    actions.give(messages_, STDERR_FILENO);
    actions.give(end[1], end_in_child); // closed by its end, however it comes
    std::vector<char *> words;
    std::string name = "cospot";
    words.push_back(name.data());
    std::vector<std::string> copies = arguments;
    for (std::string &copy : copies) {
        words.push_back(copy.data());
    }
    words.push_back(nullptr);
    const int error =
        posix_spawn(&child_, "/proc/self/exe", actions.get(), nullptr, words.data(), environ);
    close(end[1]);
    if (error != 0) {
        child_ = -1;
        errno = error;
        fail("the program could not be started");
    }
}

VerbProcess::~VerbProcess() {
    if (child_ > 0 && code_ < 0) {
        stop();
        wait();
    }
    close_if_open(results_);
    close_if_open(messages_);
    close_if_open(end_);
}

void VerbProcess::stop() noexcept {
    if (child_ > 0 && code_ < 0) {
        kill(child_, SIGTERM);
    }
}

int VerbProcess::wait() {
    if (code_ < 0) {
        int status = 0;
        while (waitpid(child_, &status, 0) < 0 && errno == EINTR) {
        }
        code_ = WIFEXITED(status) ? WEXITSTATUS(status) : kStopped + WTERMSIG(status);
    }
    return code_;
}

std::string VerbProcess::results(std::size_t most) const {
    return content(results_, most);
}

std::string VerbProcess::messages(std::size_t most) const {
    return content(messages_, most);
}

} // namespace cospot::desk
