#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <iosfwd>
#include <string>

namespace cospot {

/// How much of some work is done, from 0 to 1; 0 where that is not known.
using ShareDone = std::function<double()>;

/// Tells how far long work has come and how long it will still take, in one line that is
/// overwritten: on a terminal, or where a program that shows it sets COSPOT_PROGRESS.
class Progress {
public:
    /// `what` is counted, e.g. "rows".
    Progress(std::ostream &err, std::string what, ShareDone share_done);
    /// The same for work of so many steps.
    Progress(std::ostream &err, std::string what, std::size_t steps);
    ~Progress();
    Progress(const Progress &) = delete;
    Progress &operator=(const Progress &) = delete;

    void advance(std::size_t steps);
    /// Takes the line away, so that something else can be written.
    void clear();

private:
    std::ostream *err_;
    std::string what_;
    ShareDone share_done_;
    bool is_seen_;
    bool has_written_ = false;
    std::size_t done_ = 0;
    std::chrono::steady_clock::time_point start_;
    std::chrono::steady_clock::time_point last_;
};

/// For work that tells by itself how many of how many steps are done, from (0, all) on.
[[nodiscard]] std::function<void(std::size_t done, std::size_t all)>
progress_of_steps(std::ostream &err, const std::string &what);

} // namespace cospot
