#include "open_library.h"

#include <ostream>
#include <string>

namespace cospot {

library::Database open_library(const Invocation &invocation, library::Access access) {
    return library::open_library(invocation.library, access, [&](const std::string &note) {
        invocation.err << "cospot: " << note << '\n';
    });
}

} // namespace cospot
