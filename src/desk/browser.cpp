#include "desk/browser.h"

#include <fcntl.h>
#include <spawn.h>
#include <unistd.h>

#include <array>
#include <cstdlib>

namespace cospot::desk {

bool open_browser(const std::string &address) {
    const auto is_set = [](const char *name) {
        const char *value = std::getenv(name); // NOLINT(concurrency-mt-unsafe)
        return value != nullptr && *value != '\0';
    };
    if (!is_set("DISPLAY") && !is_set("WAYLAND_DISPLAY")) {
        return false;
    }
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    for (const int file : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
        posix_spawn_file_actions_addopen(&actions, file, "/dev/null", O_RDWR, 0);
    }
    std::string name = "xdg-open";
    std::string target = address;
    const std::array<char *, 3> words{name.data(), target.data(), nullptr};
    pid_t child = 0;
    const int error = posix_spawnp(&child, name.c_str(), &actions, nullptr, words.data(), environ);
    posix_spawn_file_actions_destroy(&actions);
    return error == 0;
}

} // namespace cospot::desk
