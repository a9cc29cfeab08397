#include "descriptors/api.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <dlfcn.h>

#include <string>
#include <vector>

namespace cospot::descriptors {
namespace {

/// The library as the program opens it, or null with a test failure.
const Api *opened_api() {
    void *library = dlopen("libcospot_descriptors.so", RTLD_NOW | RTLD_LOCAL);
    if (library == nullptr) {
        ADD_FAILURE() << dlerror(); // NOLINT(concurrency-mt-unsafe): one thread
        return nullptr;
    }
    void *symbol = dlsym(library, "cospot_descriptors_api");
    if (symbol == nullptr) {
        ADD_FAILURE() << dlerror(); // NOLINT(concurrency-mt-unsafe): one thread
        return nullptr;
    }
    using Entry = const Api *();
    return reinterpret_cast<Entry *>(symbol)();
}

TEST(DescriptorsApi, ReadsSmilesThroughTheLoadedLibrary) {
    const Api *api = opened_api();
    ASSERT_NE(api, nullptr);
    const Structure structure = api->read_smiles("OCC");
    EXPECT_EQ(structure.smiles, read_smiles("CCO").smiles);
    EXPECT_EQ(structure.inchikey, read_smiles("CCO").inchikey);
}

TEST(DescriptorsApi, OffersEveryFunctionOfTheModule) {
    const Api *api = opened_api();
    ASSERT_NE(api, nullptr);
    const std::string record = api->write_sdf_record("OCC", "ethanol", {{"note", "invented"}});
    const std::string block = record.substr(0, record.find("M  END") + 7);
    EXPECT_EQ(api->read_mol_block(block).inchikey, read_smiles("CCO").inchikey);
    std::vector<std::size_t> undecided;
    EXPECT_EQ(api->substructure_matches("[OX2H]", {"CCO", "COC"}, undecided),
              (std::vector<bool>{true, false}));
    EXPECT_EQ(api->as_vector(api->describe("CCO")), as_vector(describe("CCO")));
    EXPECT_EQ(api->descriptor_names(), descriptor_names());
    EXPECT_EQ(api->functional_groups().size(), functional_groups().size());
    EXPECT_EQ(api->silica_adsorption("CCO").energy, silica_adsorption("CCO").energy);
    EXPECT_EQ(api->hydrophobicity(describe("CCO")).tpsa, describe("CCO").tpsa);
    EXPECT_EQ(api->structure_svg("CCO", 90, 60), structure_svg("CCO", 90, 60));
}

TEST(DescriptorsApi, ThrowsInputErrorAcrossTheBoundary) {
    const Api *api = opened_api();
    ASSERT_NE(api, nullptr);
    try {
        static_cast<void>(api->read_smiles("C*C"));
        FAIL() << "not refused";
    } catch (const InputError &error) {
        EXPECT_EQ(error.found().rfind("\"C*C\"", 0), 0U) << error.found();
    }
}

TEST(DescriptorsApi, IsTheSameEachTime) {
    EXPECT_EQ(opened_api(), opened_api());
}

} // namespace
} // namespace cospot::descriptors
