#include "output/column_words.h"

#include <fmt/format.h>

#include <cmath>

namespace cospot {

namespace {

using fractions::PlanWarning;

std::string pair_text(const fractions::PlanFinding &finding, const fractions::ColumnPlan &plan) {
    return plan.compounds[finding.compounds.front()].name + " and " +
           plan.compounds[finding.compounds.back()].name;
}

} // namespace

std::string_view to_text(fractions::TablePlace place) {
    switch (place) {
    case fractions::TablePlace::on_or_between_rows:
        return "within table";
    case fractions::TablePlace::below_first_row:
        return "below table";
    case fractions::TablePlace::beyond_last_row:
        return "beyond table";
    }
    return "";
}

std::string finding_text(const fractions::PlanFinding &finding, const ColumnResult &result) {
    const fractions::ColumnPlan &plan = result.plan;
    switch (finding.warning) {
    case PlanWarning::close:
        return pair_text(finding, plan) + " differ by less than 0.1 in Rf: look for an eluent that "
                                          "parts them before running a column";
    case PlanWarning::at_start:
        return plan.compounds[finding.compounds.front()].name +
               " stays at the start: it may never leave, and no column volume can be told; run a "
               "plate in a stronger eluent";
    case PlanWarning::at_front:
        return plan.compounds[finding.compounds.front()].name +
               " runs with the front: it leaves with the first column volume, with all else that "
               "is not held; run a plate in a weaker eluent";
    case PlanWarning::target_range:
        return fmt::format("the target {} runs at Rf {:.2f}, outside 0.1 to 0.5: change the eluent "
                           "first",
                           plan.compounds[finding.compounds.front()].name,
                           plan.compounds[finding.compounds.front()].rf);
    case PlanWarning::in_forerun:
        return fmt::format("{} {} to leave in the forerun: collect fractions earlier",
                           plan.compounds[finding.compounds.front()].name,
                           plan.bands[finding.compounds.front()].first_fraction == 0 ? "begins"
                                                                                     : "may begin");
    case PlanWarning::overlap:
        return fmt::format("fractions of {} will hold {} too: narrower fractions, more silica or "
                           "another eluent",
                           plan.compounds[finding.compounds.front()].name,
                           plan.compounds[finding.compounds.back()].name);
    case PlanWarning::overload:
        return fmt::format("{:g} mg is more than the table gives for {:g} mm: bands will be wider "
                           "than computed here",
                           plan.load_mg.value(), plan.diameter_mm.value());
    case PlanWarning::beyond_table:
        return fmt::format("{:g} mg is more than the widest column of the table takes ({:g} mg): "
                           "run it in {} portions",
                           plan.load_mg.value(), plan.advice.value().column.load_mg,
                           plan.advice.value().portions);
    }
    return "";
}

std::string change_text(const ColumnResult &result) {
    if (!result.change) {
        return "Name a target (role, or --target) for advice on the eluent";
    }
    const fractions::PlateCompound &target = result.plan.compounds[result.plan.target.value()];
    const std::string at = fmt::format("{} runs at Rf {:.2f}", target.name, target.rf);
    const std::string range = fmt::format("{:.2f} to {:.2f}", kLowestWantedRf, kHighestWantedRf);
    if (*result.change == EluentChange::keep) {
        return at + ", within " + range + ": keep the eluent";
    }
    const bool is_stronger = *result.change == EluentChange::stronger;
    std::string text =
        fmt::format("{}; for {} take a {} eluent", at, range, is_stronger ? "stronger" : "weaker");
    if (!result.strong_solvent.empty()) {
        text += fmt::format(": {} {}", is_stronger ? "more" : "less", result.strong_solvent);
    }
    return text;
}

std::string mixture_text(const EluentAdvice &advice, double strong_fraction) {
    const int strong = static_cast<int>(std::lround(100.0 * strong_fraction));
    return fmt::format("{}:{} {}:{}", advice.weak_solvent, advice.strong_solvent, 100 - strong,
                       strong);
}

std::vector<std::string> plan_assumptions(const ColumnResult &result) {
    const fractions::ColumnPlan &plan = result.plan;
    std::vector<std::string> texts;
    texts.emplace_back("CV = 1/Rf = 1 + k, by the plate alone, for one eluent throughout. The "
                       "volumes count with the column: V = outside the bed + bed (1 + ratio k).");
    texts.push_back(fmt::format(
        "Bands: {:.0f} plates ({}), widened by the load ({}) and by mixing outside the bed; from "
        "{:g} standard deviations before the maximum, with a tail that is {:.2g} times as long.",
        plan.plate_number,
        result.settings.plate_number
            ? "as given"
            : fmt::format("{:g} mm each, common practice", fractions::kPlateHeight_mm),
        plan.load_mg ? "as stated"
                     : fmt::format("{:g} mg of each a gram of silica, as in the table",
                                   fractions::kUsualLoad_mg_per_g),
        fractions::kBandSigmas, plan.column ? plan.column->tailing : fractions::kTailing));
    if (plan.silica_g) {
        texts.push_back(fmt::format(
            "Silica: {:g} g/mL dry, of whose bed the eluent fills {:.0f} % (common practice); "
            "measure your column's volume and give --column-volume-ml.",
            quantities::kSilicaDensity_g_per_ml, 100.0 * quantities::kMobilePhaseShare));
    }
    if (plan.advice) {
        texts.push_back(fmt::format("Load, diameter and fraction size: {}, for a bed of 150 mm; "
                                    "interpolated between its rows, never beyond.",
                                    kFlashTableSource));
    }
    return texts;
}

} // namespace cospot
