#include "predict/predict_document.h"

#include "document/caution.h"
#include "document/group_words.h"
#include "document/property_table.h"
#include "model/matcher/basis_text.h"
#include "predict/compounds_by_systems.h"
#include "predict/retention_tables.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <utility>

namespace cospot {

namespace {

constexpr double kZeroCelsius_K = 273.15;

/// "2 measured, 1 predicted, 1 not predicted"; no number where there is one value only.
std::string counts_by_basis(const Predictions &predictions) {
    std::vector<std::pair<std::string, std::size_t>> counts{
        {"measured", 0}, {"transferred", 0}, {"predicted", 0}, {"not predicted", 0}};
    std::size_t all = 0;
    for (const CompoundProfile &profile : predictions.profiles) {
        for (const ExpectedRetention &expected : profile.retention) {
            const std::string basis(expected.prediction ? to_text(expected.basis)
                                                        : "not predicted");
            for (auto &[name, count] : counts) {
                count += name == basis ? 1 : 0;
            }
            ++all;
        }
    }
    std::vector<std::string> parts;
    for (const auto &[name, count] : counts) {
        if (count > 0) {
            parts.push_back(all == 1 ? name : fmt::format("{} {}", count, name));
        }
    }
    return fmt::format("{}", fmt::join(parts, ", "));
}

std::string predict_verdict(const Predictions &predictions) {
    if (!predictions.with_retention) {
        return "Retention was not asked for.";
    }
    const auto &profiles = predictions.profiles;
    const auto &systems = predictions.systems;
    const std::string counts = counts_by_basis(predictions);
    if (counts.empty()) {
        return "The library has no values to expect retention from.";
    }
    return fmt::format(
        "Retention of {} on {}: {}.",
        profiles.size() == 1 ? profiles.front().compound.name
                             : counted(profiles.size(), "compound"),
        systems.size() == 1 ? systems.front().name : counted(systems.size(), "system"), counts);
}

std::string boiling_text(const descriptors::BoilingPoint &point) {
    if (!point.kelvin) {
        return "none: " + point.missing;
    }
    const std::string error =
        point.standard_error_kelvin ? fmt::format(" ± {:.0f}", *point.standard_error_kelvin) : "";
    return fmt::format("{:.0f}{} K ({:.0f} °C)", *point.kelvin, error,
                       *point.kelvin - kZeroCelsius_K);
}

std::string silica_text(const descriptors::SilicaAdsorption &adsorption) {
    std::string text = fmt::format("{:.1f} (for rank order only)", adsorption.energy);
    if (adsorption.heteroatoms_left_out > 0) {
        const auto unknown = static_cast<std::size_t>(adsorption.heteroatoms_left_out);
        text += ", too low: " + counted(unknown, "heteroatom") + " not known";
    } else if (!adsorption.strongest_group.empty()) {
        text += ", most by " + group_words(adsorption.strongest_group);
    }
    return text;
}

std::string rings_text(const descriptors::Descriptors &descriptors) {
    return descriptors.rings == 0
               ? "none"
               : fmt::format("{} ({} aromatic)", descriptors.rings, descriptors.aromatic_rings);
}

Table structure_table(const CompoundProfile &profile) {
    const descriptors::Structure &structure = profile.structure;
    const descriptors::Descriptors &d = profile.descriptors;
    Table table =
        property_table("What the structure of " + profile.compound.name + " says", "structure");
    const auto add = [&](const char *property, std::string value) {
        add_property(table, property, std::move(value));
    };
    add("Formula", structure.formula);
    add("Molar mass", molar_mass_words(structure.average_mass, structure.monoisotopic_mass));
    add("SMILES", structure.smiles);
    add("InChIKey", structure.inchikey);
    add("log P (Crippen)", fmt::format("{:.2f}", d.crippen_logp));
    add("Polar surface", fmt::format("{:.1f} Å²", d.tpsa));
    add("Hydrogen bonds", hydrogen_bond_words(d.hydrogen_bond_donors, d.hydrogen_bond_acceptors));
    add("Rings", rings_text(d));
    add("Rotatable bonds", fmt::to_string(d.rotatable_bonds));
    add("Functional groups", groups_words(profile.groups));
    add("Boiling point", boiling_text(profile.boiling.model));
    add("by Joback and Reid", boiling_text(profile.boiling.joback));
    add("by Stein and Brown", boiling_text(profile.boiling.stein_brown));
    add("Held by silica", silica_text(profile.adsorption));
    return table;
}

/// With what to expect of it, where that is not in sections of the systems.
std::vector<Section> compound_sections(const CompoundProfile &profile, std::size_t position,
                                       bool is_only_one) {
    const Structures drawn{{{profile.compound.name, profile.structure.smiles}}};
    const auto beside = [&](Table table) {
        return Section{profile.compound.name,
                       compound_anchor(position),
                       {},
                       {Beside{{drawn, std::move(table)}}}};
    };
    if (is_only_one && !profile.retention.empty()) {
        return {beside(retention_table(profile)),
                Section{"What the structure says", "", {}, {structure_table(profile)}}};
    }
    return {beside(structure_table(profile))};
}

/// One row a system and quantity; where nothing can be expected `refused` says why.
DataTable predict_data(const Predictions &predictions) {
    DataTable data{{"compound", "smiles", "inchikey", "system", "quantity", "basis", "expected",
                    "low", "high", "runs", "compounds", "refused"}};
    for (const CompoundProfile &profile : predictions.profiles) {
        for (const ExpectedRetention &expected : profile.retention) {
            std::vector<Datum> row{profile.compound.name, profile.structure.smiles,
                                   profile.structure.inchikey, expected.system,
                                   std::string(to_text(expected.quantity))};
            if (expected.prediction) {
                row.insert(row.end(), {std::string(to_text(expected.basis)), expected.expected,
                                       expected.low, expected.high});
            } else {
                row.resize(row.size() + 4);
            }
            const Datum count = static_cast<std::int64_t>(expected.compounds);
            const bool is_measured = expected.basis == matcher::Basis::measured;
            row.insert(row.end(), {is_measured ? count : Datum(), is_measured ? Datum() : count,
                                   expected.prediction ? Datum() : Datum(expected.refusal)});
            data.rows.push_back(std::move(row));
        }
    }
    return data;
}

} // namespace

Document predict_document(const Predictions &predictions) {
    const bool is_only_one = predictions.profiles.size() == 1;
    const std::string lead =
        predictions.with_retention
            ? "From the compounds’ own values (measured), from their values in other mixtures of "
              "the same solvents (transferred), or from structure (predicted)."
            : "Composition, polarity, groups and boiling point.";
    Document document{.title = predictions.with_retention ? "What retention to expect"
                                                          : "What structures say",
                      .lead = lead,
                      .blocks = {Paragraph{predict_verdict(predictions), Paragraph::Role::verdict}},
                      .cautions = {std::string(kRetentionIsNoProof)},
                      .data = predict_data(predictions)};
    if (!is_only_one) {
        if (auto tables = compounds_by_systems(predictions); !tables.empty()) {
            Section overview{"Compounds by systems", "", {}, {}};
            for (Table &table : tables) {
                overview.blocks.emplace_back(std::move(table));
            }
            document.blocks.emplace_back(std::move(overview));
        }
        for (Section &section : elution_sections(predictions)) {
            document.blocks.push_back(std::move(section));
        }
    }
    for (std::size_t i = 0; i < predictions.profiles.size(); ++i) {
        for (Section &section : compound_sections(predictions.profiles[i], i, is_only_one)) {
            document.blocks.push_back(std::move(section));
        }
    }
    return document;
}

} // namespace cospot
