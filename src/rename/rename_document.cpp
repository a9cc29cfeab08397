#include "rename/rename_document.h"

#include "document/property_table.h"
#include "library/names.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <string>
#include <utility>

namespace cospot {

namespace {

Table structures_table(const library::Compound &before, const library::Compound &now) {
    Table table{.label = "Structures", .columns = {{""}, {"Before"}, {"Now"}}};
    const auto add = [&](const char *what, const std::string &old_text, const std::string &text) {
        table.rows.push_back({{{what}, {old_text}, {text}}});
    };
    add("SMILES", before.smiles, now.smiles);
    add("InChIKey", before.inchikey, now.inchikey);
    add("Formula", before.formula, now.formula);
    add("Molar mass", fmt::format("{:.2f} g/mol", before.average_mass),
        fmt::format("{:.2f} g/mol", now.average_mass));
    return table;
}

void add_to(Document &document, const library::RenamedCompound &renamed) {
    const auto &[before, now, namesake] = renamed;
    if (before.name != now.name) {
        const std::string old_name =
            namesake ? fmt::format("the old name finds {} only", exact_words(*namesake))
                     : "it is still found by the old name";
        document.blocks.emplace_back(
            Paragraph{fmt::format("Compound {} is now {}; {}.", in_quotes(before.name),
                                  in_quotes(now.name), old_name),
                      Paragraph::Role::verdict});
    }
    if (before.inchikey != now.inchikey) {
        document.blocks.emplace_back(Paragraph{
            fmt::format("The structure of {} is corrected; its values stay.", in_quotes(now.name)),
            Paragraph::Role::verdict});
        document.blocks.emplace_back(structures_table(before, now));
    }
}

void add_to(Document &document, const library::RenamedSystem &renamed) {
    document.blocks.emplace_back(
        Paragraph{fmt::format("System {} is now {}; it is still found by the old name.",
                              in_quotes(renamed.before.name), in_quotes(renamed.now.name)),
                  Paragraph::Role::verdict});
}

} // namespace

Document rename_document(const RenameResult &result) {
    Document document{.title = "Renamed", .notes = result.notes};
    std::visit([&](const auto &renamed) { add_to(document, renamed); }, result.renamed);
    return document;
}

} // namespace cospot
