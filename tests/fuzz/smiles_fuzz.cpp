// A SMILES through all that is made of it.
#include "descriptors/api.h"
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
    (void)fuzz::accepts([&] { (void)descriptors::describe(text); });
    (void)fuzz::accepts([&] { (void)descriptors::describe_parent(text); });
    (void)fuzz::accepts([&] { (void)descriptors::boiling_points(text); });
    (void)fuzz::accepts([&] { (void)descriptors::silica_adsorption(text); });
    (void)fuzz::accepts([&] { (void)descriptors::retention_features(text); });
    (void)fuzz::accepts([&] { (void)descriptors::structure_svg(text, 200, 150); });
    (void)fuzz::accepts([&] { (void)descriptors::write_sdf_record(text, "fuzzed", {}); });
    return 0;
}
