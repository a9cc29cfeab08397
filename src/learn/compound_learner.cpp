#include "learn/compound_learner.h"

#include "library/names.h"
#include "library/near_names.h"
#include "library/relatives.h"
#include "library/rename.h"
#include "shared/text.h"
#include "structures/structure_service.h"

#include <fmt/format.h>

#include <utility>

namespace cospot {

namespace {

descriptors::Structure read_mol_block(const NamedStructure &row) {
    try {
        return structure_service().read_mol_block(row.mol_block);
    } catch (const InputError &error) {
        throw InputError(row.where, error.found(), error.expected());
    }
}

Where at(const Where &row, const char *column) {
    return {row.file, row.line, column};
}

/// How a new compound is related to one that the library holds.
const char *kinship(const library::Compound &compound, const library::Compound &other) {
    if (compound.inchikey.substr(0, 14) == other.inchikey.substr(0, 14)) {
        return compound.open_stereo || other.open_stereo
                   ? "the same skeleton, one of them with stereo left open"
                   : "stereoisomers";
    }
    return compound.parent_inchikey == other.parent_inchikey ? "salt and free form, or two salts"
                                                             : "tautomers";
}

/// What the user said of a correction, without what `rename` adds about it; empty: nothing.
std::string reason_of(const library::Change &change) {
    const std::size_t added = change.detail.find("compound \"");
    return change.detail.substr(0, added == 0 ? 0 : change.detail.find(" (compound \""));
}

} // namespace

library::Compound compound_of(const descriptors::Structure &structure, const NamedStructure &row) {
    return {.id = {},
            .inchikey = structure.inchikey,
            .parent_inchikey = structure.parent_inchikey,
            .tautomer = structure.tautomer,
            .smiles = structure.smiles,
            .name = row.name,
            .cas = row.cas,
            .formula = structure.formula,
            .average_mass = structure.average_mass,
            .monoisotopic_mass = structure.monoisotopic_mass,
            .open_stereo = structure.has_unassigned_stereo};
}

CompoundLearner::CompoundLearner(library::Database &database, library::ChangeId change,
                                 LearnSummary &summary, bool accepts_corrected)
    : database_(&database), change_(change), summary_(&summary),
      accepts_corrected_(accepts_corrected) {}

library::CompoundId CompoundLearner::id_of(const NamedStructure &row) {
    if (!row.mol_block.empty()) {
        return by_structure(row, read_mol_block(row));
    }
    std::string key;
    key.reserve(row.name.size() + row.smiles.size() + row.cas.size() + 2);
    key.append(row.name).append(1, '\n').append(row.smiles).append(1, '\n').append(row.cas);
    const auto known = ids_.find(key);
    if (known != ids_.end()) {
        return known->second;
    }
    const library::CompoundId id =
        row.smiles.empty()
            ? by_name(row)
            : by_structure(row, structures_.get(row.smiles, at(row.where, "smiles")));
    ids_.emplace(std::move(key), id);
    return id;
}

library::CompoundId CompoundLearner::by_name(const NamedStructure &row) {
    const auto named = compound_if_named(*database_, row.name, at(row.where, "compound"));
    if (!named) {
        throw InputError(at(row.where, "compound"), in_quotes(row.name) + " without a structure",
                         "a SMILES, in a column smiles or in a table compound,smiles that goes "
                         "first: the library holds no compound of that name" +
                             did_you_mean(*database_, row.name, NameOf::compound));
    }
    note_names(*named, row);
    return named->id;
}

library::CompoundId CompoundLearner::by_structure(const NamedStructure &row,
                                                  const descriptors::Structure &structure) {
    if (const auto held = library::find_by_inchikey(*database_, structure.inchikey)) {
        if (held->tautomer.empty()) { // learned before tautomers were kept
            library::set_tautomer(*database_, held->id, structure.tautomer);
        }
        note_names(*held, row);
        return held->id;
    }
    return add(row, structure);
}

/// Throws InputError where the structure was corrected away from the compound that the row names.
void CompoundLearner::check_corrected(const NamedStructure &row,
                                      const descriptors::Structure &structure) {
    for (const library::Compound &held : library::all_by_name(*database_, row.name)) {
        const auto change = library::correction_of(*database_, held.id, structure.inchikey);
        if (!change) {
            continue;
        }
        const bool has_smiles = !row.smiles.empty();
        const std::string reason = reason_of(*change);
        throw InputError(
            has_smiles ? at(row.where, "smiles") : row.where,
            fmt::format("{} for {}, a structure that {} corrected to {} at {} ({})",
                        in_quotes(has_smiles ? row.smiles : structure.smiles), in_quotes(row.name),
                        change->who, in_quotes(held.smiles), change->at_utc,
                        reason.empty() ? "cospot rename" : reason),
            "the corrected structure in the table; --accept keeps the other one as another "
            "compound, under another name if you give it one");
    }
}

library::CompoundId CompoundLearner::add(const NamedStructure &row,
                                         const descriptors::Structure &structure) {
    if (!accepts_corrected_) {
        check_corrected(row, structure);
    }
    for (const library::Compound &other : library::find_by_name(*database_, row.name)) {
        summary_->remarks.push_back(
            fmt::format("{}: this name stands for another structure too ({} and {}); they are kept "
                        "apart by structure",
                        row.name, other.inchikey, structure.inchikey));
    }
    if (const auto corrected = library::formerly_of(*database_, structure.inchikey)) {
        summary_->remarks.push_back(
            fmt::format("! {}: this structure was corrected in the library, where {} has {} now; "
                        "it is kept as another compound, so correct it in the table too",
                        row.name, corrected->name, corrected->smiles));
    }
    const library::Compound compound = compound_of(structure, row);
    report_relatives(compound);
    ++summary_->compounds_added;
    return library::add_compound(*database_, compound, change_);
}

void CompoundLearner::report_relatives(const library::Compound &compound) {
    for (const library::Compound &other : library::find_relatives(*database_, compound)) {
        summary_->remarks.push_back(fmt::format("{} and {}: {}; kept as two compounds",
                                                compound.name, other.name,
                                                kinship(compound, other)));
    }
}

/// Keeps a further name and a first registry number of a structure that the library holds.
void CompoundLearner::note_names(const library::Compound &held, const NamedStructure &row) {
    if (held.retired && retired_.insert(held.id).second) {
        summary_->remarks.push_back(held.name + " is retired: its values do not count (cospot "
                                                "retire --undo --compound takes that back)");
    }
    const bool is_key = row.name == held.inchikey || row.name == held.cas;
    if (!is_key && library::add_synonym(*database_, held.id, row.name, change_)) {
        ++summary_->synonyms_added;
        summary_->remarks.push_back(
            fmt::format("{}: same structure as {}; kept as a further name", row.name, held.name));
    }
    if (row.cas.empty() || row.cas == held.cas) {
        return;
    }
    if (held.cas.empty()) {
        library::set_cas(*database_, held.id, row.cas);
    } else {
        summary_->remarks.push_back(fmt::format("{}: registry number {} differs from the {} that "
                                                "the library holds, which stays",
                                                row.name, row.cas, held.cas));
    }
}

} // namespace cospot
