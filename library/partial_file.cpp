#include "library/partial_file.h"

#include "library/database.h"
#include "library/journal.h"
#include "shared/error.h"

#include <fmt/format.h>

#include <cerrno>
#include <cstdlib>
#include <fstream>
#include <string>
#include <system_error>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace cospot::library {

namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail(const fs::path &file, int error) {
    throw DatabaseError(
        fmt::format("{}: the file cannot be written ({}); free some space, or name a "
                    "file in a folder that you can write",
                    file.string(), std::generic_category().message(error)));
}

InputError exists_already(const fs::path &target) {
    return {{target.string(), 0, ""},
            "a file of that name",
            "a new name: an existing file is never overwritten"};
}

mode_t usual_permissions() {
    const mode_t mask = umask(0);
    umask(mask);
    return 0666U & ~mask;
}

} // namespace

void check_name_is_free(const fs::path &target) {
    std::error_code error;
    if (fs::exists(fs::symlink_status(target, error))) {
        throw exists_already(target);
    }
    const fs::path folder = folder_of(target);
    if (!fs::is_directory(folder, error)) {
        throw InputError({target.string(), 0, ""}, "no folder " + folder.string(),
                         "a folder that exists");
    }
}

PartialFile::PartialFile(const fs::path &target) : target_(target) {
    std::string name = target.string() + ".partial-XXXXXX";
    const int descriptor = mkstemp(name.data());
    if (descriptor < 0) {
        fail(target, errno);
    }
    fchmod(descriptor, usual_permissions());
    close(descriptor);
    name_ = name;
}

PartialFile::~PartialFile() {
    std::error_code ignored;
    for (const char *suffix : {"", "-wal", "-shm", "-journal"}) {
        fs::remove(name_.string() + suffix, ignored);
    }
}

void PartialFile::publish() const {
    // Takes the name first: renaming alone would overwrite, and not every file system links.
    const int descriptor = open(target_.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_CLOEXEC, 0600);
    if (descriptor < 0) {
        if (errno == EEXIST) {
            throw exists_already(target_);
        }
        fail(target_, errno);
    }
    close(descriptor);
    std::error_code error;
    fs::rename(name_, target_, error);
    if (error) {
        std::error_code ignored;
        fs::remove(target_, ignored);
        fail(target_, error.value());
    }
}

void write_new_file(const fs::path &target, std::string_view content) {
    check_name_is_free(target);
    const PartialFile partial(target);
    errno = 0;
    std::ofstream out(partial.name(), std::ios::binary);
    out << content;
    out.close();
    if (!out) {
        fail(target, errno != 0 ? errno : EIO);
    }
    partial.publish();
}

} // namespace cospot::library
