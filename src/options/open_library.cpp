#include "options/open_library.h"

#include "evidence/fitted_system.h"

#include <ostream>
#include <string>

namespace cospot {

library::Database open_library(const Invocation &invocation, library::Access access) {
    bool is_upgraded = false;
    library::Database database =
        library::open_library(invocation.library, access, [&](const std::string &note) {
            invocation.err << "cospot: " << note << '\n';
            is_upgraded = true;
            invocation.has_changed = true;
        });
    database.set_command(command_text(invocation.verb, invocation.arguments));
    if (is_upgraded) {
        library::Database writer(invocation.library, library::Access::write);
        keep_fits(writer);
    }
    if (access == library::Access::read) {
        database.execute("BEGIN"); // all answers of one moment, and one lock instead of many
    }
    return database;
}

} // namespace cospot
