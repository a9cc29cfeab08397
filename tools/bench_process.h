#pragma once

#include <sched.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <functional>
#include <stdexcept>
#include <string>
#include <vector>

namespace cospot::bench {

struct Measured {
    double seconds = 0.0;
    long peak_kib = 0;
};

inline double seconds_of(const std::function<void()> &work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

/// Runs a program with its output thrown away, on so many cores at most (0: all of them). Throws
/// std::runtime_error where it fails.
inline Measured run(const std::vector<std::string> &command, int cores = 0) {
    Measured measured;
    measured.seconds = seconds_of([&] {
        const pid_t child = fork();
        if (child == 0) {
            std::vector<char *> arguments;
            for (const std::string &argument : command) {
                arguments.push_back(const_cast<char *>(argument.c_str()));
            }
            arguments.push_back(nullptr);
            cpu_set_t allowed;
            CPU_ZERO(&allowed);
            for (int core = 0; core < cores; ++core) {
                CPU_SET(core, &allowed);
            }
            if (cores > 0) {
                sched_setaffinity(0, sizeof allowed, &allowed);
            }
            if (std::freopen("/dev/null", "w", stdout) == nullptr ||
                std::freopen("/dev/null", "w", stderr) == nullptr) {
                _exit(126);
            }
            execv(arguments[0], arguments.data());
            _exit(127);
        }
        int status = 0;
        rusage usage{};
        constexpr int needs_attention = 1; // and the answer is there
        if (wait4(child, &status, 0, &usage) < 0 || !WIFEXITED(status) ||
            WEXITSTATUS(status) > needs_attention) {
            throw std::runtime_error("failed: " + command[1]);
        }
        measured.peak_kib = usage.ru_maxrss;
    });
    return measured;
}

} // namespace cospot::bench
