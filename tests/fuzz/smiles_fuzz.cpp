// A SMILES as a structure.
#include "descriptors/structure.h"
#include "fuzzed.h"

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    const std::string text = fuzz::text_of(data, size);
    (void)fuzz::accepts([&] {
        const descriptors::Structure structure = descriptors::read_smiles(text);
        fuzz::require(descriptors::read_smiles(structure.smiles).inchikey == structure.inchikey,
                      "the SMILES that is written reads as the same compound");
        (void)descriptors::parent_smiles(text);
    });
    return 0;
}
