#include "output/column_text.h"

#include "output/basis_text.h"
#include "output/caution.h"
#include "output/column_words.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

using fractions::ColumnPlan;
using fractions::PlannedBand;

constexpr std::size_t kNameWidth = 22;
constexpr std::size_t kPictureWidth = 54;

std::string volumes_text(const PlannedBand &planned) {
    if (!planned.band) {
        return "";
    }
    const double reach = fractions::kBandSigmas * planned.band->sigma_ml;
    return fmt::format("{:.0f}-{:.0f}", std::max(0.0, planned.band->volume_ml - reach),
                       planned.band->volume_ml + reach);
}

std::string fractions_text(const PlannedBand &planned) {
    if (!planned.first_fraction || !planned.last_fraction) {
        return "";
    }
    if (*planned.last_fraction == 0) {
        return "forerun";
    }
    if (*planned.first_fraction == 0) {
        return fmt::format("up to {}", *planned.last_fraction);
    }
    return *planned.first_fraction == *planned.last_fraction
               ? fmt::format("{}", *planned.first_fraction)
               : fmt::format("{}-{}", *planned.first_fraction, *planned.last_fraction);
}

std::string table_text(const ColumnResult &result, const Style &style) {
    std::string text = style.strong(fmt::format("  {} {:<8} {:>5} {:>6} {:>6} {:>13} {:>11}\n",
                                                padded("compound", kNameWidth), "role", "Rf", "k",
                                                "CV", "mL", "fractions"));
    for (std::size_t i = 0; i < result.plan.compounds.size(); ++i) {
        const fractions::PlateCompound &compound = result.plan.compounds[i];
        const PlannedBand &planned = result.plan.bands[i];
        const auto number = [&](double value) {
            return planned.column_volumes ? fmt::format("{:.2f}", value) : std::string("-");
        };
        const double cv = planned.column_volumes.value_or(0.0);
        text += fmt::format("  {} {:<8} {:>5.2f} {:>6} {:>6} {:>13} {:>11}\n",
                            padded(compound.name, kNameWidth), to_text(compound.role), compound.rf,
                            number(cv - 1.0), number(cv), volumes_text(planned),
                            fractions_text(planned));
    }
    return text;
}

/// Where the bands leave, along the column volumes.
std::string picture(const ColumnPlan &plan) {
    double end = 0.0;
    for (std::size_t i = 0; i < plan.bands.size(); ++i) {
        if (const auto band = band_in_column_volumes(plan, i)) {
            end = std::max(end, band->volume_ml + fractions::kBandSigmas * band->sigma_ml);
        }
    }
    if (end <= 0.0) {
        return "";
    }
    std::string text;
    for (std::size_t i = 0; i < plan.compounds.size(); ++i) {
        const auto band = band_in_column_volumes(plan, i);
        if (!band) {
            continue;
        }
        std::string line = "  " + padded(plan.compounds[i].name, kNameWidth) + ' ';
        const double cell_width = end / kPictureWidth;
        for (std::size_t cell = 0; cell < kPictureWidth; ++cell) {
            const double volume = cell_width * (static_cast<double>(cell) + 0.5);
            const double distance = std::abs(volume - band->volume_ml);
            // The cell of the maximum is filled however narrow the band is.
            const double sigmas = distance <= cell_width / 2 ? 0.0 : distance / band->sigma_ml;
            line += sigmas <= 1.0 ? "█" : sigmas <= fractions::kBandSigmas ? "▒" : " ";
        }
        text += line.substr(0, line.find_last_not_of(' ') + 1) + '\n';
    }
    const std::string last = fmt::format("{:.1f} CV", end);
    return text + "  " + padded("", kNameWidth) + " 0" +
           std::string(kPictureWidth - 1 - last.size(), '.') + last + '\n' +
           "  █ within one standard deviation of the maximum, ▒ within two\n";
}

std::string neighbours_text(const ColumnPlan &plan) {
    std::string text;
    for (const fractions::Neighbours &pair : plan.neighbours) {
        if (pair.column_volumes) {
            text += wrapped(printable(fmt::format("{} to {}: {:.2f} CV apart, resolution {:.1f}",
                                                  plan.compounds[pair.first].name,
                                                  plan.compounds[pair.second].name,
                                                  *pair.column_volumes, *pair.resolution)),
                            0);
        }
    }
    return text;
}

