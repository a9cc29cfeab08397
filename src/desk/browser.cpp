#include "desk/browser.h"

#include "desk/spawn_actions.h"

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
    SpawnActions actions;
    for (const int file : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
        actions.give_nothing(file);
    }
    std::string name = "xdg-open";
    std::string target = address;
    const std::array<char *, 3> words{name.data(), target.data(), nullptr};
    pid_t child = 0;
    return posix_spawnp(&child, name.c_str(), actions.get(), nullptr, words.data(), environ) == 0;
}

} // namespace cospot::desk
