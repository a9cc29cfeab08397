// A SMARTS pattern as --substructure takes it, held against a few compounds.
#include "descriptors/substructure.h"
#include "fuzzed.h"

#include <vector>

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    const std::string pattern = fuzz::text_of(data, size);
    std::vector<std::size_t> undecided;
    (void)fuzz::accepts([&] {
        (void)descriptors::substructure_matches(
            pattern, {"CCO", "C[C@H](N)C(=O)O", "Oc1ccc2ccccc2c1", "[Na+].CC(=O)[O-]"}, undecided);
    });
    return 0;
}
