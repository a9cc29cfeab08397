#pragma once

#include <stdexcept>
#include <string>

namespace cospot {

/// Somebody asked the program to end; what was unfinished is undone on the way out.
class Interrupted : public std::runtime_error {
public:
    explicit Interrupted(
        const std::string &what_is_left = "interrupted; what was unfinished is undone");
};

/// From now on SIGINT, SIGTERM, SIGHUP and SIGPIPE end the program at once, but while there is
/// unfinished work: that is undone first. A second signal ends the program in any case, unless it
/// only says again that nobody reads the output. Signals that were ignored when the program began
/// (nohup) stay ignored.
void heed_interruptions();

/// Whether a signal waits for unfinished work to be undone.
[[nodiscard]] bool is_interrupted() noexcept;

/// Throws Interrupted where a signal waits.
void check_interrupted();

/// Ends the program by the signal that interrupted it, so that a shell sees it; else does nothing.
void end_if_interrupted();

/// From now until `said`, an interruption waits: a change was committed, and who asked for it has
/// to be told. Calling it again changes nothing.
void wait_until_said() noexcept;

/// The change was told, or the telling failed: interruptions do not wait for it any more.
void said() noexcept;

/// Whether a change was committed that nobody was told of yet.
[[nodiscard]] bool is_to_be_said() noexcept;

/// Lives while a change is not committed or a file not complete.
class UnfinishedWork {
public:
    UnfinishedWork() noexcept;
    ~UnfinishedWork();
    UnfinishedWork(const UnfinishedWork &) = delete;
    UnfinishedWork &operator=(const UnfinishedWork &) = delete;
};

} // namespace cospot
