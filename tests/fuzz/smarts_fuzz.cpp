// A SMARTS pattern as --substructure takes it.
#include "descriptors/substructure.h"
#include "fuzzed.h"

#include <vector>

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    const std::string pattern = fuzz::text_of(data, size);
    std::vector<std::size_t> undecided;
    (void)fuzz::accepts([&] { // reading it; each search would be a process of its own
        (void)descriptors::substructure_matches(pattern, {}, undecided);
    });
    return 0;
}
