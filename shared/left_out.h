#pragma once

#include "shared/table.h"

#include <map>
#include <string>
#include <vector>

namespace cospot {

/// The lanes or runs that a faulty row is of, where the form allows to leave them out.
class LeftOut {
public:
    explicit LeftOut(bool is_partial) : is_partial_(is_partial) {}

    /// Leaves out what the row that `table` stands at is of; false where that may not be, or where
    /// `name` is empty: then the whole file is refused.
    bool take(const std::string &name, const InputError &fault);
    [[nodiscard]] bool holds(const std::string &name) const { return faults_.contains(name); }
    /// Throws InputError with the first faults where something was left out, and nothing is left.
    void check_rest(bool is_any_left, const std::string &file, const std::string &kind) const;
    /// One a lane or run, with its first fault; a warning.
    [[nodiscard]] std::vector<std::string> notes(const std::string &kind) const;

private:
    bool is_partial_;
    std::map<std::string, std::string> faults_;
};

/// What the user should know of the table, and what was left out of it.
[[nodiscard]] std::vector<std::string> notes_on(const TableReader &table, const LeftOut &left_out,
                                                const std::string &kind);

} // namespace cospot
