#include "descriptors/adsorption.h"

#include "descriptors/data_tables.h"
#include "descriptors/molecule.h"
#include "descriptors/origin.h"
#include "descriptors/pattern_table.h"
#include "shared/number.h"

#include <GraphMol/GraphMol.h>

#include <optional>
#include <stdexcept>

namespace cospot::descriptors {

namespace {

/// What another polar group adds beside the one that localises.
constexpr double share_of_further_groups = 0.5;
/// Below it a row of the table is skeleton: carbon, and halogen on an aromatic ring.
constexpr double least_polar_energy = 0.4;

struct Row {
    std::string group;
    double energy;
    bool by_analogy;
    Pattern pattern;
};

std::vector<Row> read_table() {
    std::vector<Row> table;
    for (const auto &fields : table_rows(kSilicaAdsorption, 5)) {
        const std::optional<double> energy = number_from_text(fields[2]);
        const bool by_analogy = fields[3] == "analogy";
        if (!energy || (!by_analogy && fields[3] != "memory")) {
            throw std::logic_error("silica_adsorption.tsv has a bad row: " + fields[0]);
        }
        table.push_back({fields[0], *energy, by_analogy, Pattern(fields[1])});
    }
    return table;
}

bool is_polar(const GroupAdsorption &group) {
    return group.energy >= least_polar_energy;
}

/// The sum over the groups with the rule of `SilicaAdsorption::energy`.
void add_up(SilicaAdsorption &result) {
    double strongest = 0.0;
    for (const GroupAdsorption &group : result.groups) {
        const double share = is_polar(group) ? share_of_further_groups : 1.0;
        result.energy += share * group.count * group.energy;
        if (is_polar(group) && group.energy > strongest) {
            strongest = group.energy;
            result.strongest_group = group.group;
        }
    }
    result.energy += (1.0 - share_of_further_groups) * strongest;
}

int heteroatoms_outside(const RDKit::ROMol &molecule, const std::vector<bool> &covered) {
    constexpr int carbon = 6;
    int count = 0;
    for (const RDKit::Atom *atom : molecule.atoms()) {
        count +=
            atom->getAtomicNum() > 1 && atom->getAtomicNum() != carbon && !covered[atom->getIdx()];
    }
    return count;
}

SilicaAdsorption adsorption_of(const RDKit::ROMol &molecule) {
    thread_local const std::vector<Row> table = read_table(); // matching writes into the patterns
    const Elements present = elements_of(molecule);
    std::vector<bool> covered(molecule.getNumAtoms(), false);
    SilicaAdsorption result;
    for (const Row &row : table) {
        const auto matches = row.pattern.matches(molecule, present);
        for (const auto &match : matches) {
            for (const unsigned atom : match) {
                covered[atom] = true;
            }
        }
        if (!matches.empty()) {
            result.groups.push_back(
                {row.group, static_cast<int>(matches.size()), row.energy, row.by_analogy});
            result.uses_analogy = result.uses_analogy || row.by_analogy;
        }
    }
    result.heteroatoms_left_out = heteroatoms_outside(molecule, covered);
    add_up(result);
    return result;
}

} // namespace

SilicaAdsorption silica_adsorption(std::string_view smiles) {
    return guarded(smiles_origin(smiles),
                   [&] { return adsorption_of(*molecule_of_smiles(smiles)); });
}

Hydrophobicity hydrophobicity(const Descriptors &descriptors) {
    return {descriptors.crippen_logp, descriptors.tpsa};
}

} // namespace cospot::descriptors