std::string advice_text(const ColumnResult &result) {
    const ColumnPlan &plan = result.plan;
    if (!plan.advice) {
        return wrapped("No column is advised: give --load-mg, or amount_mg of every compound", 0);
    }
    const fractions::ColumnAdvice &advice = *plan.advice;
    std::string text = fmt::format(
        "For {:g} mg and {:.2f} in Rf the table has {:.0f} mm inner diameter, {:.0f} mL of eluent "
        "for packing and separation, fractions of {:.0f} mL",
        *plan.load_mg, plan.difference.value_or(fractions::kEasySeparation),
        advice.column.diameter_mm, advice.column.eluent_ml, advice.column.fraction_ml);
    if (!plan.difference) {
        text = fmt::format("For {:g} mg of one compound the table has {:.0f} mm inner diameter, "
                           "{:.0f} mL of eluent, fractions of {:.0f} mL",
                           *plan.load_mg, advice.column.diameter_mm, advice.column.eluent_ml,
                           advice.column.fraction_ml);
    }
    if (advice.place == fractions::TablePlace::on_or_between_rows) {
        text += "; of the columns at hand take this or the next wider one (--diameter-mm)";
    } else if (advice.place == fractions::TablePlace::below_first_row) {
        text += "; it is less than its narrowest column takes";
    } else if (advice.portions > 1) {
        text += fmt::format(", for each of {} portions", advice.portions);
    }
    return wrapped(text, 0);
}

std::string column_text_of(const ColumnResult &result) {
    const ColumnPlan &plan = result.plan;
    if (!plan.hold_up_ml) {
        return "";
    }
    std::string text = "Planned with";
    if (plan.diameter_mm) {
        text += fmt::format(" {:.0f} mm inner diameter, {:g} mm of silica ({:.3g} g",
                            *plan.diameter_mm, result.settings.bed_mm, *plan.silica_g);
        if (plan.load_mg) {
            constexpr double mg_per_g = 1000.0;
            const double portions = plan.advice ? static_cast<double>(plan.advice->portions) : 1.0;
            text += fmt::format(", {:.0f} times the load",
                                *plan.silica_g * mg_per_g * portions / *plan.load_mg);
        }
        text += "),";
    }
    text += fmt::format(" column volume {:.3g} mL", *plan.hold_up_ml);
    if (plan.fraction_ml) {
        text += fmt::format(", fractions of {:.3g} mL", *plan.fraction_ml);
    }
    if (result.settings.forerun_ml > 0.0) {
        text += fmt::format(" after {:g} mL of forerun", result.settings.forerun_ml);
    }
    double last = 0.0;
    for (const PlannedBand &planned : plan.bands) {
        if (planned.band) {
            last = std::max(last, planned.band->volume_ml +
                                      fractions::kBandSigmas * planned.band->sigma_ml);
        }
    }
    return wrapped(text + fmt::format("; the last band is out after {:.0f} mL", last), 0);
}

std::string mixture_line(const MixtureExpectation &mixture) {
    const double rf = mixture.expected.expected;
    return fmt::format(
        "  {} Rf {:.2f} ({:.2f} to {:.2f})  {:>6}  {}\n", padded(mixture.mobile_phase, 32), rf,
        mixture.expected.low, mixture.expected.high,
        rf > 0.0 ? fmt::format("{:.1f} CV", 1.0 / rf) : "no CV", to_text(mixture.expected.basis));
}

std::string eluent_text(const ColumnResult &result) {
    std::string text;
    if (!result.mobile_phase.empty()) {
        text += wrapped("Eluent of the plate: " + printable(result.mobile_phase), 0);
    }
    text += wrapped(printable(change_text(result)), 0);
    if (result.eluents.mixtures.size() > 1) { // the present one alone says nothing new
        for (const MixtureExpectation &mixture : result.eluents.mixtures) {
            text += mixture_line(mixture);
        }
    }
    if (result.eluents.between) {
        const MixtureBetween &between = *result.eluents.between;
        text += wrapped(
            printable(fmt::format("Rf {:.2f} is expected in about {}, between {} and {}", kWantedRf,
                                  mixture_text(result.eluents, between.strong_fraction),
                                  between.lower, between.upper)),
            2);
    }
    return text;
}

std::string section(const std::string &text) {
    return text.empty() ? "" : text + '\n';
}

} // namespace

std::string column_text(const ColumnResult &result, const Style &style) {
    std::string text = table_text(result, style) + '\n' + section(picture(result.plan)) +
                       section(neighbours_text(result.plan)) +
                       section(advice_text(result) + column_text_of(result)) +
                       section(eluent_text(result));
    std::string warnings;
    for (const fractions::PlanFinding &finding : result.plan.findings) {
        warnings += wrapped("! " + printable(finding_text(finding, result)), 0);
    }
    text += section(warnings);
    for (const std::string &note : result.notes) {
        text += wrapped(printable(note), 0);
    }
    for (const std::string &assumption : plan_assumptions(result)) {
        text += wrapped(assumption, 0);
    }
    text += '\n';
    for (const std::string_view caution : kColumnCautions) {
        text += wrapped(caution, 0);
    }
    return text;
}

} // namespace cospot
