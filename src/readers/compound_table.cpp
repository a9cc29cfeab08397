#include "readers/compound_table.h"

#include "readers/cas_column.h"
#include "readers/measurement_table.h"
#include "shared/text.h"

#include <utility>

namespace cospot {

namespace {

/// Names between bars; a bar or a backslash behind a backslash belongs to the name.
std::vector<std::string> split_synonyms(std::string_view text) {
    std::vector<std::string> names;
    std::string name;
    const auto keep = [&] {
        if (const std::string_view kept = trimmed(name); !kept.empty()) {
            names.emplace_back(kept);
        }
        name.clear();
    };
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (text[at] == '|') {
            keep();
            continue;
        }
        const bool is_escape = text[at] == '\\' && at + 1 < text.size() &&
                               (text[at + 1] == '|' || text[at + 1] == '\\');
        at += is_escape ? 1 : 0;
        name += text[at];
    }
    keep();
    return names;
}

} // namespace

CompoundTable::CompoundTable(std::istream &in, std::string file,
                             const std::vector<ColumnAlias> &aliases)
    : table_(in, std::move(file),
             {{"compound", true}, {"smiles", true}, {"cas", false}, {"synonyms", false}}, aliases) {
}

bool CompoundTable::next(CompoundRow &row) {
    if (!table_.next()) {
        return false;
    }
    row.where = {table_.file(), table_.line(), ""};
    table_.read_row([&] { read(row); });
    return true;
}

void CompoundTable::read(CompoundRow &row) const {
    row.compound = table_.required_text("compound", "the name of the compound");
    table_.keep_fault([&] { check_compound_name(row.compound, row.at("compound")); });
    row.smiles = table_.required_text("smiles", "the structure as SMILES");
    row.cas = read_registry_number(table_);
    row.synonyms = split_synonyms(table_.text("synonyms"));
    for (const std::string &synonym : row.synonyms) {
        table_.keep_fault([&] { check_visible(synonym, row.at("synonyms")); });
    }
}

} // namespace cospot
