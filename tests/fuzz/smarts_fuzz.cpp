// A SMARTS pattern as --substructure takes it, held against a few compounds.
#include "descriptors/substructure.h"
#include "fuzzed.h"

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    const std::string pattern = fuzz::text_of(data, size);
    (void)fuzz::accepts([&] {
        (void)descriptors::substructure_matches(
            pattern, {"CCO", "C[C@H](N)C(=O)O", "Oc1ccc2ccccc2c1", "[Na+].CC(=O)[O-]"});
    });
    return 0;
}
