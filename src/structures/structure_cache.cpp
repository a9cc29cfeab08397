#include "structures/structure_cache.h"

#include "shared/parallel.h"
#include "structures/structure_service.h"

namespace cospot {

StructureCache::Result StructureCache::read(const std::string &smiles) {
    try {
        return structure_service().read_smiles(smiles);
    } catch (const InputError &error) {
        return Fault{error.found(), error.expected()};
    }
}

void StructureCache::prepare(const std::vector<std::string> &smiles) {
    std::vector<std::pair<const std::string *, Result *>> unread;
    for (const std::string &text : smiles) {
        const auto [entry, is_new] = results_.try_emplace(text);
        if (is_new) {
            unread.emplace_back(&entry->first, &entry->second);
        }
    }
    if (unread.empty()) {
        return;
    }
    (void)structure_service(); // opened before the threads ask for it
    for_each_in_parallel(unread.size(),
                         [&](std::size_t i) { *unread[i].second = read(*unread[i].first); });
}

const descriptors::Structure &StructureCache::get(const std::string &smiles, const Where &where) {
    prepare({smiles});
    const Result &result = results_.at(smiles);
    if (const Fault *fault = std::get_if<Fault>(&result)) {
        throw InputError(where, fault->found, fault->expected);
    }
    return std::get<descriptors::Structure>(result);
}

} // namespace cospot
