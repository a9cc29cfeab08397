#include "options/command.h"
#include "library/library_file.h"
#include "options/options.h"

#include <ostream>

namespace cospot {

int run_init(const Invocation &invocation) {
    CommandOptions options("cospot [--library FILE] init",
                           "Creates an empty library file. An existing file is left alone.");
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    library::create_library(invocation.library);
    invocation.err << "created " << invocation.library.string() << '\n';
    return kDone;
}

} // namespace cospot
