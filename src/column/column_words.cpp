#include "column/column_words.h"

#include "column/column_model.h"
#include "model/matcher/basis_text.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

using fractions::PlanWarning;

std::string pair_text(const fractions::PlanFinding &finding, const fractions::ColumnPlan &plan) {
    return plan.compounds[finding.compounds.front()].name + " and " +
           plan.compounds[finding.compounds.back()].name;
}

std::string held_out_sentence(const fractions::HoldOut &check) {
    return check.bands == 0
               ? "One run alone cannot be cross-validated."
               : fmt::format("Cross-validation, each run predicted from the others: of {} the "
                             "middle lay in its interval for {}, the whole band for {}.",
                             counted(check.bands, "band"), check.middles, check.wholes);
}

std::string assumption_sentence(const fractions::ColumnBelief &column) {
    const double hold = factor_of(column.spread(fractions::kHold));
    const double outside = factor_of(column.spread(fractions::kOutsideBed));
    return fmt::format(
        "No run of this column has been learned. Assumed, in brackets what holds for "
        "95 of 100 columns: k on the column is {:g} times k on the plate ({:.1f} to "
        "{:.1f} times), and the volume outside the bed is {:.2g} mL ({:.2g} to "
        "{:.2g} mL).",
        column.hold_ratio(), column.hold_ratio() / hold, column.hold_ratio() * hold,
        column.outside_ml(), column.outside_ml() / outside, column.outside_ml() * outside);
}

/// Whether a compound runs too close to the target on the plate.
bool has_close_neighbour(const fractions::ColumnPlan &plan) {
    return std::any_of(plan.findings.begin(), plan.findings.end(), [&](const auto &finding) {
        return finding.warning == PlanWarning::close &&
               std::find(finding.compounds.begin(), finding.compounds.end(), plan.target) !=
                   finding.compounds.end();
    });
}

std::string calibration_sentence(const ColumnResult &result) {
    const fractions::OwnColumn &own = result.settings.own.value();
    const fractions::ColumnBelief &column = result.plan.column.value();
    return fmt::format("Column {} is calibrated with {} from {}: k on the column is {:.1f} times k "
                       "on the plate, and the volume outside the bed is {:.2g} mL. {}",
                       own.name, counted(own.seen.size(), "band"),
                       counted(fractions::count_runs(own.seen), "run"), column.hold_ratio(),
                       column.outside_ml(), held_out_sentence(result.held_out));
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
                                          "separates them before running a column";
    case PlanWarning::at_start:
        return plan.compounds[finding.compounds.front()].name +
               " stays at the start: it may never leave the column; run a plate in a stronger "
               "eluent";
    case PlanWarning::at_front:
        return plan.compounds[finding.compounds.front()].name +
               " runs with the front: it leaves with the first column volume, with all else that "
               "is not retained; run a plate in a weaker eluent";
    case PlanWarning::target_range:
        return fmt::format("the target {} runs at Rf {:.2f}, outside 0.1 to 0.5: change the eluent "
                           "first",
                           plan.compounds[finding.compounds.front()].name,
                           plan.compounds[finding.compounds.front()].rf);
    case PlanWarning::in_discarded:
        return fmt::format("{} {} to leave in the volume discarded before fraction 1: discard less",
                           plan.compounds[finding.compounds.front()].name,
                           plan.bands[finding.compounds.front()].first_fraction == 0 ? "begins"
                                                                                     : "may begin");
    case PlanWarning::overlap:
        return fmt::format(
            "fractions of {} will hold {} too: take smaller fractions, more silica or "
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
        const std::string within = at + ", within " + range;
        return has_close_neighbour(result.plan)
                   ? within + ", but not apart from its neighbour: other solvents are wanted, not "
                              "another proportion of these"
                   : within + ": keep the eluent";
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
    return fmt::format("{}:{} {}:{}{}", advice.weak_solvent, advice.strong_solvent, 100 - strong,
                       strong, advice.additives);
}

std::vector<std::string> plan_assumptions(const ColumnResult &result) {
    const fractions::ColumnPlan &plan = result.plan;
    std::vector<std::string> texts;
    texts.emplace_back(
        "Column volumes follow from the plate, for one eluent throughout: CV = 1/Rf "
        "= 1 + k. Volumes in mL add the column: V = volume outside the bed + hold-up "
        "volume of the bed x (1 + ratio x k).");
    texts.push_back(fmt::format(
        "Bands: plate number {:.0f} ({}), widened by the load ({}) and by mixing outside the bed. "
        "A band counts from {:g} standard deviations before its maximum to {:.2g} times as far "
        "after it.",
        plan.plate_number,
        result.settings.plate_number
            ? "as given"
            : fmt::format("plate height {:g} mm, common practice", fractions::kPlateHeight_mm),
        plan.load_mg ? "as stated"
                     : fmt::format("{:g} mg of each compound on a gram of silica, as in the table",
                                   fractions::kUsualLoad_mg_per_g),
        fractions::kBandSigmas, plan.column ? plan.column->tailing : fractions::kTailing));
    if (plan.silica_g) {
        texts.push_back(fmt::format(
            "Silica bed: {:g} g/mL dry, {:.0f} % of its volume filled with eluent (common "
            "practice). Better: measure the column's volume and give --column-volume-ml.",
            quantities::kSilicaDensity_g_per_ml, 100.0 * quantities::kMobilePhaseShare));
    }
    if (plan.advice) {
        texts.push_back(fmt::format("Load, diameter and fraction size: {}, for a bed of 150 mm, "
                                    "interpolated between its rows, not extrapolated.",
                                    kFlashTableSource));
    }
    return texts;
}

std::vector<std::string> library_rf_sentences(const ColumnResult &result) {
    std::vector<std::string> texts;
    for (const fractions::PlateCompound &compound : result.plan.compounds) {
        if (const auto found = result.expected.find(compound.name);
            found != result.expected.end()) {
            texts.push_back(
                fmt::format("Rf of {}: {} on {}, nine of ten new values between {:.2f} and {:.2f}",
                            compound.name, to_text(found->second.basis), result.system,
                            found->second.low, found->second.high));
        }
    }
    return texts;
}

std::string teaching_sentence(const ColumnResult &result) {
    const fractions::ColumnPlan &plan = result.plan;
    if (!plan.teaching) {
        return "";
    }
    const std::size_t compound = plan.taught.value();
    const std::string &name = plan.compounds[compound].name;
    const fractions::Interval &middle = plan.bands[compound].expected.value().middle;
    return fmt::format("The middle of the band of {} lies between {:.0f} and {:.0f} mL, uncertain "
                       "by a factor of {:.1f} either way. With {} of this column learned (cospot "
                       "learn) the factor is expected to be {:.1f} for {}, and {:.1f} for a "
                       "compound of the same Rf that was not in the run.",
                       name, middle.low_ml, middle.high_ml, plan.teaching->now,
                       result.is_calibrated() ? "one more run" : "one run", plan.teaching->same,
                       name, plan.teaching->other);
}

std::vector<std::string> interval_sentences(const ColumnResult &result) {
    if (!result.plan.column) {
        return {};
    }
    std::vector<std::string> texts{"Intervals hold in 95 of 100 runs: the narrower one for the "
                                   "middle of a band, the wider one "
                                   "for all of it, from start to end."};
    texts.push_back(result.is_calibrated() ? calibration_sentence(result)
                                           : assumption_sentence(*result.plan.column));
    if (const std::string teaching = teaching_sentence(result); !teaching.empty()) {
        texts.push_back(teaching);
    }
    return texts;
}

} // namespace cospot
