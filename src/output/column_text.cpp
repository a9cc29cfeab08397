#include "output/column_text.h"

#include "document/caution.h"
#include "output/basis_text.h"
#include "output/column_model.h"
#include "output/column_words.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

using fractions::ColumnPlan;
using fractions::PlannedBand;

constexpr std::size_t kColumnNameWidth = 22;
constexpr std::size_t kPictureWidth = 54;

std::string range_text(double low, double high) {
    return fmt::format("{:.0f}-{:.0f}", low, high);
}

std::string fractions_text(const std::optional<int> &first, const std::optional<int> &last) {
    if (!first || !last) {
        return "";
    }
    if (*last == 0) {
        return "forerun";
    }
    if (*first == 0) {
        return fmt::format("up to {}", *last);
    }
    return *first == *last ? fmt::format("{}", *first) : fmt::format("{}-{}", *first, *last);
}

std::string table_text(const ColumnResult &result, const Style &style) {
    std::string text = style.strong(fmt::format("  {} {:<8} {:>5} {:>6} {:>6} {:>13} {:>11}\n",
                                                padded("compound", kColumnNameWidth), "role", "Rf",
                                                "k", "CV", "mL", "fractions"));
    for (std::size_t i = 0; i < result.plan.compounds.size(); ++i) {
        const fractions::PlateCompound &compound = result.plan.compounds[i];
        const PlannedBand &planned = result.plan.bands[i];
        const auto number = [&](double value) {
            return planned.column_volumes ? fmt::format("{:.2f}", value) : std::string("-");
        };
        const double cv = planned.column_volumes.value_or(0.0);
        text += fmt::format("  {} {:<8} {:>5.2f} {:>6} {:>6} {:>13} {:>11}\n",
                            padded(compound.name, kColumnNameWidth), to_text(compound.role),
                            compound.rf, number(cv - 1.0), number(cv),
                            planned.expected
                                ? range_text(planned.expected->start_ml, planned.expected->end_ml)
                                : "",
                            fractions_text(planned.first_fraction, planned.last_fraction));
    }
    return text;
}

/// The same bands with what holds in 95 of 100 runs.
std::string intervals_text(const ColumnResult &result, const Style &style) {
    if (!result.plan.column) {
        return "";
    }
    std::string text = style.strong(fmt::format(
        "  {} {:>14} {:>16} {:>11}  {}\n", padded("in 95 of 100 runs", kColumnNameWidth),
        "middle, mL", "whole band, mL", "fractions", "volume"));
    for (std::size_t i = 0; i < result.plan.bands.size(); ++i) {
        const PlannedBand &planned = result.plan.bands[i];
        if (planned.expected) {
            const fractions::ExpectedBand &band = *planned.expected;
            text += fmt::format("  {} {:>14} {:>16} {:>11}  {}\n",
                                padded(result.plan.compounds[i].name, kColumnNameWidth),
                                range_text(band.middle.low_ml, band.middle.high_ml),
                                range_text(band.whole.low_ml, band.whole.high_ml),
                                fractions_text(planned.first_in_95, planned.last_in_95),
                                band_basis(result, i));
        }
    }
    return text;
}

/// A band as it is drawn, in column volumes.
struct DrawnBand {
    double maximum = 0.0;
    double sigma = 0.0;
    double low = 0.0; ///< of what holds it in 95 of 100 runs, where the column's size is known
    double high = 0.0;
};

DrawnBand drawn(const ColumnPlan &plan, std::size_t compound, const quantities::ElutedBand &band) {
    DrawnBand result{band.volume_ml, band.sigma_ml,
                     band.volume_ml - fractions::kBandSigmas * band.sigma_ml,
                     band.volume_ml + fractions::kBandSigmas * band.sigma_ml};
    if (const auto &expected = plan.bands[compound].expected) {
        result.low = expected->whole.low_ml / *plan.hold_up_ml;
        result.high = expected->whole.high_ml / *plan.hold_up_ml;
    }
    return result;
}

