// A file of any kind, text and gzip above all, as its format is told and a trace read from it.
#include "fuzzed_traces.h"

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    const std::string content = fuzz::text_of(data, size);
    (void)is_trace(content);
    std::istringstream in(content);
    (void)fuzz::accepts_file(
        [&] { fuzz::require_sound(read_trace(in, fuzz::kFile, {.time_unit = "min"})); });
    return 0;
}
