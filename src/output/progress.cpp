#include "output/progress.h"

#include <fmt/format.h>
#include <fmt/ostream.h>

#include <unistd.h>

#include <iostream>
#include <utility>

namespace cospot {

namespace {

constexpr auto kBetweenUpdates = std::chrono::milliseconds(500);

} // namespace

Progress::Progress(std::ostream &err, std::string what)
    : err_(&err), what_(std::move(what)),
      is_terminal_(&err == &std::cerr && isatty(STDERR_FILENO) == 1),
      start_(std::chrono::steady_clock::now()), last_(start_) {}

Progress::~Progress() {
    clear();
}

void Progress::clear() {
    if (has_written_) {
        *err_ << "\r\033[K" << std::flush;
        has_written_ = false;
    }
}

void Progress::advance(std::size_t steps) {
    done_ += steps;
    const auto now = std::chrono::steady_clock::now();
    if (!is_terminal_ || now - last_ < kBetweenUpdates) {
        return;
    }
    last_ = now;
    has_written_ = true;
    const double seconds = std::chrono::duration<double>(now - start_).count();
    fmt::print(*err_, "\r{} {} ({:.0f} a second)\033[K", done_, what_,
               static_cast<double>(done_) / seconds);
    err_->flush();
}

} // namespace cospot
