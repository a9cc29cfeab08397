#pragma once

#include <cstddef>
#include <stdexcept>
#include <string>

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

    [[nodiscard]] const Where &where() const noexcept { return where_; }
    [[nodiscard]] const std::string &found() const noexcept { return found_; }
    [[nodiscard]] const std::string &expected() const noexcept { return expected_; }

private:
    Where where_;
    std::string found_;
    std::string expected_;
};

/// A fault of the command line as a whole, e.g. an option that is missing.
[[nodiscard]] InputError bad_usage(std::string found, std::string expected);

/// "file:line, column NAME" with the unknown parts left out; empty if nothing is known.
[[nodiscard]] std::string to_string(const Where &where);

} // namespace cospot
