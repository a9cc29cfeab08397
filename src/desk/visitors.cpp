#include "desk/visitors.h"

#include <fmt/format.h>
#include <sodium.h>

#include <stdexcept>
#include <utility>

namespace cospot::desk {

namespace {

constexpr std::size_t kMostVisitors = 200;
constexpr std::size_t kMostWrongCodes = 10;
constexpr auto kWrongCodeTime = std::chrono::seconds(60);
constexpr std::size_t kMostWork = 30;
constexpr auto kWorkTime = std::chrono::seconds(10);
constexpr std::size_t kLongestVisitorName = 60;
constexpr std::string_view kVisitorCookie = "cospot_class=";

std::string_view key_in(std::string_view cookies) {
    const std::size_t at = cookies.find(kVisitorCookie);
    if (at == std::string_view::npos) {
        return {};
    }
    cookies.remove_prefix(at + kVisitorCookie.size());
    return cookies.substr(0, cookies.find(';'));
}

/// Small letters, blanks and hyphens of a typed code do not count.
std::string plain_code(std::string_view typed) {
    std::string plain;
    for (const char c : typed) {
        if (c != ' ' && c != '-') {
            plain += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
        }
    }
    return plain;
}

} // namespace

Visitors::Visitors(std::string code, std::string host, bool is_encrypted)
    : code_(std::move(code)), host_(std::move(host)), is_encrypted_(is_encrypted) {}

std::string Visitors::address() const {
    return fmt::format("{}://{}/", is_encrypted_ ? "https" : "http", host_);
}

Verdict Visitors::judge(const RequestHead &head) const {
    if (head.host != host_) {
        return Verdict::wrong_host;
    }
    const std::string own = (is_encrypted_ ? "https://" : "http://") + host_;
    if ((!head.origin.empty() && head.origin != own) ||
        (!head.fetch_site.empty() && head.fetch_site != "same-origin" &&
         head.fetch_site != "none")) {
        return Verdict::foreign;
    }
    return head.method != "GET" && head.own_header != "1" ? Verdict::not_by_page
                                                          : Verdict::answered;
}

const Visitor *Visitors::who(std::string_view cookie) const {
    const auto place = by_key_.find(key_in(cookie));
    return place == by_key_.end() ? nullptr : &place->second;
}

Visitors::Entry Visitors::enter(std::string_view code, std::string_view name, Time now,
                                std::string &cookie) {
    if (by_key_.size() >= kMostVisitors ||
        (now - wrong_codes_.since < kWrongCodeTime && wrong_codes_.number >= kMostWrongCodes)) {
        return Entry::too_often;
    }
    const std::string typed = plain_code(code);
    const std::string right = plain_code(code_);
    if (typed.size() != right.size() ||
        sodium_memcmp(typed.data(), right.data(), right.size()) != 0) {
        counted_within(wrong_codes_, now, kWrongCodeTime);
        return Entry::wrong_code;
    }
    const std::string key = random_key();
    by_key_[key] = {.id = fmt::format("visitor-{}", random_key().substr(0, 12)),
                    .name = std::string(name.substr(0, kLongestVisitorName))};
    cookie = fmt::format("{}{}; HttpOnly; SameSite=Strict; Path=/{}", kVisitorCookie, key,
                         is_encrypted_ ? "; Secure" : "");
    return Entry::entered;
}

bool Visitors::may_work(const Visitor &visitor, Time now) {
    return counted_within(work_[visitor.id], now, kWorkTime) <= kMostWork;
}

std::size_t Visitors::counted_within(Count &count, Time now, std::chrono::seconds time) {
    if (now - count.since >= time) {
        count = {.since = now, .number = 0};
    }
    return ++count.number;
}

std::string random_code() {
    constexpr std::string_view characters = "ABCDEFGHJKLMNPQRSTUVWXYZ2345679";
    constexpr std::size_t half = 4;
    if (sodium_init() < 0) {
        throw std::runtime_error("no random numbers on this computer");
    }
    std::string code;
    for (std::size_t i = 0; i < 2 * half; ++i) {
        code += i == half ? "-" : "";
        code += characters[randombytes_uniform(static_cast<std::uint32_t>(characters.size()))];
    }
    return code;
}

} // namespace cospot::desk
