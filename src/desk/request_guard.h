#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace cospot::desk {

/// What a request says of itself, as far as it decides whether it is answered.
struct RequestHead {
    std::string_view method;
    std::string_view target;
    std::string_view host;
    std::string_view origin;     ///< empty where the browser sent none
    std::string_view fetch_site; ///< Sec-Fetch-Site; empty where the browser sent none
    std::string_view cookie;
    std::string_view own_header; ///< of a name that a form of another page cannot set
};

enum class Verdict {
    answered,
    enters,      ///< brought the key in its address: it gets the cookie and is sent on
    no_key,      ///< 401: neither cookie nor key
    wrong_host,  ///< 421: reached under a name that is not this computer's own
    foreign,     ///< 403: another page asks
    not_by_page, ///< 403: would change something, without the page's own header
};

/// Decides who is answered: only pages of this desk, opened with the key that the program printed.
/// Other pages of the same browser can send requests to this computer, too; they have neither the
/// cookie (SameSite=Strict) nor the header, and another Origin. A foreign name that was pointed at
/// this computer shows in Host.
class RequestGuard {
public:
    /// `key`: hexadecimal, of at least 128 random bits.
    RequestGuard(std::string key, std::uint16_t port);

    [[nodiscard]] Verdict judge(const RequestHead &head) const;

    /// Value of Set-Cookie; the port is part of its name, since cookies do not know ports.
    [[nodiscard]] std::string cookie() const;
    /// Where a page begins: the address with the key.
    [[nodiscard]] std::string address() const;

private:
    [[nodiscard]] bool has_key(std::string_view text) const;

    std::string key_;
    std::string port_;
    std::string cookie_name_;
};

/// A key of 128 random bits in hexadecimal digits.
[[nodiscard]] std::string random_key();

} // namespace cospot::desk
