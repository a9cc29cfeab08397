#include "expectation/compound_features.h"

#include "shared/parallel.h"
#include "structures/structure_service.h"

#include <exception>
#include <utility>

namespace cospot {

std::vector<prediction::CompoundFeatures> features_of(const std::vector<std::string> &smiles) {
    const descriptors::Api &service = structure_service();
    std::vector<prediction::CompoundFeatures> features(smiles.size());
    std::vector<std::exception_ptr> faults(smiles.size());
    for_each_in_parallel(smiles.size(), [&](std::size_t i) {
        try {
            const std::string parent = service.parent_smiles(smiles[i]);
            descriptors::RetentionFeatures read = service.retention_features(parent);
            features[i] = {std::move(read.descriptors), std::move(read.environments)};
        } catch (...) {
            faults[i] = std::current_exception();
        }
    });
    for (const std::exception_ptr &fault : faults) {
        if (fault) {
            std::rethrow_exception(fault);
        }
    }
    return features;
}

} // namespace cospot
