#include "readers/column_table.h"

#include "shared/number.h"
#include "shared/table.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <set>
#include <utility>

namespace cospot {

namespace {

constexpr double kLargestAmount_mg = 1e9;
constexpr std::size_t kMostCompounds = 500;

fractions::Role read_role(const TableReader &table) {
    const std::string_view role = table.text("role");
    if (role.empty()) {
        return fractions::Role::unknown;
    }
    if (equal_ignoring_case(role, "target")) {
        return fractions::Role::target;
    }
    if (equal_ignoring_case(role, "impurity")) {
        return fractions::Role::impurity;
    }
    throw InputError(table.where("role"), in_quotes(role), "target, impurity or nothing");
}

fractions::PlateCompound read_compound(const TableReader &table) {
    const std::string expected = "an R_F from 0 to 1";
    fractions::PlateCompound compound;
    compound.name = table.required_text("compound", "the name of the compound");
    compound.rf = table.number("Rf", expected);
    if (compound.rf < 0.0 || compound.rf > 1.0) {
        throw InputError(table.where("Rf"), exact_text(compound.rf),
                         compound.rf > 1.0 ? expected + " (hR_F divided by 100)" : expected);
    }
    compound.role = read_role(table);
    compound.amount_mg = table.optional_number("amount_mg", "an amount in mg");
    if (compound.amount_mg &&
        (*compound.amount_mg < 0.0 || *compound.amount_mg > kLargestAmount_mg)) {
        throw InputError(table.where("amount_mg"), exact_text(*compound.amount_mg),
                         "an amount in mg, from 0");
    }
    return compound;
}

} // namespace

ColumnTable read_column_compounds(std::istream &in, const std::string &file,
                                  const std::vector<ColumnAlias> &aliases) {
    TableReader table(in, file,
                      {{"compound", true}, {"Rf", true}, {"role", false}, {"amount_mg", false}},
                      aliases);
    ColumnTable result;
    std::set<std::string> names;
    bool has_target = false;
    for_each_row(table, [&] {
        fractions::PlateCompound compound = read_compound(table);
        if (!names.insert(lower_ascii(compound.name)).second) {
            throw InputError(table.where("compound"), in_quotes(compound.name) + " again",
                             "each compound once");
        }
        if (compound.role == fractions::Role::target && std::exchange(has_target, true)) {
            throw InputError(table.where("role"), "a second target", "one target");
        }
        if (result.compounds.size() == kMostCompounds) {
            throw InputError(table.where("compound"),
                             fmt::format("more than {} compounds", kMostCompounds),
                             "what one column can hold");
        }
        result.compounds.push_back(std::move(compound));
    });
    result.notes = table.notes();
    if (result.compounds.empty()) {
        throw InputError({file, table.line(), ""}, "a header without rows", "one row a compound");
    }
    return result;
}

} // namespace cospot
