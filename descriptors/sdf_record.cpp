#include "descriptors/sdf_record.h"

#include "descriptors/drawing.h"
#include "descriptors/inchi.h"
#include "descriptors/molecule.h"
#include "descriptors/origin.h"
#include "shared/text.h"

#include <GraphMol/FileParsers/FileParsers.h>
#include <GraphMol/GraphMol.h>

#include <algorithm>

namespace cospot::descriptors {

namespace {

bool has_control_character(std::string_view text) {
    return std::any_of(text.begin(), text.end(), [](char c) {
        const auto byte = static_cast<unsigned char>(c);
        return byte < 0x20 || byte == 0x7F;
    });
}

void check_title(std::string_view title) {
    const bool marks =
        title.starts_with("$$$$") || title.starts_with("$RXN") || title.starts_with("$MDL");
    if (marks || has_control_character(title)) {
        throw InputError({}, in_quotes(title),
                         "an SDF title: one line that is no mark of the format");
    }
}

void check_name(std::string_view name) {
    if (name.empty() || has_control_character(name) ||
        name.find_first_of("<>") != std::string_view::npos) {
        throw InputError({}, in_quotes(name),
                         "the name of an SDF data item: one line without < or >");
    }
}

void check_text(const SdfProperty &property) {
    std::string_view rest = property.second;
    while (true) {
        const std::size_t end = rest.find('\n');
        const std::string_view line = rest.substr(0, end);
        const bool several = end != std::string_view::npos || line.size() < property.second.size();
        if ((trimmed(line).empty() && several) || line.starts_with("$$$$") ||
            line.starts_with(">")) {
            throw InputError({}, in_quotes(property.second) + " for " + in_quotes(property.first),
                             "the text of an SDF data item: no empty line, none that begins with "
                             "$$$$ or >");
        }
        if (end == std::string_view::npos) {
            return;
        }
        rest.remove_prefix(end + 1);
    }
}

std::string drawn(const Origin &origin, RDKit::RWMol &molecule) {
    const std::string inchikey = inchikey_of(molecule);
    draw(molecule);
    std::string block = RDKit::MolToMolBlock(molecule);
    if (inchikey_of(*molecule_of_mol_block(block)) != inchikey) {
        refuse(origin, "its stereochemistry is lost in a drawing");
    }
    return block;
}

std::string with_title(std::string_view title, const std::string &block) {
    return std::string(title) + block.substr(block.find('\n'));
}

} // namespace

std::string write_sdf_record(std::string_view smiles, std::string_view title,
                             const std::vector<SdfProperty> &properties) {
    check_title(title);
    for (const SdfProperty &property : properties) {
        check_name(property.first);
        check_text(property);
    }
    const Origin origin = smiles_origin(smiles);
    const std::string block =
        guarded(origin, [&] { return drawn(origin, *molecule_of_smiles(smiles)); });
    std::string record = with_title(title, block);
    for (const auto &[name, text] : properties) {
        record.append(">  <").append(name).append(">\n").append(text).append("\n\n");
    }
    return record + "$$$$\n";
}

} // namespace cospot::descriptors
