#include "library/file_lock.h"

#include <sqlite3.h>

namespace cospot::library {

FileLock::FileLock(const std::filesystem::path &file, Kind kind) {
    const int access = kind == Kind::shared ? SQLITE_OPEN_READONLY : SQLITE_OPEN_READWRITE;
    if (sqlite3_open_v2(file.c_str(), &connection_, access, nullptr) != SQLITE_OK ||
        sqlite3_file_control(connection_, "main", SQLITE_FCNTL_FILE_POINTER, &file_) != SQLITE_OK) {
        file_ = nullptr;
        return;
    }
    int code = file_->pMethods->xLock(file_, SQLITE_LOCK_SHARED);
    if (code == SQLITE_OK && kind == Kind::exclusive) {
        code = file_->pMethods->xLock(file_, SQLITE_LOCK_EXCLUSIVE);
    }
    is_held_ = code == SQLITE_OK;
    is_busy_ = (code & 0xFF) == SQLITE_BUSY;
}

FileLock::~FileLock() {
    if (file_ != nullptr) {
        file_->pMethods->xUnlock(file_, SQLITE_LOCK_NONE);
    }
    sqlite3_close(connection_);
}

} // namespace cospot::library
