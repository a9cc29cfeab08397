#include "predict/compounds_by_systems.h"

#include "model/matcher/basis_text.h"
#include "predict/retention_tables.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>

namespace cospot {

namespace {

constexpr std::size_t kMostAcross = 4; // within 80 columns

std::string expected_text(const ExpectedRetention &expected) {
    if (!expected.prediction) {
        return fmt::format("{} -", to_text(expected.quantity));
    }
    const std::string value = fmt::format("{} {}", to_text(expected.quantity),
                                          shown(expected.quantity, expected.expected));
    return expected.basis == matcher::Basis::measured
               ? value
               : fmt::format("{} {}", value, to_text(expected.basis));
}

/// All that is expected of a compound on one system: of several quantities one after the other.
Cell system_cell(const CompoundProfile &profile, const std::string &system) {
    Cell cell;
    for (const ExpectedRetention &expected : profile.retention) {
        if (expected.system == system) {
            cell.text += (cell.text.empty() ? "" : "; ") + expected_text(expected);
            cell.value = expected.prediction ? std::optional(expected.expected) : cell.value;
        }
    }
    return cell;
}

std::vector<std::string> systems_with_values(const Predictions &predictions) {
    std::vector<std::string> names;
    for (const library::System &system : predictions.systems) {
        const bool has_values = std::any_of(
            predictions.profiles.begin(), predictions.profiles.end(), [&](const auto &profile) {
                return std::any_of(
                    profile.retention.begin(), profile.retention.end(),
                    [&](const ExpectedRetention &one) { return one.system == system.name; });
            });
        if (has_values) {
            names.push_back(system.name);
        }
    }
    return names;
}

} // namespace

std::vector<Table> compounds_by_systems(const Predictions &predictions) {
    const std::vector<std::string> systems = systems_with_values(predictions);
    std::vector<Table> tables;
    if (predictions.profiles.size() < 2 || systems.size() < 2) {
        return tables;
    }
    for (std::size_t first = 0; first < systems.size(); first += kMostAcross) {
        const std::size_t last = std::min(systems.size(), first + kMostAcross);
        Table table{.label = "Compounds by systems", .columns = {{"Compound"}}};
        if (first == 0) {
            table.caption = "Measured unless said otherwise; -: not predicted";
        }
        for (std::size_t s = first; s < last; ++s) {
            table.columns.push_back({systems[s]});
        }
        for (std::size_t i = 0; i < predictions.profiles.size(); ++i) {
            const CompoundProfile &profile = predictions.profiles[i];
            Row row{{{.text = profile.compound.name, .section = compound_anchor(i)}}};
            for (std::size_t s = first; s < last; ++s) {
                row.cells.push_back(system_cell(profile, systems[s]));
            }
            table.rows.push_back(std::move(row));
        }
        table.is_sortable = table.rows.size() > 3;
        tables.push_back(std::move(table));
    }
    return tables;
}

} // namespace cospot
