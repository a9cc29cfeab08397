#include "library/partial_file.h"

#include "library/database.h"
#include "library/journal.h"
#include "shared/error.h"

#include <fmt/format.h>

#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <optional>
#include <regex>
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

constexpr std::string_view kPartial = ".partial-";

std::string short_hash(const std::string &text) {
    return fmt::format("{:08x}", std::hash<std::string>{}(text)&0xFFFFFFFFU);
}

/// Who made a partial file: the computer (and its table of processes), its start, the process.
struct Maker {
    std::string computer;
    std::string start;
    pid_t process;
};

Maker this_process() {
    std::string host(256, '\0');
    gethostname(host.data(), host.size() - 1);
    std::error_code none;
    std::ifstream boot("/proc/sys/kernel/random/boot_id");
    std::string start;
    std::getline(boot, start);
    return {short_hash(host.c_str() + fs::read_symlink("/proc/self/ns/pid", none).string()),
            short_hash(start), getpid()};
}

/// The maker in the name of a partial file or of a journal beside it; none for other files.
std::optional<Maker> maker_of(const std::string &name) {
    const std::size_t mark = name.rfind(kPartial);
    if (mark == std::string::npos) {
        return std::nullopt;
    }
    static const std::regex pattern("([0-9a-f]{8})-([0-9a-f]{8})-([0-9]{1,9})-[0-9A-Za-z]{6}"
                                    "(-wal|-shm|-journal)?");
    std::smatch found;
    const std::string rest = name.substr(mark + kPartial.size());
    if (!std::regex_match(rest, found, pattern)) {
        return std::nullopt;
    }
    return Maker{found[1], found[2], static_cast<pid_t>(std::stol(found[3]))};
}

} // namespace

void clear_leftovers(const fs::path &folder) {
    const Maker here = this_process();
    std::error_code error;
    for (const fs::directory_entry &entry : fs::directory_iterator(folder, error)) {
        const auto maker = maker_of(entry.path().filename().string());
        if (!maker || maker->computer != here.computer) {
            continue;
        }
        const bool is_dead =
            maker->start != here.start || (kill(maker->process, 0) != 0 && errno == ESRCH);
        if (is_dead) {
            std::error_code ignored;
            fs::remove(entry.path(), ignored);
        }
    }
}

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
    clear_leftovers(folder_of(target));
    const Maker maker = this_process();
    std::string name = fmt::format("{}{}{}-{}-{}-XXXXXX", target.string(), kPartial, maker.computer,
                                   maker.start, maker.process);
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

void PartialFile::replace() const {
    std::error_code error;
    fs::rename(name_, target_, error);
    if (error) {
        fail(target_, error.value());
    }
}

void write_file(const fs::path &target, std::string_view content, ExistingFile existing) {
    if (existing == ExistingFile::kept) {
        check_name_is_free(target);
    }
    const PartialFile partial(target);
    errno = 0;
    std::ofstream out(partial.name(), std::ios::binary);
    out << content;
    out.close();
    if (!out) {
        fail(target, errno != 0 ? errno : EIO);
    }
    existing == ExistingFile::kept ? partial.publish() : partial.replace();
}

} // namespace cospot::library
