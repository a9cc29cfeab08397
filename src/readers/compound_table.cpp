#include "readers/compound_table.h"

#include "readers/measurement_table.h"
#include "shared/registry_number.h"
#include "shared/text.h"

#include <utility>

namespace cospot {

namespace {

std::vector<std::string> split_synonyms(std::string_view text) {
    std::vector<std::string> names;
    while (!text.empty()) {
        const std::size_t bar = text.find('|');
        const std::string_view name = trimmed(text.substr(0, bar));
        if (!name.empty()) {
            names.emplace_back(name);
        }
        text.remove_prefix(bar == std::string_view::npos ? text.size() : bar + 1);
    }
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
    row.compound = table_.required_text("compound", "the name of the compound");
    check_compound_name(row.compound, row.at("compound"));
    row.smiles = table_.required_text("smiles", "the structure as SMILES");
    row.cas = table_.text("cas");
    if (!row.cas.empty()) {
        check_registry_number(row.cas, row.at("cas"));
    }
    row.synonyms = split_synonyms(table_.text("synonyms"));
    return true;
}

} // namespace cospot
