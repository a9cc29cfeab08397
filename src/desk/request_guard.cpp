#include "desk/request_guard.h"

#include <fmt/format.h>
#include <sodium.h>

#include <array>
#include <stdexcept>
#include <utility>

namespace cospot::desk {

namespace {

constexpr std::string_view kKeyInAddress = "/?key=";

/// The value of a cookie in the header "name=value; name=value"; empty without it.
std::string_view cookie_value(std::string_view header, std::string_view name) {
    while (!header.empty()) {
        const std::size_t end = std::min(header.find(';'), header.size());
        std::string_view one = header.substr(0, end);
        header.remove_prefix(std::min(end + 1, header.size()));
        while (one.starts_with(' ')) {
            one.remove_prefix(1);
        }
        if (one.starts_with(name) && one.substr(name.size()).starts_with('=')) {
            return one.substr(name.size() + 1);
        }
    }
    return {};
}

bool changes_something(std::string_view method) {
    return method != "GET" && method != "HEAD";
}

} // namespace

RequestGuard::RequestGuard(std::string key, std::uint16_t port)
    : key_(std::move(key)), port_(std::to_string(port)), cookie_name_("cospot_desk_" + port_) {}

bool RequestGuard::has_key(std::string_view text) const {
    return text.size() == key_.size() && sodium_memcmp(text.data(), key_.data(), key_.size()) == 0;
}

Verdict RequestGuard::judge(const RequestHead &head) const {
    const std::string by_number = "127.0.0.1:" + port_;
    const std::string by_name = "localhost:" + port_;
    if (head.host != by_number && head.host != by_name) {
        return Verdict::wrong_host;
    }
    if (head.method == "GET" && head.target.starts_with(kKeyInAddress) &&
        has_key(head.target.substr(kKeyInAddress.size()))) {
        return Verdict::enters;
    }
    if (!head.origin.empty() && head.origin != "http://" + std::string(head.host)) {
        return Verdict::foreign;
    }
    if (!head.fetch_site.empty() && head.fetch_site != "same-origin" && head.fetch_site != "none") {
        return Verdict::foreign;
    }
    if (!has_key(cookie_value(head.cookie, cookie_name_))) {
        return Verdict::no_key;
    }
    if (changes_something(head.method) && head.own_header != "1") {
        return Verdict::not_by_page;
    }
    return Verdict::answered;
}

std::string RequestGuard::cookie() const {
    return fmt::format("{}={}; HttpOnly; SameSite=Strict; Path=/", cookie_name_, key_);
}

std::string RequestGuard::address() const {
    return fmt::format("http://127.0.0.1:{}{}{}", port_, kKeyInAddress, key_);
}

std::string random_key() {
    constexpr std::size_t bytes = 16;
    if (sodium_init() < 0) {
        throw std::runtime_error("no random numbers on this computer");
    }
    std::array<unsigned char, bytes> random{};
    randombytes_buf(random.data(), random.size());
    std::string text;
    for (const unsigned char byte : random) {
        text += fmt::format("{:02x}", byte);
    }
    return text;
}

} // namespace cospot::desk
