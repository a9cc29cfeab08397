#pragma once

#include "desk/verb_process.h"

#include <boost/asio/awaitable.hpp>

#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace cospot::desk {

/// A call of a verb that is to be made.
struct WantedRun {
    std::string slot; ///< what it is the only one of
    std::filesystem::path folder;
    std::vector<std::string> arguments; ///< of the program
};

/// How a call of a verb ended.
struct VerbEnd {
    int code = 0;            ///< exit code of the program
    bool is_stopped = false; ///< by its user, or by a newer call of the same slot
    std::string results;
    std::string messages; ///< without the progress that was written over
};

/// The calls that run at this time, at most one a slot: a newer one stops the older, as when a spot
/// is moved on while the answer for its last place is still awaited.
class RunningVerbs {
public:
    /// Nothing where too many run. `wanted` has to live until then.
    [[nodiscard]] boost::asio::awaitable<std::optional<VerbEnd>> run(const WantedRun &wanted);

    /// The last thing that the call of a slot said of its progress; nothing where none runs.
    [[nodiscard]] std::optional<std::string> progress(const std::string &slot) const;
    void stop(const std::string &slot);
    void stop_all();

private:
    std::map<std::string, std::shared_ptr<VerbProcess>> running_;
    std::size_t count_ = 0;
};

} // namespace cospot::desk
