#include "document/progress.h"

#include <fmt/format.h>
#include <fmt/ostream.h>

#include <unistd.h>

#include <cmath>
#include <cstdlib>
#include <iostream>
#include <memory>
#include <optional>
#include <utility>

namespace cospot {

namespace {

constexpr auto kBetweenUpdates = std::chrono::milliseconds(500);

/// Whether a program that shows the messages wants to hear of the progress, too.
bool is_asked_for() {
    return std::getenv("COSPOT_PROGRESS") != nullptr; // NOLINT(concurrency-mt-unsafe)
}

/// What is said of the time left, after so many seconds for that share of the work.
std::string time_left(double seconds, double share) {
    constexpr double minute = 60.0;
    if (share <= 0.0 || share > 1.0) {
        return "";
    }
    const double left = seconds * (1.0 - share) / share;
    return left < 2.0 * minute ? fmt::format(", {:.0f} s left", std::ceil(left))
                               : fmt::format(", {:.0f} min left", std::ceil(left / minute));
}

} // namespace

Progress::Progress(std::ostream &err, std::string what, ShareDone share_done)
    : err_(&err), what_(std::move(what)), share_done_(std::move(share_done)),
      is_seen_(&err == &std::cerr && (isatty(STDERR_FILENO) == 1 || is_asked_for())),
      start_(std::chrono::steady_clock::now()), last_(start_) {}

Progress::Progress(std::ostream &err, std::string what, std::size_t steps)
    : Progress(err, std::move(what),
               [this, steps] { return static_cast<double>(done_) / static_cast<double>(steps); }) {}

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
    if (!is_seen_ || now - last_ < kBetweenUpdates) {
        return;
    }
    last_ = now;
    has_written_ = true;
    const double seconds = std::chrono::duration<double>(now - start_).count();
    fmt::print(*err_, "\r{} {}{}\033[K", done_, what_, time_left(seconds, share_done_()));
    err_->flush();
}

std::function<void(std::size_t done, std::size_t all)> progress_of_steps(std::ostream &err,
                                                                         const std::string &what) {
    struct Steps {
        std::optional<Progress> progress;
        std::size_t done = 0;
    };
    return [&err, what, steps = std::make_shared<Steps>()](std::size_t done, std::size_t all) {
        if (!steps->progress) {
            steps->progress.emplace(err, what, all);
        }
        steps->progress->advance(done - steps->done);
        steps->done = done;
    };
}

} // namespace cospot
