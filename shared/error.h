#pragma once

#include <cstddef>
#include <stdexcept>
#include <string>
#include <vector>

namespace cospot {

/// A place in the user's input. Line and column count from 1; 0 means "not known".
/// `column` is the name of a table column, or a character position where there is no table.
struct Where {
    std::string file;
    std::size_t line = 0;
    std::string column;
};

/// Bad input or bad usage. It is thrown where the fault is seen and caught once, where the command
/// line is run; the program exits with 2. A library or disk that fails is a library::DatabaseError
/// (2 as well). A broken promise between functions is a std::logic_error: a fault of the program
/// (3). The message always reads "WHERE: found FOUND; expected EXPECTED".
class InputError : public std::runtime_error {
public:
    InputError(Where where, std::string found, std::string expected);
    /// Two faults or more as one, at the place of the first; `heading` says how many there are.
    InputError(std::vector<InputError> faults, std::string heading);

    [[nodiscard]] const Where &where() const noexcept { return where_; }
    [[nodiscard]] const std::string &found() const noexcept { return found_; }
    [[nodiscard]] const std::string &expected() const noexcept { return expected_; }
    /// Of several faults each, else empty. `what` has the heading and each in a line of its own.
    [[nodiscard]] const std::vector<InputError> &each() const noexcept { return each_; }
    [[nodiscard]] const std::string &heading() const noexcept { return heading_; }

private:
    Where where_;
    std::string found_;
    std::string expected_;
    std::vector<InputError> each_;
    std::string heading_;
};

/// The faults of one file or row, told together: the first 20 in the order in which they were
/// found, those that differ by their lines alone counted once, and how many more there are.
class Faults {
public:
    /// A fault of several counts as these.
    void add(const InputError &fault);
    /// Whether one is of that column, which makes what follows from its value no news.
    [[nodiscard]] bool is_known(const std::string &column) const;
    /// Throws them as one InputError, whose place is that of the first; does nothing where there
    /// are none.
    void throw_any() const;

private:
    std::vector<InputError> first_;
    std::size_t kinds_ = 0; ///< that differ by more than their lines
    std::size_t count_ = 0;
};

/// The messages of the faults, in their order; those that differ by their lines alone are one, with
/// all lines: "f.csv:5, column uv254: found ...; expected ... (and in lines 7, 9)".
[[nodiscard]] std::vector<std::string> told_together(const std::vector<InputError> &faults);

/// A fault of the command line as a whole, e.g. an option that is missing.
[[nodiscard]] InputError bad_usage(std::string found, std::string expected);

/// "file:line, column NAME" with the unknown parts left out; empty if nothing is known.
[[nodiscard]] std::string to_string(const Where &where);

} // namespace cospot
