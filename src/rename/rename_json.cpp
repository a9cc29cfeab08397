#include "rename/rename_json.h"

namespace cospot {

namespace {

Json json_of(const library::Compound &compound) {
    return {{"compound", compound.name},
            {"inchikey", compound.inchikey},
            {"smiles", compound.smiles},
            {"formula", compound.formula},
            {"average_mass", compound.average_mass},
            {"monoisotopic_mass", compound.monoisotopic_mass}};
}

Json json_of(const library::System &system) {
    return {{"system", system.name}};
}

} // namespace

Json rename_json(const RenameResult &result) {
    const bool is_compound = std::holds_alternative<library::RenamedCompound>(result.renamed);
    Json json{{"renamed", is_compound ? "compound" : "system"}};
    std::visit(
        [&](const auto &renamed) {
            json["before"] = json_of(renamed.before);
            json["now"] = json_of(renamed.now);
        },
        result.renamed);
    json["notes"] = result.notes;
    return json;
}

} // namespace cospot
