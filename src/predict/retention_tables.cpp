#include "predict/retention_tables.h"

#include "drawing/range_picture.h"
#include "evidence/elution_order.h"
#include "model/matcher/basis_text.h"
#include "predict/structure_order.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <utility>

namespace cospot {

namespace {

/// A compound on a system.
struct ExpectedOf {
    std::size_t compound = 0; ///< among the profiles
    const ExpectedRetention *expected = nullptr;
};

/// R_F from 0 to 1; other quantities about as far as the intervals on the axis reach.
RangeAxis axis_of(const std::vector<ExpectedOf> &alike) {
    if (alike.front().expected->quantity == Quantity::Rf) {
        return {0.0, 1.0, 1.0};
    }
    double low = alike.front().expected->low;
    double high = alike.front().expected->high;
    for (const ExpectedOf &one : alike) {
        low = std::min(low, one.expected->low);
        high = std::max(high, one.expected->high);
    }
    return range_axis(low, high);
}

std::string basis_of(const ExpectedRetention &expected) {
    const bool is_measured = expected.basis == matcher::Basis::measured;
    return fmt::format("{} ({})", to_text(expected.basis),
                       counted(expected.compounds, is_measured ? "run" : "compound"));
}

Table table_of_expected(const char *heading, std::string label) {
    return {.label = std::move(label),
            .columns = {
                {heading}, {"Expected", true}, {"9 of 10 between", true}, {"Basis"}, {"Interval"}}};
}

Row row_of_refused(Cell heading, const ExpectedRetention &expected) {
    return {.cells = {std::move(heading),
                      {},
                      {},
                      {fmt::format("{} not predicted", to_text(expected.quantity))},
                      {}},
            .notes = {expected.refusal}};
}

Row row_of_expected(Cell heading, const ExpectedRetention &expected, const RangeAxis &axis) {
    const auto text = [&](double value) { return shown(expected.quantity, value); };
    const std::string interval = text(expected.low) + " to " + text(expected.high);
    const std::string value =
        fmt::format("{} {}", to_text(expected.quantity), text(expected.expected));
    Cell picture;
    picture.svg = range_picture({expected.low, expected.expected, expected.high}, axis,
                                fmt::format("{} {}", to_text(expected.quantity), interval));
    return {{std::move(heading),
             {value, expected.expected},
             {interval, expected.low},
             {basis_of(expected)},
             std::move(picture)}};
}

/// What leaves the system first: a large R_F on a plate, a small k, index or time in a column.
bool leaves_before(const ExpectedOf &a, const ExpectedOf &b) {
    const double difference = b.expected->expected - a.expected->expected;
    return a.expected->quantity == Quantity::Rf ? difference < 0.0 : difference > 0.0;
}

struct ExpectedOn {
    /// Of one quantity each, in the order in which the compounds leave.
    std::vector<std::vector<ExpectedOf>> groups;
    std::vector<ExpectedOf> refused;
};

ExpectedOn expected_on(const Predictions &predictions, const library::System &system) {
    ExpectedOn found;
    for (std::size_t i = 0; i < predictions.profiles.size(); ++i) {
        for (const ExpectedRetention &expected : predictions.profiles[i].retention) {
            if (expected.system != system.name) {
                continue;
            }
            if (!expected.prediction) {
                found.refused.push_back({i, &expected});
                continue;
            }
            const auto group =
                std::find_if(found.groups.begin(), found.groups.end(), [&](const auto &one) {
                    return one.front().expected->quantity == expected.quantity;
                });
            (group == found.groups.end() ? found.groups.emplace_back() : *group)
                .push_back({i, &expected});
        }
    }
    for (std::vector<ExpectedOf> &group : found.groups) {
        std::stable_sort(group.begin(), group.end(), leaves_before);
    }
    return found;
}

Table elution_table(const Predictions &predictions, const ExpectedOn &on_system,
                    const std::string &system) {
    Table table = table_of_expected("Compound", "Expected retention on " + system);
    for (const std::vector<ExpectedOf> &group : on_system.groups) {
        const RangeAxis axis = axis_of(group);
        for (const ExpectedOf &one : group) {
            const Cell heading{.text = predictions.profiles[one.compound].compound.name,
                               .section = compound_anchor(one.compound)};
            table.rows.push_back(row_of_expected(heading, *one.expected, axis));
        }
    }
    table.is_sortable = table.rows.size() > 3;
    return table;
}

/// "Rf not predicted for a, b: 8 compounds measured, 30 are needed": one for each reason.
std::vector<std::string> sentences_of_refused(const Predictions &predictions,
                                              const std::vector<ExpectedOf> &refused) {
    std::map<std::pair<Quantity, std::string>, std::vector<std::string>> names;
    for (const ExpectedOf &one : refused) {
        names[{one.expected->quantity, one.expected->refusal}].push_back(
            predictions.profiles[one.compound].compound.name);
    }
    std::vector<std::string> sentences;
    for (const auto &[why, compounds] : names) {
        const std::size_t all = predictions.profiles.size();
        sentences.push_back(fmt::format("{} not predicted for {}: {}.", to_text(why.first),
                                        compounds.size() == all
                                            ? fmt::format("any of the {} compounds", all)
                                            : fmt::format("{}", fmt::join(compounds, ", ")),
                                        why.second));
    }
    return sentences;
}

} // namespace

std::string compound_anchor(std::size_t position) {
    return fmt::format("compound-{}", position + 1);
}

Table retention_table(const CompoundProfile &profile) {
    Table table = table_of_expected("System", "Expected retention of " + profile.compound.name);
    table.is_sortable = profile.retention.size() > 3;
    for (const ExpectedRetention &expected : profile.retention) {
        table.rows.push_back(expected.prediction ? row_of_expected({expected.system}, expected,
                                                                   axis_of({{0, &expected}}))
                                                 : row_of_refused({expected.system}, expected));
    }
    return table;
}

std::vector<Section> elution_sections(const Predictions &predictions) {
    std::vector<Section> sections;
    std::set<std::string> said; // a principle that holds on several systems is told once
    for (const library::System &system : predictions.systems) {
        const ExpectedOn on_system = expected_on(predictions, system);
        if (on_system.groups.empty() && on_system.refused.empty()) {
            continue;
        }
        const bool has_order = std::any_of(on_system.groups.begin(), on_system.groups.end(),
                                           [](const auto &group) { return group.size() > 1; });
        const std::string principle =
            has_order ? elution_principle(mechanism_of(system)) : std::string();
        Section section{has_order ? "Expected order on " + system.name + ", first to leave first"
                                  : "Expected on " + system.name,
                        "",
                        {},
                        {elution_table(predictions, on_system, system.name),
                         List{"", sentences_of_refused(predictions, on_system.refused)}}};
        if (!on_system.refused.empty()) {
            if (std::string order = structure_order_sentence(predictions, system); !order.empty()) {
                section.blocks.push_back(Paragraph{std::move(order)});
            }
        }
        if (has_order && said.insert(principle).second) {
            section.blocks.push_back(Paragraph{principle});
        }
        sections.push_back(std::move(section));
    }
    return sections;
}

} // namespace cospot
