#include "shared/error.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <set>
#include <utility>

namespace cospot {

namespace {

std::string message(const Where &where, const std::string &found, const std::string &expected) {
    const std::string place = to_string(where);
    return fmt::format("{}{}found {}; expected {}", place, place.empty() ? "" : ": ", found,
                       expected);
}

/// Whether the two differ by their lines alone.
bool are_alike(const InputError &a, const InputError &b) {
    return a.where().file == b.where().file && a.where().column == b.where().column &&
           a.found() == b.found() && a.expected() == b.expected();
}

std::string message_of_all(const std::vector<InputError> &faults, const std::string &heading) {
    std::string text = heading;
    for (const std::string &line : told_together(faults)) {
        text += "\n" + line;
    }
    return text;
}

} // namespace

InputError::InputError(Where where, std::string found, std::string expected)
    : std::runtime_error(message(where, found, expected)), where_(std::move(where)),
      found_(std::move(found)), expected_(std::move(expected)) {}

InputError::InputError(std::vector<InputError> faults, std::string heading)
    : std::runtime_error(message_of_all(faults, heading)), where_(faults.front().where_),
      found_(faults.front().found_), expected_(faults.front().expected_), each_(std::move(faults)),
      heading_(std::move(heading)) {}

void Faults::add(const InputError &fault) {
    constexpr std::size_t most = 20;
    constexpr std::size_t most_alike = 200;
    for (const InputError &one : fault.each()) {
        add(one);
    }
    if (!fault.each().empty()) {
        return;
    }
    ++count_;
    const auto alike = std::count_if(first_.begin(), first_.end(), [&](const InputError &other) {
        return are_alike(other, fault);
    });
    kinds_ += alike == 0 ? 1 : 0;
    if (first_.size() < most_alike && (alike > 0 || kinds_ <= most)) {
        first_.push_back(fault);
    }
}

bool Faults::is_known(const std::string &column) const {
    return !column.empty() &&
           std::any_of(first_.begin(), first_.end(),
                       [&](const InputError &fault) { return fault.where().column == column; });
}

void Faults::throw_any() const {
    if (count_ == 0) {
        return;
    }
    if (count_ == 1) {
        throw InputError(first_.front());
    }
    throw InputError(first_, first_.size() < count_
                                 ? fmt::format("{} faults, the first {}", count_, first_.size())
                                 : fmt::format("{} faults", count_));
}

std::vector<std::string> told_together(const std::vector<InputError> &faults) {
    std::vector<std::string> told;
    for (auto fault = faults.begin(); fault != faults.end(); ++fault) {
        const auto is_like_it = [&](const InputError &other) { return are_alike(*fault, other); };
        if (std::any_of(faults.begin(), fault, is_like_it)) {
            continue;
        }
        std::set<std::size_t> further;
        for (auto other = fault + 1; other != faults.end(); ++other) {
            if (is_like_it(*other)) {
                further.insert(other->where().line);
            }
        }
        told.emplace_back(fault->what());
        if (!further.empty()) {
            told.back() += fmt::format(" (and in line{} {})", further.size() == 1 ? "" : "s",
                                       fmt::join(further, ", "));
        }
    }
    return told;
}

std::string to_string(const Where &where) {
    std::string text = where.file;
    if (where.line > 0) {
        text += fmt::format("{}{}", text.empty() ? "line " : ":", where.line);
    }
    if (!where.column.empty()) {
        text += fmt::format("{}column {}", text.empty() ? "" : ", ", where.column);
    }
    return text;
}

InputError bad_usage(std::string found, std::string expected) {
    return {{"command line", 0, ""}, std::move(found), std::move(expected)};
}

} // namespace cospot
