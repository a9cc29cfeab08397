#pragma once

#include <array>
#include <csetjmp>

namespace cospot::images {

/// Where a C library jumps to when it fails, since it cannot throw, and what it says.
struct JumpBack {
    std::jmp_buf place{};
    std::array<char, 256> message{};
    int code = 0; ///< of the message; libjpeg has them
};

/// Runs calls of a C library whose error handler does `longjmp(jump.place, 1)`; false where it
/// did. The jump runs no destructors, so `calls` holds nothing but calls of the library and plain
/// values: all that owns memory belongs to its caller.
template <typename Calls>
[[nodiscard, gnu::noinline]] bool succeeds(JumpBack &jump, const Calls &calls) {
    if (setjmp(jump.place) != 0) {
        return false;
    }
    calls();
    return true;
}

} // namespace cospot::images
