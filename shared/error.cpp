#include "shared/error.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace cospot {

namespace {

std::string message(const Where &where, const std::string &found, const std::string &expected) {
    const std::string place = to_string(where);
    return fmt::format("{}{}found {}; expected {}", place, place.empty() ? "" : ": ", found,
                       expected);
}

std::string message_of_all(const std::vector<InputError> &faults, const std::string &heading) {
    std::string text = heading;
    for (const InputError &fault : faults) {
        text += std::string("\n") + fault.what();
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
    for (const InputError &one : fault.each()) {
        add(one);
    }
    if (fault.each().empty() && count_++ < most) {
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
