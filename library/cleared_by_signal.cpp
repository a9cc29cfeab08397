#include "library/cleared_by_signal.h"

#include "library/journal.h"
#include "shared/interruption.h"

#include <array>
#include <atomic>
#include <climits>
#include <cstring>
#include <string>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace cospot::library {

namespace {

using Name = std::array<char, PATH_MAX>;

/// What a signal handler can use: it may not ask for memory.
struct Names {
    std::atomic<bool> is_taken{false};
    std::atomic<bool> is_complete{false};
    Name file;
    Name journal;
    Name index;
};

constexpr std::size_t kPlaces = 4;
std::array<Names, kPlaces> places;

/// The exclusive lock of SQLite: https://sqlite.org/fileformat2.html, section 1.4.
bool lock_exclusively(int descriptor) {
    struct flock lock {};
    lock.l_type = F_WRLCK;
    lock.l_whence = SEEK_SET;
    lock.l_start = 0x40000000;
    lock.l_len = 512;
    return fcntl(descriptor, F_SETLK, &lock) == 0;
}

/// Runs in a signal handler that ends the process.
void clear_journals() {
    for (const Names &names : places) {
        if (names.is_complete.load()) {
            // Never closed: the lock lasts until the process is gone.
            const int descriptor = open(names.file.data(), O_RDWR | O_CLOEXEC);
            struct stat status {};
            if (descriptor >= 0 && lock_exclusively(descriptor) &&
                stat(names.journal.data(), &status) == 0 && status.st_size == 0) {
                unlink(names.index.data());
                unlink(names.journal.data());
            }
        }
    }
}

bool copy_name(const std::filesystem::path &from, Name &to) {
    const std::string &text = from.native();
    if (text.size() >= to.size()) {
        return false;
    }
    std::memcpy(to.data(), text.c_str(), text.size() + 1);
    return true;
}

} // namespace

ClearedBySignal::ClearedBySignal(const std::filesystem::path &file) : place_(0) {
    while (place_ < kPlaces && places[place_].is_taken.exchange(true)) {
        ++place_;
    }
    if (place_ < kPlaces) {
        Names &names = places[place_];
        names.is_complete = copy_name(file, names.file) &&
                            copy_name(journal_of(file), names.journal) &&
                            copy_name(journal_index_of(file), names.index);
        at_sudden_end(clear_journals);
    }
}

ClearedBySignal::~ClearedBySignal() {
    if (place_ < kPlaces) {
        places[place_].is_complete = false;
        places[place_].is_taken = false;
    }
}

} // namespace cospot::library