std::string picture_line(const DrawnBand &band, double cell_width) {
    std::string line;
    for (std::size_t cell = 0; cell < kPictureWidth; ++cell) {
        const double volume = cell_width * (static_cast<double>(cell) + 0.5);
        const double distance = std::abs(volume - band.maximum);
        // The cell of the maximum is filled however narrow the band is.
        const double sigmas = distance <= cell_width / 2 ? 0.0 : distance / band.sigma;
        line += sigmas <= 1.0                               ? "█"
                : sigmas <= fractions::kBandSigmas          ? "▒"
                : volume >= band.low && volume <= band.high ? "·"
                                                            : " ";
    }
    return line.substr(0, line.find_last_not_of(' ') + 1) + '\n';
}

/// Where the bands leave, along the column volumes.
std::string picture(const ColumnPlan &plan) {
    double end = 0.0;
    for (std::size_t i = 0; i < plan.bands.size(); ++i) {
        if (const auto band = band_in_column_volumes(plan, i)) {
            end = std::max(end, drawn(plan, i, *band).high);
        }
    }
    if (end <= 0.0) {
        return "";
    }
    std::string text;
    for (std::size_t i = 0; i < plan.compounds.size(); ++i) {
        if (const auto band = band_in_column_volumes(plan, i)) {
            text += "  " + padded(plan.compounds[i].name, kColumnNameWidth) + ' ' +
                    picture_line(drawn(plan, i, *band), end / kPictureWidth);
        }
    }
    const std::string last = fmt::format("{:.1f} CV", end);
    text += "  " + padded("", kColumnNameWidth) + " 0" +
            std::string(kPictureWidth - 1 - last.size(), '.') + last + '\n' +
            "  █ within one standard deviation of the maximum, ▒ within two";
    return text + (plan.column ? ", · in 95 of 100\n  runs\n" : "\n");
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
    if (result.settings.own) {
        text += " column " + printable(result.settings.own->name) + ':';
    }
    if (plan.silica_g) {
        text += plan.diameter_mm
                    ? fmt::format(" {:.0f} mm inner diameter, {:g} mm of silica ({:.3g} g",
                                  *plan.diameter_mm, plan.bed_mm.value(), *plan.silica_g)
                    : fmt::format(" a bed of silica ({:.3g} g", *plan.silica_g);
        if (plan.load_mg) {
            constexpr double mg_per_g = 1000.0;
            const double portions = plan.advice ? static_cast<double>(plan.advice->portions) : 1.0;
            text += fmt::format(", {:.0f} times the load",
                                *plan.silica_g * mg_per_g * portions / *plan.load_mg);
        }
        text += "),";
    }
    text += fmt::format(" column volume {:.3g} mL", *plan.hold_up_ml);
    if (!result.settings.hold_up_ml) {
        text += fmt::format(" and {:.2g} mL outside the bed", plan.column->outside_ml());
    }
    if (plan.fraction_ml) {
        text += fmt::format(", fractions of {:.3g} mL", *plan.fraction_ml);
    }
    if (result.settings.forerun_ml > 0.0) {
        text += fmt::format(" after {:g} mL of forerun", result.settings.forerun_ml);
    }
    double last = 0.0;
    double latest = 0.0;
    for (const PlannedBand &planned : plan.bands) {
        if (planned.expected) {
            last = std::max(last, planned.expected->end_ml);
            latest = std::max(latest, planned.expected->whole.high_ml);
        }
    }
    return wrapped(text + fmt::format("; the last band is expected to be out after {:.0f} mL; have "
                                      "{:.0f} mL ready",
                                      last, latest),
                   0);
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
    std::string text = table_text(result, style) + '\n' + section(intervals_text(result, style)) +
                       section(picture(result.plan)) + section(neighbours_text(result.plan)) +
                       section(advice_text(result) + column_text_of(result)) +
                       section(eluent_text(result));
    std::string warnings;
    for (const fractions::PlanFinding &finding : result.plan.findings) {
        warnings += wrapped("! " + printable(finding_text(finding, result)), 0);
    }
    text += section(warnings);
    for (const std::string &sentence : interval_sentences(result)) {
        text += wrapped(printable(sentence), 0);
    }
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
