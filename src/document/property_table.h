#pragma once

#include "document/document.h"

#include <fmt/format.h>

#include <string>
#include <utility>

namespace cospot {

/// What one thing is, a property a row. Tables of one kind share their widths, as `Table` says.
[[nodiscard]] inline Table property_table(std::string label, std::string kind) {
    return {
        .label = std::move(label), .columns = {{"Property"}, {"Value"}}, .kind = std::move(kind)};
}

/// Adds a row unless there is no value.
inline void add_property(Table &table, std::string property, std::string value) {
    if (!value.empty()) {
        table.rows.push_back({{{std::move(property)}, {std::move(value)}}});
    }
}

/// "152.149 g/mol, monoisotopic 152.0473 Da"
[[nodiscard]] inline std::string molar_mass_words(double average_g_mol, double monoisotopic_da) {
    return fmt::format("{:.3f} g/mol, monoisotopic {:.4f} Da", average_g_mol, monoisotopic_da);
}

} // namespace cospot
