#include "library/library_file.h"
#include "options/command.h"
#include "options/options.h"
#include "report/presentation.h"

#include <string>

namespace cospot {

int run_init(const Invocation &invocation) {
    CommandOptions options("cospot [--library FILE] [--json] init",
                           "Creates an empty library file. An existing file is left alone.");
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    library::create_library(invocation.library);
    const std::string file = invocation.library.string();
    present(
        invocation, options,
        [&] {
            return Json{{"created", file}};
        },
        [&] {
            Document document{.title = "An empty library"};
            document.blocks.emplace_back(Paragraph{"Created " + file + ", an empty library."});
            return document;
        });
    return kDone;
}

} // namespace cospot
