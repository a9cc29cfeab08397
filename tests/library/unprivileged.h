#pragma once

#include <filesystem>
#include <optional>

#include <sys/stat.h>
#include <unistd.h>

namespace cospot::library {

/// The administrator, for whom permissions do not count, becomes an ordinary user for the time;
/// nobody else changes.
class OrdinaryUser {
public:
    OrdinaryUser() {
        if (was_administrator_) {
            is_ordinary_ = seteuid(kNobody) == 0;
        }
    }
    ~OrdinaryUser() {
        if (is_ordinary_) {
            (void)!seteuid(0);
        }
    }
    OrdinaryUser(const OrdinaryUser &) = delete;
    OrdinaryUser &operator=(const OrdinaryUser &) = delete;

private:
    static constexpr uid_t kNobody = 65534;
    bool was_administrator_ = geteuid() == 0;
    bool is_ordinary_ = false;
};

/// A folder and its files made read-only, for this process too.
class ReadOnlyFolder {
public:
    explicit ReadOnlyFolder(const std::filesystem::path &folder) : folder_(folder) {
        for (const auto &entry : std::filesystem::directory_iterator(folder_)) {
            chmod(entry.path().c_str(), 0444);
        }
        chmod(folder_.c_str(), 0555);
        user_.emplace();
    }
    ~ReadOnlyFolder() {
        user_.reset();
        chmod(folder_.c_str(), 0755);
    }
    ReadOnlyFolder(const ReadOnlyFolder &) = delete;
    ReadOnlyFolder &operator=(const ReadOnlyFolder &) = delete;

private:
    std::filesystem::path folder_;
    std::optional<OrdinaryUser> user_;
};

} // namespace cospot::library
