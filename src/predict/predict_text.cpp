#include "predict/predict_text.h"

#include "model/matcher/basis_text.h"
#include "quantities/stationary_phase.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot {

namespace {

constexpr double kZeroCelsius_K = 273.15;

std::string field(std::string_view name, const std::string &value) {
    return value.empty() ? "" : fmt::format("  {:<20} {}\n", name, printable(value));
}

std::string silica_text(const descriptors::SilicaAdsorption &adsorption) {
    std::string text = fmt::format("{:.1f} (for rank order only)", adsorption.energy);
    if (adsorption.heteroatoms_left_out > 0) {
        text += fmt::format(", too low: {} heteroatoms not known", adsorption.heteroatoms_left_out);
    } else if (!adsorption.strongest_group.empty()) {
        text += ", most by " + adsorption.strongest_group;
    }
    return text;
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

std::string groups_text(const CompoundProfile &profile) {
    std::string text;
    for (const auto &[name, count] : profile.groups) {
        text += (text.empty() ? "" : ", ") + (count > 1 ? fmt::format("{} {}", count, name) : name);
    }
    return text;
}

std::string retention_line(const ExpectedRetention &expected) {
    const std::string head =
        fmt::format("  {} {:>2} ", padded(expected.system, 22), to_text(expected.quantity));
    if (!expected.prediction) {
        return head + "not predicted: " + expected.refusal + '\n';
    }
    const bool is_measured = expected.basis == matcher::Basis::measured;
    return head + fmt::format("{:>8}  {:<19} {:<11} {} {}\n",
                              shown(expected.quantity, expected.expected),
                              fmt::format("{} to {}", shown(expected.quantity, expected.low),
                                          shown(expected.quantity, expected.high)),
                              to_text(expected.basis), expected.compounds,
                              is_measured ? "runs" : "compounds");
}

/// What leaves the system first: a large R_F on a plate, a small k, index or time in a column.
bool elutes_before(const ExpectedRetention &a, const ExpectedRetention &b) {
    return a.quantity == Quantity::Rf ? a.expected > b.expected : a.expected < b.expected;
}

std::string why_order(const library::System &system) {
    if (system.technique == Technique::gc) {
        return "On a non-polar phase compounds leave by boiling point, lowest first; a polar phase "
               "holds polar ones longer.";
    }
    return quantities::liquid_phase_of(system.stationary_phase) == quantities::LiquidPhase::reversed
               ? "Reversed phase: polar compounds leave first, a large log P is held longest."
               : "Normal phase: the least polar compounds run farthest or leave first; what "
                 "is adsorbed most strongly (acids, amines, alcohols) stays behind.";
}

} // namespace

std::string predict_text(const CompoundProfile &profile, const Style &style) {
    const descriptors::Descriptors &d = profile.descriptors;
    std::string text = style.strong(printable(profile.compound.name)) + '\n';
    text += field("formula", profile.structure.formula);
    text += field("molar mass",
                  fmt::format("{:.3f} g/mol, monoisotopic {:.4f} Da",
                              profile.structure.average_mass, profile.structure.monoisotopic_mass));
    text += field("SMILES", profile.structure.smiles);
    text += field("InChIKey", profile.structure.inchikey);
    text += field("log P (Crippen)", fmt::format("{:.2f}", d.crippen_logp));
    text += field("TPSA", fmt::format("{:.1f} Å²", d.tpsa));
    text += field("hydrogen bonds", fmt::format("{} donors, {} acceptors", d.hydrogen_bond_donors,
                                                d.hydrogen_bond_acceptors));
    text += field("rings, rotatable", fmt::format("{} ({} aromatic), {} bonds", d.rings,
                                                  d.aromatic_rings, d.rotatable_bonds));
    text += wrapped("functional groups    " + groups_text(profile), 2);
    text += field("boiling point", boiling_text(profile.boiling.model));
    text += field("  Joback-Reid", boiling_text(profile.boiling.joback));
    text += field("  Stein-Brown", boiling_text(profile.boiling.stein_brown));
    text += field("held by silica", silica_text(profile.adsorption));
    if (!profile.retention.empty()) {
        text += style.faint(fmt::format("\n  {} {:>2} {:>8}  {:<19} {:<11} {}\n",
                                        padded("expected on", 22), "", "value", "9 of 10 between",
                                        "basis", "from"));
    }
    for (const ExpectedRetention &expected : profile.retention) {
        text += retention_line(expected);
    }
    return text;
}

std::string elution_order_text(const std::vector<CompoundProfile> &profiles,
                               const library::System &system) {
    std::vector<std::pair<std::string, ExpectedRetention>> order;
    for (const CompoundProfile &profile : profiles) {
        for (const ExpectedRetention &expected : profile.retention) {
            if (expected.system == system.name && expected.prediction &&
                (order.empty() || expected.quantity == order.front().second.quantity)) {
                order.emplace_back(profile.compound.name, expected);
                break;
            }
        }
    }
    if (order.size() < 2) {
        return "";
    }
    std::stable_sort(order.begin(), order.end(), [](const auto &a, const auto &b) {
        return elutes_before(a.second, b.second);
    });
    std::string text = "Expected order on " + printable(system.name) + ", first to leave first\n";
    for (const auto &[name, expected] : order) {
        text += fmt::format("  {:>8}  {}\n", shown(expected.quantity, expected.expected),
                            fitted(printable(name), 66));
    }
    return text + wrapped(why_order(system), 2);
}

} // namespace cospot
