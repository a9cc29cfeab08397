#pragma once

#include "descriptors/adsorption.h"
#include "descriptors/boiling_point.h"
#include "descriptors/descriptors.h"
#include "descriptors/retention_features.h"
#include "descriptors/sdf_record.h"
#include "descriptors/structure.h"
#include "descriptors/structure_picture.h"
#include "descriptors/substructure.h"

#include <string>
#include <string_view>
#include <vector>

namespace cospot::descriptors {

/// The module's functions, for a program that loads the library with dlopen: RDKit takes several
/// times longer to load than the rest of a short command. They throw what their namesakes throw.
struct Api {
    Structure (*read_smiles)(std::string_view smiles);
    std::string (*parent_smiles)(std::string_view smiles);
    Structure (*read_mol_block)(std::string_view block);
    std::vector<bool> (*substructure_matches)(std::string_view smarts,
                                              const std::vector<std::string> &smiles,
                                              std::vector<std::size_t> &undecided);
    std::string (*write_sdf_record)(std::string_view smiles, std::string_view title,
                                    const std::vector<SdfProperty> &properties);
    Descriptors (*describe)(std::string_view smiles);
    Descriptors (*describe_parent)(std::string_view smiles);
    const std::vector<FunctionalGroup> &(*functional_groups)();
    const std::vector<std::string> &(*descriptor_names)();
    std::vector<double> (*as_vector)(const Descriptors &descriptors);
    SilicaAdsorption (*silica_adsorption)(std::string_view smiles);
    Hydrophobicity (*hydrophobicity)(const Descriptors &descriptors);
    BoilingPointEstimates (*boiling_points)(std::string_view smiles);
    RetentionFeatures (*retention_features)(std::string_view smiles);
    std::string (*retention_features_version)();
    std::string (*structure_svg)(std::string_view smiles, int width, int height);
};

} // namespace cospot::descriptors

/// The one symbol to look up in libcospot_descriptors.so; what it returns lives as long as the
/// library stays loaded. Never fails.
extern "C" const cospot::descriptors::Api *cospot_descriptors_api();
