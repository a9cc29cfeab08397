#pragma once

#include "desk/request_guard.h"

#include <chrono>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace cospot::desk {

/// Somebody in the room who entered the code: may read, and submit sheets of their own.
struct Visitor {
    std::string id;   ///< owner of the sheets
    std::string name; ///< as entered
};

/// Who was let in by the code of a class, and how much each may ask at a time.
class Visitors {
public:
    using Time = std::chrono::steady_clock::time_point;

    /// `host`: address and port under which the class is reached; `is_encrypted`: by TLS.
    Visitors(std::string code, std::string host, bool is_encrypted);

    [[nodiscard]] const std::string &code() const noexcept { return code_; }
    /// Where those in the room begin.
    [[nodiscard]] std::string address() const;

    /// As of `RequestGuard`: whether a request is answered, but for the key.
    [[nodiscard]] Verdict judge(const RequestHead &head) const;
    /// Who asks; nothing where nobody entered with that cookie.
    [[nodiscard]] const Visitor *who(std::string_view cookie) const;

    enum class Entry { entered, wrong_code, too_often };
    /// Lets somebody in. `cookie` becomes the value of Set-Cookie. After ten wrong codes within a
    /// minute nobody is let in for the rest of it, and no more than 200 are let in at all.
    Entry enter(std::string_view code, std::string_view name, Time now, std::string &cookie);

    /// Whether the visitor may have another piece of work done: thirty within ten seconds.
    [[nodiscard]] bool may_work(const Visitor &visitor, Time now);

private:
    struct Count {
        Time since{};
        std::size_t number = 0;
    };
    /// Counts one more within a time, from which it begins anew; how many there were.
    static std::size_t counted_within(Count &count, Time now, std::chrono::seconds time);

    std::string code_;
    std::string host_;
    bool is_encrypted_;
    std::map<std::string, Visitor, std::less<>> by_key_;
    std::map<std::string, Count> work_; ///< by id
    Count wrong_codes_;
};

/// A code that is read aloud and typed: eight characters out of 31 that are not mistaken.
[[nodiscard]] std::string random_code();

} // namespace cospot::desk
