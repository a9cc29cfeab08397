#include "purity/purity_tables.h"

#include "document/cells.h"
#include "purity/limits.h"
#include "purity/residual_solvents.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <utility>
#include <vector>

namespace cospot {

namespace {

using purity::JudgedFeature;
using purity::JudgedSample;
using purity::Role;
using purity::RuleVerdict;
using purity::Verdict;

Cell rule_verdict_cell(Verdict verdict) {
    switch (verdict) {
    case Verdict::does_not_meet:
        return {to_text(verdict), 2.0, Emphasis::alarm};
    case Verdict::cannot_be_told:
    case Verdict::open:
        return {to_text(verdict), 1.0, Emphasis::strong};
    case Verdict::meets:
        break;
    }
    return {to_text(verdict), 0.0};
}

/// The rules with that verdict; those that differ only in the feature as one, with all features.
std::vector<RuleVerdict> joined_rules(const JudgedSample &sample, Verdict verdict) {
    std::vector<RuleVerdict> joined;
    for (const RuleVerdict &one : sample.verdicts) {
        if (one.verdict != verdict) {
            continue;
        }
        const auto same = std::find_if(joined.begin(), joined.end(), [&](const RuleVerdict &other) {
            return other.rule == one.rule && other.limit == one.limit && other.reason == one.reason;
        });
        if (same == joined.end()) {
            joined.push_back(one);
        } else {
            same->found += "; " + one.found;
        }
    }
    return joined;
}

} // namespace

Table rules_table(const JudgedSample &sample, bool with_met) {
    Table table{.label = "Rules for " + sample.name,
                .columns = {{"Verdict"}, {"Rule"}, {"Limit"}, {"Found"}},
                .heading_column = 1};
    for (const Verdict verdict :
         {Verdict::does_not_meet, Verdict::cannot_be_told, Verdict::open, Verdict::meets}) {
        if (verdict == Verdict::meets && !with_met) {
            continue;
        }
        for (const RuleVerdict &one : joined_rules(sample, verdict)) {
            Row row{{rule_verdict_cell(verdict), {one.rule}, {one.limit}, {one.found}}};
            if (!one.reason.empty()) {
                row.notes.push_back(one.reason);
            }
            table.rows.push_back(std::move(row));
        }
    }
    return table;
}

std::string met_sentence(const JudgedSample &sample) {
    std::string text;
    for (const RuleVerdict &one : sample.verdicts) {
        if (one.verdict == Verdict::meets) {
            text += fmt::format("{}{} ({}{}{})", text.empty() ? "Met: " : "; ", one.rule, one.found,
                                one.limit.empty() ? "" : "; limit " + one.limit,
                                one.reason.empty() ? "" : "; " + one.reason);
        }
    }
    return text.empty() ? text : text + '.';
}

bool is_chromatogram(const JudgedSample &sample) {
    return sample.features.front().feature.retention_time_min.has_value();
}

namespace {

Cell position_cell(const Feature &feature) {
    if (feature.retention_time_min) {
        return number_cell(feature.retention_time_min, 3);
    }
    if (feature.observations.empty()) {
        return {};
    }
    const FeatureObservation &first = feature.observations.front();
    return {shown(first.quantity, first.value), first.value};
}

/// As it is reported; what rounds to nothing shows its figure all the same.
Cell amount_cell(const JudgedFeature &judged) {
    if (!judged.reported) {
        return {};
    }
    return {judged.reported->value > 0.0 ? to_text(*judged.reported) : share_text(*judged.per_cent),
            judged.per_cent};
}

/// "propylparaben 0.90"
Cell likeliest_cell(const JudgedSample &sample, const JudgedFeature &judged) {
    if (judged.role == Role::blank) {
        return {"in the blank too"};
    }
    if (judged.role == Role::unretained) {
        return {judged.feature.unretained};
    }
    if (!judged.identity.is_judged) {
        return {judged.identity.name + (judged.identity.is_named ? ", named" : "")};
    }
    const char *basis = judged.identity.is_confirmed ? ", confirmed"
                        : judged.identity.is_named   ? ", named"
                                                     : "";
    if (sample.main_is_reference && &judged == &sample.features[*sample.main]) {
        return {fmt::format("{}, the reference{}", judged.identity.name, basis),
                judged.identity.probability};
    }
    return {fmt::format("{} {}{}", judged.identity.name,
                        probability_text(judged.identity.probability), basis),
            judged.identity.probability};
}

} // namespace

std::string share_text(double per_cent) {
    constexpr double least = 0.005; // rounds to 0.01
    return per_cent >= least || per_cent == 0.0 ? fmt::format("{:.2f}", per_cent)
                                                : fmt::format("{:.1g}", per_cent);
}

std::string actions_text(const JudgedFeature &judged) {
    return fmt::to_string(fmt::join(judged.actions, "; "));
}

namespace {

std::string position_title(const JudgedSample &sample) {
    if (is_chromatogram(sample)) {
        return "tR, min";
    }
    for (const JudgedFeature &judged : sample.features) {
        if (!judged.feature.observations.empty()) {
            return std::string(to_text(judged.feature.observations.front().quantity));
        }
    }
    return "Value";
}

Cell ppm_cell(const JudgedFeature &judged) {
    const auto &below = judged.feature.ppm_below;
    return judged.ppm                         ? Cell{purity::ppm_text(*judged.ppm), judged.ppm}
           : below                            ? Cell{"< " + purity::ppm_text(*below), 0.0}
           : judged.feature.is_ppm_undetected ? Cell{"n.d.", 0.0}
           : judged.feature.is_ppm_below      ? Cell{"< LOQ", 0.0}
                                              : Cell{};
}

/// What a residual solvent counts as is no impurity in per cent.
const char *role_text(const JudgedSample &sample, Role role) {
    return sample.asks_solvents && role == Role::impurity ? "solvent" : to_text(role);
}

} // namespace

Table features_table(const JudgedSample &sample, bool with_definition) {
    const std::string kind = is_chromatogram(sample) ? "Peak" : "Spot";
    Table table{.label = fmt::format("{}s of {}", kind, sample.name),
                .columns = {{kind},
                            {position_title(sample), true},
                            {symbol(sample.ratio), true},
                            {sample.asks_solvents ? "ppm" : "Area %", true},
                            {"Response", true},
                            {"Taken for"},
                            {"Likeliest"},
                            {"To do"}},
                .is_sortable = sample.features.size() > 3};
    if (with_definition && sample.ratio != purity::Ratio::none) {
        table.caption = fmt::format("{}: {}", symbol(sample.ratio), definition(sample.ratio));
    }
    for (std::size_t i = 0; i < sample.features.size(); ++i) {
        const JudgedFeature &judged = sample.features[i];
        Row row{.cells = {{judged.feature.name, static_cast<double>(i + 1)},
                          position_cell(judged.feature)},
                .mark = std::to_string(i + 1)};
        row.cells.push_back(number_cell(judged.relative_retention, 2));
        row.cells.push_back(sample.asks_solvents ? ppm_cell(judged) : amount_cell(judged));
        row.cells.push_back(
            judged.response_is_held
                ? Cell{fmt::format("{:g}", judged.response_factor), judged.response_factor}
                : Cell{});
        row.cells.push_back({role_text(sample, judged.role),
                             {},
                             judged.role == Role::declared ? Emphasis::strong : Emphasis::none});
        row.cells.push_back(likeliest_cell(sample, judged));
        row.cells.push_back({is_of_sample(judged.role) ? actions_text(judged) : ""});
        table.rows.push_back(std::move(row));
    }
    return table;
}

List warnings_of(const JudgedSample &sample) {
    std::vector<std::pair<std::string, std::vector<std::string>>> found;
    for (const JudgedFeature &judged : sample.features) {
        for (const std::string &warning : judged.identification.warnings) {
            auto known = std::find_if(found.begin(), found.end(),
                                      [&](const auto &entry) { return entry.first == warning; });
            if (known == found.end()) {
                known = found.insert(found.end(), {warning, {}});
            }
            known->second.push_back(judged.feature.name);
        }
    }
    List list{"", {}, List::Role::warnings};
    for (const auto &[warning, which] : found) {
        list.items.push_back(fmt::format("{}{} {}: {}", is_chromatogram(sample) ? "peak" : "spot",
                                         which.size() == 1 ? "" : "s", fmt::join(which, ", "),
                                         warning));
    }
    return list;
}

std::string sums_sentence(const JudgedSample &sample) {
    const bool has_rule =
        std::any_of(sample.verdicts.begin(), sample.verdicts.end(),
                    [](const RuleVerdict &one) { return one.rule == purity::kSumRule; });
    std::string text;
    if (sample.impurities_per_cent && !has_rule) {
        text = fmt::format("All impurities together: {:.2f} %.", *sample.impurities_per_cent);
    }
    if (sample.disregarded_count > 0) {
        text += text.empty() ? "" : " ";
        text += fmt::format(
            "Disregarded, at or below the reporting threshold: {}, {:.2f} % together.",
            counted(sample.disregarded_count, is_chromatogram(sample) ? "peak" : "spot"),
            sample.disregarded_per_cent);
    }
    return text;
}

} // namespace cospot
