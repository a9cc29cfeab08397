#pragma once

#include <cstddef>
#include <filesystem>

namespace cospot::library {

/// While it lives, a signal that ends the program at once takes away the idle journal of the
/// library on the way out (see `clear_idle_journal`). `file` is no link. A few at a time; a journal
/// beyond them is left to the next who opens the library.
class ClearedBySignal {
public:
    explicit ClearedBySignal(const std::filesystem::path &file);
    ~ClearedBySignal();
    ClearedBySignal(const ClearedBySignal &) = delete;
    ClearedBySignal &operator=(const ClearedBySignal &) = delete;

private:
    std::size_t place_;
};

} // namespace cospot::library
