// Response factors as `learn` reads them.
#include "fuzzed.h"
#include "readers/response_table.h"

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    std::istringstream in(fuzz::text_of(data, size));
    (void)fuzz::accepts_file([&] {
        for (const ResponseRow &row : read_responses(in, fuzz::kFile, {})) {
            fuzz::require(row.factor >= 0.001 && row.factor <= 1000.0,
                          "a factor lies in its range");
        }
    });
    return 0;
}
