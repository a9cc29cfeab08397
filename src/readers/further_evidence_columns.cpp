#include "readers/further_evidence_columns.h"

#include "quantities/element_counts.h"
#include "quantities/stains.h"
#include "shared/number.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>

namespace cospot {

namespace {

constexpr double kLargestMass = 1e5;

[[noreturn]] void refuse_contradiction(const TableReader &table, const char *column,
                                       const std::string &earlier) {
    throw InputError(table.where(column), in_quotes(table.text(column)),
                     earlier + ", as an earlier row says of this feature");
}

/// A cross is a yes, strong ("++") or weak ("(+)"), and a dash a no, though a dash is an empty cell
/// elsewhere.
bool read_yes_or_no(const TableReader &table, const char *column) {
    const std::string_view mapped = table.word(column, {"yes", "no"});
    const std::string_view text = mapped.empty() ? table.written(column) : mapped;
    const auto is_one_of = [&](std::initializer_list<std::string_view> words) {
        return std::any_of(words.begin(), words.end(),
                           [&](std::string_view word) { return equal_ignoring_case(text, word); });
    };
    if (is_one_of({"yes", "y", "true", "1", "x", "+", "++", "+++", "(+)", "((+))", "+ +", "strong",
                   "medium", "weak", "faint"})) {
        return true;
    }
    if (is_one_of({"no", "n", "false", "0", "-", "–", "—"})) {
        return false;
    }
    throw InputError(table.where(column), text.empty() ? "nothing" : in_quotes(text),
                     fmt::format("yes or no; --map yes={} says that it means yes",
                                 text.empty() ? "WORD" : in_quotes(text)));
}

/// Whether the row says yes or no in the column.
bool says_yes_or_no(const TableReader &table, const char *column) {
    const std::string_view text = table.written(column);
    return !text.empty() && !equal_ignoring_case(text, "n/a");
}

const char *yes_or_no(bool value) {
    return value ? "yes" : "no";
}

void read_uv254(const TableReader &table, FurtherEvidence &evidence) {
    const bool seen = read_yes_or_no(table, "uv254");
    if (evidence.uv254 && *evidence.uv254 != seen) {
        refuse_contradiction(table, "uv254", yes_or_no(*evidence.uv254));
    }
    evidence.uv254 = seen;
}

/// The reagent that "stained" is about: of the row, else that of the call, else what the user's
/// table calls the column ("KMnO4", "KMnO4 after heating").
const Stain &stain_of_row(const TableReader &table, const std::string &of_call) {
    const std::string_view of_row = table.text("stain");
    if (!of_row.empty() || !of_call.empty()) {
        return stain_named(of_row.empty() ? of_call : of_row, table.where("stain"));
    }
    const std::string_view header = table.header_of("stained");
    const std::string_view first_word = header.substr(0, header.find_first_of(" (/,"));
    for (const std::string_view name : {header, first_word}) {
        if (const Stain *stain = find_stain(name)) {
            return *stain;
        }
    }
    throw InputError(table.where("stain"), "nothing",
                     "the reagent that \"stained\" is about; --stain NAME says it for all rows");
}

void read_stain(const TableReader &table, FurtherEvidence &evidence, const std::string &of_call) {
    const Stain &stain = stain_of_row(table, of_call);
    const bool stained = read_yes_or_no(table, "stained");
    const auto earlier =
        std::find_if(evidence.stains.begin(), evidence.stains.end(),
                     [&](const StainTest &test) { return test.stain == stain.name; });
    if (earlier == evidence.stains.end()) {
        evidence.stains.push_back({stain.name, stained});
    } else if (earlier->stained != stained) {
        refuse_contradiction(table, "stained", yes_or_no(earlier->stained));
    }
}

/// A mass or its uncertainty, above 0.
void read_mass(const TableReader &table, const char *column, const std::string &what,
               std::optional<double> &value) {
    const auto read = table.optional_number(column, what + " in g/mol");
    if (!read) {
        return;
    }
    if (*read <= 0.0 || *read > kLargestMass) {
        throw InputError(table.where(column), exact_text(*read),
                         fmt::format("{} above 0, up to {:.0f} g/mol", what, kLargestMass));
    }
    if (value && *value != *read) {
        refuse_contradiction(table, column, exact_text(*value));
    }
    value = read;
}

void read_formula(const TableReader &table, FurtherEvidence &evidence) {
    const std::string text(table.text("formula"));
    const auto elements = element_counts(text);
    if (!elements) {
        throw InputError(table.where("formula"), in_quotes(text),
                         "a molecular formula without brackets, e.g. C8H8O3");
    }
    if (!evidence.formula.empty() && element_counts(evidence.formula) != elements) {
        refuse_contradiction(table, "formula", evidence.formula);
    }
    evidence.formula = text;
}

} // namespace

std::vector<TableColumn> further_evidence_columns() {
    return {{"uv254", false},      {"stain", false},   {"stained", false},
            {"molar_mass", false}, {"formula", false}, {"molar_mass_uncertainty", false}};
}

bool read_further_evidence(const TableReader &table, FurtherEvidence &evidence,
                           const std::string &stain) {
    const auto says = [&](const char *column) { return !table.text(column).empty(); };
    const bool says_uv254 = says_yes_or_no(table, "uv254");
    if (says_uv254) {
        table.keep_fault([&] { read_uv254(table, evidence); });
    }
    if (says("stain") || !says_nothing(table.written("stained"))) {
        table.keep_fault([&] { read_stain(table, evidence, stain); });
    }
    table.keep_fault([&] { read_mass(table, "molar_mass", "a molar mass", evidence.molar_mass); });
    if (says("molar_mass_uncertainty") && !says("molar_mass")) {
        table.add_fault({table.where("molar_mass"), "nothing", "the mass that is so uncertain"});
    }
    table.keep_fault([&] {
        read_mass(table, "molar_mass_uncertainty", "a standard uncertainty",
                  evidence.molar_mass_uncertainty);
    });
    if (says("formula")) {
        table.keep_fault([&] { read_formula(table, evidence); });
    }
    return says_uv254 || says("stain") || says("molar_mass") || says("formula");
}

bool is_empty(const FurtherEvidence &evidence) {
    return !evidence.uv254 && evidence.stains.empty() && !evidence.molar_mass &&
           evidence.formula.empty();
}

} // namespace cospot
