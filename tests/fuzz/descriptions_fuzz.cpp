// All that is made of a structure that was read.
#include "descriptors/api.h"
#include "fuzzed.h"

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    const std::string text = fuzz::text_of(data, size);
    (void)fuzz::accepts([&] { (void)descriptors::describe(text); });
    (void)fuzz::accepts([&] { (void)descriptors::describe_parent(text); });
    (void)fuzz::accepts([&] { (void)descriptors::boiling_points(text); });
    (void)fuzz::accepts([&] { (void)descriptors::silica_adsorption(text); });
    (void)fuzz::accepts([&] { (void)descriptors::retention_features(text); });
    (void)fuzz::accepts([&] { (void)descriptors::structure_svg(text, 200, 150); });
    (void)fuzz::accepts([&] { (void)descriptors::write_sdf_record(text, "fuzzed", {}); });
    return 0;
}
