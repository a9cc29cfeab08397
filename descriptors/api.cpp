#include "descriptors/api.h"

const cospot::descriptors::Api *cospot_descriptors_api() {
    using namespace cospot::descriptors;
    static constexpr Api api{
        .read_smiles = &read_smiles,
        .parent_smiles = &parent_smiles,
        .read_mol_block = &read_mol_block,
        .substructure_matches = &substructure_matches,
        .write_sdf_record = &write_sdf_record,
        .describe = &describe,
        .describe_parent = &describe_parent,
        .functional_groups = &functional_groups,
        .descriptor_names = &descriptor_names,
        .as_vector = &as_vector,
        .silica_adsorption = &silica_adsorption,
        .hydrophobicity = &hydrophobicity,
        .boiling_points = &boiling_points,
        .retention_features = &retention_features,
        .retention_features_version = &retention_features_version,
        .structure_svg = &structure_svg,
    };
    return &api;
}
