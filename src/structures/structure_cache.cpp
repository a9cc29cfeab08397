#include "structures/structure_cache.h"

#include "structures/structure_service.h"

#include <algorithm>
#include <atomic>
#include <thread>

namespace cospot {

namespace {

/// Calls `work(i)` for i below `count` on as many threads as there are cores.
template <typename Work> void for_each_in_parallel(std::size_t count, const Work &work) {
    constexpr std::size_t worth_a_thread = 16;
    const std::size_t cores = std::max(1U, std::thread::hardware_concurrency());
    std::atomic<std::size_t> next{0};
    const auto run = [&] {
        for (std::size_t i = next++; i < count; i = next++) {
            work(i);
        }
    };
    std::vector<std::jthread> helpers;
    for (std::size_t i = 1; i < std::min(cores, count / worth_a_thread); ++i) {
        helpers.emplace_back(run);
    }
    run();
}

} // namespace

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
