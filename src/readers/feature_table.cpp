#include "readers/feature_table.h"

#include "readers/further_evidence_columns.h"
#include "readers/instrument_number.h"
#include "readers/measured_amount.h"
#include "readers/no_compound.h"
#include "readers/quantity_column.h"
#include "readers/role_column.h"
#include "shared/left_out.h"
#include "shared/number.h"
#include "shared/table.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

namespace cospot {

namespace {

constexpr double kLargestUncertainty = 1e5;

FeatureObservation read_observation(const TableReader &table) {
    FeatureObservation observation;
    observation.where = table.where("system");
    observation.system = table.required_text("system", "the name of a system");
    observation.quantity = read_quantity(table);
    observation.value = table.number("value", "a number");
    table.keep_fault(
        [&] { check_physical(observation.quantity, observation.value, table.where("value")); });
    observation.uncertainty =
        table.optional_number("uncertainty", "a standard uncertainty").value_or(0.0);
    if (observation.uncertainty < 0.0 || observation.uncertainty > kLargestUncertainty) {
        table.add_fault({table.where("uncertainty"), exact_text(observation.uncertainty),
                         "a standard uncertainty from 0 to 100000"});
    }
    return observation;
}

/// Whether two readings are too far apart for repeats of one spot or peak, whatever was done to
/// them.
bool contradict(const FeatureObservation &a, const FeatureObservation &b) {
    constexpr double most_rf = 0.2;     // beyond any drift of a plate (common practice, no source)
    constexpr double most_factor = 1.2; // of times, factors and indices
    constexpr double spreads = 8.0;     // where the readings state their uncertainty
    const double stated = spreads * std::hypot(a.uncertainty, b.uncertainty);
    const double usual = a.quantity == Quantity::Rf
                             ? most_rf
                             : (most_factor - 1.0) * std::min(std::abs(a.value), std::abs(b.value));
    return std::abs(a.value - b.value) > std::max(stated, usual);
}

void check_repeats(const std::vector<FeatureObservation> &observations) {
    std::map<std::pair<std::string, Quantity>, const FeatureObservation *> firsts;
    for (const FeatureObservation &reading : observations) {
        const auto [first, is_first] =
            firsts.try_emplace({reading.system, reading.quantity}, &reading);
        if (!is_first && contradict(*first->second, reading)) {
            throw InputError(
                {reading.where.file, reading.where.line, "value"},
                shown(reading.quantity, reading.value),
                fmt::format("a repeat near the {} of line {}, or another feature for another spot",
                            shown(reading.quantity, first->second->value),
                            first->second->where.line));
        }
    }
}

void check_observed(const Feature &feature, const Where &first_row) {
    if (feature.observations.empty()) {
        throw InputError(first_row, "no retention of " + in_quotes(feature.name),
                         "system, quantity and value in one of its rows");
    }
    check_repeats(feature.observations);
}

/// Readings of one feature on one system share what shifted that run: they count as one
/// observation, their mean, which is as uncertain as a single one in all but its reading error.
void average_repeats(Feature &feature) {
    std::vector<FeatureObservation> merged;
    std::vector<double> counts;
    for (const FeatureObservation &reading : feature.observations) {
        const auto same = std::find_if(merged.begin(), merged.end(), [&](const auto &other) {
            return equal_ignoring_case(other.system, reading.system) &&
                   other.quantity == reading.quantity;
        });
        if (same == merged.end()) {
            merged.push_back(reading);
            merged.back().uncertainty *= reading.uncertainty;
            counts.push_back(1.0);
        } else {
            same->value += reading.value;
            same->uncertainty += reading.uncertainty * reading.uncertainty;
            counts[static_cast<std::size_t>(same - merged.begin())] += 1.0;
        }
    }
    for (std::size_t i = 0; i < merged.size(); ++i) {
        merged[i].value /= counts[i];
        merged[i].uncertainty = std::sqrt(merged[i].uncertainty) / counts[i];
        if (counts[i] > 1.0) {
            feature.warnings.push_back(
                fmt::format("{:g} readings on {} averaged", counts[i], merged[i].system));
        }
    }
    feature.observations = std::move(merged);
}

std::vector<TableColumn> columns() {
    std::vector<TableColumn> known{{"sample", true},   {"feature", true},   {"system", true},
                                   {"quantity", true}, {"value", true},     {"uncertainty", false},
                                   {"area", false},    {"compound", false}, {"role", false}};
    const auto further = further_evidence_columns();
    known.insert(known.end(), further.begin(), further.end());
    return known;
}

/// The standard that the row is of; none where it is of a sample.
std::optional<RunStandard> read_standard(const TableReader &table, bool names_are_standards) {
    const std::string_view compound = table.text("compound");
    const bool is_named = !compound.empty() && !names_no_compound(compound);
    const RowRole unstated = is_named && (names_are_standards || table.text("sample").empty())
                                 ? RowRole::standard
                                 : RowRole::sample;
    if (read_role(table, unstated) != RowRole::standard) {
        return std::nullopt;
    }
    RunStandard standard;
    standard.compound = table.required_text("compound", "the compound that the standard is");
    standard.name_column = "compound";
    if (!is_named) {
        table.add_fault(
            {table.where("compound"), in_quotes(compound), "the compound that the standard is"});
    }
    standard.name = table.text("feature");
    standard.run = table.text("sample");
    standard.observation = read_observation(table);
    return standard;
}

/// What the table calls a feature of the sample, in one of its rows or in all.
void read_feature_name(const TableReader &table, Feature &feature) {
    const std::string_view compound = table.text("compound");
    if (compound.empty() || names_no_compound(compound)) {
        return;
    }
    if (!feature.named.empty() && feature.named != compound) {
        table.add_fault({table.where("compound"), in_quotes(compound),
                         in_quotes(feature.named) + " as in another row of the same feature"});
    }
    feature.named = compound;
}

void read_feature_row(const TableReader &table, Feature &feature) {
    const bool has_further = read_further_evidence(table, feature.further);
    const bool has_retention = !table.text("system").empty() || !table.text("quantity").empty() ||
                               !table.text("value").empty();
    if (has_retention || !has_further) {
        feature.observations.push_back(read_observation(table));
    }
    const MeasuredAmount area = read_measured_amount(table, "area", "a peak area");
    check_of_instrument(table, "area", area.value);
    feature.area = area.value ? area.value : feature.area;
    feature.is_area_below = feature.is_area_below || area.is_below;
}

} // namespace

FeatureSet read_feature_table(std::istream &in, const std::string &file, const TableForm &form,
                              bool names_are_standards) {
    TableReader table(in, file, columns(), form.aliases);
    FeatureSet set;
    std::vector<Where> first_rows;
    std::map<std::pair<std::string, std::string>, std::size_t> index_of;
    const auto read = [&] {
        if (auto standard = read_standard(table, names_are_standards)) {
            set.standards.push_back(std::move(*standard));
            return;
        }
        const std::string sample(table.text("sample"));
        const std::string name(table.required_text("feature", "the name of the spot or peak"));
        const auto [known, is_new] = index_of.try_emplace({sample, name}, set.features.size());
        if (is_new) {
            Feature feature;
            feature.sample = sample;
            feature.name = name;
            feature.run = sample;
            set.features.push_back(std::move(feature));
            first_rows.push_back(table.where("value"));
        }
        read_feature_row(table, set.features[known->second]);
        if (!names_are_standards) {
            read_feature_name(table, set.features[known->second]);
        }
    };
    LeftOut left_out(form.is_partial);
    for_each_row(table, read, [&](const InputError &fault) {
        return left_out.take(std::string(table.text("sample")), fault);
    });
    const auto leave_out = [&] {
        std::erase_if(set.features,
                      [&](const Feature &feature) { return left_out.holds(feature.sample); });
    };
    leave_out();
    left_out.check_rest(!set.features.empty(), file, "sample");
    if (set.features.empty()) {
        throw InputError({file, table.line(), ""},
                         set.standards.empty() ? "a header without rows" : "standards only",
                         "one row an observation of a sample");
    }
    Faults faults;
    for (Feature &feature : set.features) {
        try {
            check_observed(feature, first_rows[index_of.at({feature.sample, feature.name})]);
            average_repeats(feature);
        } catch (const InputError &fault) {
            if (!left_out.take(feature.sample, fault)) {
                faults.add(fault);
            }
        }
    }
    faults.throw_any();
    leave_out();
    left_out.check_rest(!set.features.empty(), file, "sample");
    set.notes = notes_on(table, left_out, "sample");
    return set;
}

} // namespace cospot
