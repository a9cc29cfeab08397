#pragma once

#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

#include <csignal>
#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

extern char **environ; // NOLINT(readability-redundant-declaration)

namespace cospot {

/// By what the rows that keep the program busy for a while are divided where it is slower.
#if defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer)
#define COSPOT_SANITIZED
#endif
#endif
#ifdef COSPOT_SANITIZED
inline constexpr int kSlowness = 10;
#else
inline constexpr int kSlowness = 1;
#endif

/// The built program, running as a process of its own. Its messages go to a file, its results to
/// another one, or nowhere.
class SpawnedProgram {
public:
    SpawnedProgram(std::vector<std::string> arguments, std::filesystem::path messages,
                   const char *results = "/dev/null")
        : messages_(std::move(messages)) {
        arguments.insert(arguments.begin(), COSPOT_PROGRAM);
        std::vector<char *> argv;
        for (std::string &argument : arguments) {
            argv.push_back(argument.data());
        }
        argv.push_back(nullptr);
        posix_spawn_file_actions_t actions;
        posix_spawn_file_actions_init(&actions);
        posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, results, O_WRONLY, 0);
        posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, messages_.c_str(),
                                         O_WRONLY | O_CREAT | O_TRUNC, 0600);
        const int code = posix_spawn(&id_, COSPOT_PROGRAM, &actions, nullptr, argv.data(), environ);
        posix_spawn_file_actions_destroy(&actions);
        if (code != 0) {
            throw std::runtime_error("cannot start " COSPOT_PROGRAM);
        }
    }

    /// Waits for the end; returns the exit code, or -1 where a signal ended it.
    int wait() {
        int status = 0;
        waitpid(id_, &status, 0);
        return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    }

    /// The same, but the number of the signal that ended it, 0 where it ended by itself.
    int wait_for_signal() {
        int status = 0;
        waitpid(id_, &status, 0);
        return WIFSIGNALED(status) ? WTERMSIG(status) : 0;
    }

    void send(int signal) const { ::kill(id_, signal); }

    /// Ends it as a power cut would: no handler runs, nothing is tidied up.
    void kill() const { ::kill(id_, SIGKILL); }

    [[nodiscard]] std::string messages() const {
        std::ifstream in(messages_);
        return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
    }

private:
    pid_t id_ = 0;
    std::filesystem::path messages_;
};

} // namespace cospot
