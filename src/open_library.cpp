#include "open_library.h"

#include <ostream>
#include <string>

namespace cospot {

library::Database open_library(const Invocation &invocation, library::Access access) {
    library::Database database =
        library::open_library(invocation.library, access, [&](const std::string &note) {
            invocation.err << "cospot: " << note << '\n';
        });
    if (access == library::Access::read) {
        database.execute("BEGIN"); // all answers of one moment, and one lock instead of many
    }
    return database;
}

} // namespace cospot
