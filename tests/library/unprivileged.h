#pragma once

#include <filesystem>

#include <sys/stat.h>
#include <unistd.h>

namespace cospot::library {

/// A folder and its files made read-only, for this process too: the administrator, for whom
/// permissions do not count, becomes an ordinary user for the time.
class ReadOnlyFolder {
public:
    explicit ReadOnlyFolder(const std::filesystem::path &folder) : folder_(folder) {
        for (const auto &entry : std::filesystem::directory_iterator(folder_)) {
            chmod(entry.path().c_str(), 0444);
        }
        chmod(folder_.c_str(), 0555);
        if (was_administrator_) {
            is_ordinary_ = seteuid(kNobody) == 0;
        }
    }
    ~ReadOnlyFolder() {
        if (is_ordinary_) {
            (void)!seteuid(0);
        }
        chmod(folder_.c_str(), 0755);
    }
    ReadOnlyFolder(const ReadOnlyFolder &) = delete;
    ReadOnlyFolder &operator=(const ReadOnlyFolder &) = delete;

private:
    static constexpr uid_t kNobody = 65534;
    std::filesystem::path folder_;
    bool was_administrator_ = geteuid() == 0;
    bool is_ordinary_ = false;
};

} // namespace cospot::library
