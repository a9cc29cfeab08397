#include "structures/structure_service.h"

#include "shared/error.h"

#include <dlfcn.h>

#include <string>

namespace cospot {

namespace {

const descriptors::Api *open_service() {
    // The run path of the program says where the library is; it stays open until the program ends.
    void *handle = dlopen("libcospot_descriptors.so", RTLD_NOW | RTLD_LOCAL);
    void *symbol = handle != nullptr ? dlsym(handle, "cospot_descriptors_api") : nullptr;
    if (symbol == nullptr) {
        const char *reason =
            dlerror(); // NOLINT(concurrency-mt-unsafe): called under a static's lock
        throw InputError({"libcospot_descriptors.so", 0, ""},
                         reason != nullptr ? reason : "no reason given",
                         "the library for structures that is installed with cospot");
    }
    using Entry = const descriptors::Api *();
    return reinterpret_cast<Entry *>(symbol)();
}

} // namespace

const descriptors::Api &structure_service() {
    static const descriptors::Api *const service = open_service();
    return *service;
}

std::vector<std::pair<std::string, int>>
occurring_groups(const descriptors::Descriptors &descriptors) {
    const auto &groups = structure_service().functional_groups();
    std::vector<std::pair<std::string, int>> occurring;
    for (std::size_t i = 0; i < groups.size(); ++i) {
        if (descriptors.groups[i] > 0) {
            occurring.emplace_back(groups[i].name, descriptors.groups[i]);
        }
    }
    return occurring;
}

} // namespace cospot
