// An mzML file as a trace is read from it.
#include "fuzzed_traces.h"
#include "traces/mzml.h"

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    std::istringstream in(fuzz::text_of(data, size));
    (void)fuzz::accepts_file([&] { fuzz::require_sound(read_mzml(in, fuzz::kFile, {})); });
    return 0;
}
