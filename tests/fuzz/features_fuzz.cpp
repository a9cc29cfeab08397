// The long table of features as `identify` reads it.
#include "fuzzed.h"
#include "readers/feature_table.h"

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    std::istringstream in(fuzz::text_of(data, size));
    (void)fuzz::accepts_file([&] {
        const FeatureSet set = read_feature_table(in, fuzz::kFile);
        for (const Feature &feature : set.features) {
            fuzz::require(!feature.observations.empty(), "each feature has a retention");
            for (const FeatureObservation &observation : feature.observations) {
                check_physical(observation.quantity, observation.value, observation.where);
            }
        }
    });
    return 0;
}
