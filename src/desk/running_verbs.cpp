#include "desk/running_verbs.h"

#include <boost/asio/posix/stream_descriptor.hpp>
#include <boost/asio/redirect_error.hpp>
#include <boost/asio/this_coro.hpp>
#include <boost/asio/use_awaitable.hpp>

#include <fcntl.h>

#include <algorithm>
#include <string_view>
#include <utility>

namespace cospot::desk {

namespace asio = boost::asio;

namespace {

constexpr std::size_t kMostVerbs = 12;
constexpr std::size_t kMostResults = 256UL << 20U;
constexpr std::size_t kMostMessages = 1UL << 20U;

/// How `Progress` clears the rest of its line.
constexpr std::string_view kClearing = "\033[K";

/// A line as it is seen: what was last written over it.
std::string_view as_seen(std::string_view line) {
    line.remove_prefix(line.rfind('\r') + 1); // npos: nothing
    if (line.starts_with(kClearing)) {
        line.remove_prefix(kClearing.size());
    }
    return line.substr(0, line.find(kClearing));
}

/// The lines of a text as they are seen.
std::string all_as_seen(std::string_view text) {
    std::string seen;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        seen += as_seen(text.substr(0, end));
        seen += end < text.size() ? "\n" : "";
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return seen;
}

/// The last line that says something.
std::string last_line(std::string_view text) {
    text = text.substr(0, text.find_last_not_of("\r\n") + 1);
    return std::string(as_seen(text.substr(text.rfind('\n') + 1)));
}

asio::awaitable<void> wait_for_end(const VerbProcess &process) {
    const auto executor = co_await asio::this_coro::executor;
    asio::posix::stream_descriptor end(executor, fcntl(process.end_signal(), F_DUPFD_CLOEXEC, 0));
    boost::system::error_code error;
    co_await end.async_wait(asio::posix::stream_descriptor::wait_read,
                            asio::redirect_error(asio::use_awaitable, error));
}

} // namespace

asio::awaitable<std::optional<VerbEnd>> RunningVerbs::run(const WantedRun &wanted) {
    stop(wanted.slot);
    if (count_ >= kMostVerbs) {
        co_return std::nullopt;
    }
    const auto process = std::make_shared<VerbProcess>(wanted.folder, wanted.arguments);
    running_[wanted.slot] = process;
    ++count_;
    co_await wait_for_end(*process);
    --count_;
    VerbEnd end;
    end.code = process->wait();
    const auto place = running_.find(wanted.slot);
    if (place != running_.end() && place->second == process) {
        running_.erase(place);
    } else {
        end.is_stopped = true;
    }
    end.results = process->results(kMostResults);
    end.messages = all_as_seen(process->messages(kMostMessages));
    co_return end;
}

std::optional<std::string> RunningVerbs::progress(const std::string &slot) const {
    const auto place = running_.find(slot);
    if (place == running_.end()) {
        return std::nullopt;
    }
    return last_line(place->second->messages(kMostMessages));
}

void RunningVerbs::stop(const std::string &slot) {
    const auto place = running_.find(slot);
    if (place != running_.end()) {
        place->second->stop();
        running_.erase(place); // `run` still holds it
    }
}

void RunningVerbs::stop_all() {
    running_.clear();
}

} // namespace cospot::desk
