#pragma once

#include <fcntl.h>
#include <spawn.h>

#include <filesystem>

namespace cospot::desk {

/// What a new process opens, and where it stands.
class SpawnActions {
public:
    SpawnActions() { posix_spawn_file_actions_init(&actions_); }
    ~SpawnActions() { posix_spawn_file_actions_destroy(&actions_); }
    SpawnActions(const SpawnActions &) = delete;
    SpawnActions &operator=(const SpawnActions &) = delete;

    void stand_in(const std::filesystem::path &folder) {
        posix_spawn_file_actions_addchdir_np(&actions_, folder.c_str());
    }
    void give(int file, int as) { posix_spawn_file_actions_adddup2(&actions_, file, as); }
    /// Nothing to read there, and what is written is lost.
    void give_nothing(int as) {
        posix_spawn_file_actions_addopen(&actions_, as, "/dev/null", O_RDWR, 0);
    }
    [[nodiscard]] const posix_spawn_file_actions_t *get() const { return &actions_; }

private:
    posix_spawn_file_actions_t actions_{};
};

} // namespace cospot::desk
