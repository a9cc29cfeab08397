#include "shared/interruption.h"

#include <atomic>
#include <csignal>

namespace cospot {

namespace {

// Lock-free, so that a signal handler may touch them.
std::atomic<int> unfinished{0};
std::atomic<int> waiting_signal{0};
std::atomic<bool> to_be_said{false};
static_assert(std::atomic<int>::is_always_lock_free);

void end_by(int signal) {
    (void)std::signal(signal, SIG_DFL);
    (void)std::raise(signal);
}

void on_signal(int signal) {
    const bool is_first = waiting_signal.load() == 0;
    if (unfinished.load() > 0 && (is_first || signal == SIGPIPE)) {
        waiting_signal = is_first ? signal : waiting_signal.load();
        return;
    }
    end_by(signal);
}

} // namespace

Interrupted::Interrupted(const std::string &what_is_left) : std::runtime_error(what_is_left) {}

void heed_interruptions() {
    for (const int signal : {SIGINT, SIGTERM, SIGHUP, SIGPIPE}) {
        if (std::signal(signal, on_signal) == SIG_IGN) {
            (void)std::signal(signal, SIG_IGN);
        }
    }
}

bool is_interrupted() noexcept {
    return waiting_signal.load() != 0;
}

void check_interrupted() {
    if (is_interrupted()) {
        throw Interrupted();
    }
}

void end_if_interrupted() {
    if (is_interrupted()) {
        end_by(waiting_signal.load());
    }
}

void wait_until_said() noexcept {
    if (!to_be_said.exchange(true)) {
        ++unfinished;
    }
}

void said() noexcept {
    if (to_be_said.exchange(false)) {
        --unfinished;
    }
}

bool is_to_be_said() noexcept {
    return to_be_said.load();
}

UnfinishedWork::UnfinishedWork() noexcept {
    ++unfinished;
}

UnfinishedWork::~UnfinishedWork() {
    --unfinished;
}

} // namespace cospot
