#pragma once

#include "library/selection.h"

#include <initializer_list>
#include <string>
#include <variant>
#include <vector>

namespace cospot::library {

/// A WHERE clause of fixed texts with its parameters, in the order of their question marks.
struct Clause {
    using Parameter = std::variant<std::string, double, std::int64_t>;

    std::string sql = "1";
    std::vector<Parameter> parameters;

    void add(const char *condition, std::initializer_list<Parameter> values);
    /// Binds its parameters from the first one on; returns the place of the next.
    int bind(Statement &statement) const;
};

/// Adds what the selection asks of compounds (c), systems (s) and runs (r).
void narrow(Clause &clause, Database &database, const Selection &selection);

/// The name of the wanted system as the library writes it.
[[nodiscard]] std::string name_of_system(Database &database, const Selection &selection);

} // namespace cospot::library
