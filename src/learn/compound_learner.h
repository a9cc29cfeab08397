#pragma once

#include "learn/learn_summary.h"
#include "library/compounds.h"
#include "library/database.h"
#include "shared/error.h"
#include "structures/structure_cache.h"

#include <set>
#include <string>
#include <unordered_map>

namespace cospot {

/// A compound as a row names it.
struct NamedStructure {
    std::string name;
    std::string smiles;    ///< empty: see `mol_block`; both empty: the library knows the name
    std::string mol_block; ///< MDL mol block
    std::string cas;
    Where where; ///< file and line
};

/// What the library keeps of a structure, under the name and registry number of the row.
[[nodiscard]] library::Compound compound_of(const descriptors::Structure &structure,
                                            const NamedStructure &row);

/// Finds or adds the compounds that rows name. The rules, each reported in the summary:
/// - The structure decides: the same InChIKey is the same compound, whatever its names; a further
///   name becomes a synonym. Tautomers that standard InChI does not tell apart are one compound.
/// - One name for several structures: they are kept apart, and the name is ambiguous.
/// - A structure that was corrected away from the compound of that name does not come back: the
///   table still has the error, unless the user says that it is another compound.
/// - A salt and its free base, stereoisomers, a structure with open stereo, and tautomers that
/// InChI
///   tells apart are different compounds, reported as relatives of what the library holds.
/// - A registry number is kept where the compound has none; another one is reported and not kept.
class CompoundLearner {
public:
    CompoundLearner(library::Database &database, library::ChangeId change, LearnSummary &summary,
                    bool accepts_corrected);

    /// Reads the structures of these SMILES ahead, on all cores.
    void prepare(const std::vector<std::string> &smiles) { structures_.prepare(smiles); }

    /// The id of the compound; throws InputError for a faulty structure or an unknown name.
    library::CompoundId id_of(const NamedStructure &row);

private:
    library::CompoundId by_name(const NamedStructure &row);
    library::CompoundId by_structure(const NamedStructure &row,
                                     const descriptors::Structure &structure);
    library::CompoundId add(const NamedStructure &row, const descriptors::Structure &structure);
    void check_corrected(const NamedStructure &row, const descriptors::Structure &structure);
    void note_names(const library::Compound &held, const NamedStructure &row);
    void report_relatives(const library::Compound &compound);

    library::Database *database_;
    library::ChangeId change_;
    LearnSummary *summary_;
    bool accepts_corrected_; ///< a structure that was corrected comes back as another compound
    StructureCache structures_;
    std::unordered_map<std::string, library::CompoundId>
        ids_;                               ///< by name, SMILES and registry number
    std::set<library::CompoundId> retired_; ///< of which it was said
};

} // namespace cospot
