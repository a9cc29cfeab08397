#include "purity/suitability.h"

#include "quantities/peak_shape.h"

#include <fmt/format.h>

namespace cospot::purity {

namespace {

bool is_wide(std::optional<double> width) {
    return width && *width > 0.0;
}

std::optional<double> base_width(const PeakShape &shape) {
    return shape.start_min && shape.end_min ? std::optional(*shape.end_min - *shape.start_min)
                                            : std::nullopt;
}

/// The neighbour that is resolved worst from the main peak.
struct Neighbour {
    const Feature *feature = nullptr;
    double resolution = 0.0;
};

std::optional<Neighbour> worst_neighbour(const JudgedSample &sample) {
    const Feature &main = sample.features[*sample.main].feature;
    std::optional<Neighbour> worst;
    for (const JudgedFeature &other : sample.features) {
        const auto resolution =
            &other.feature == &main ? std::nullopt : resolution_of(main, other.feature);
        if (resolution && (!worst || *resolution < worst->resolution)) {
            worst = Neighbour{&other.feature, *resolution};
        }
    }
    return worst;
}

RuleVerdict resolution_verdict(const JudgedSample &sample, double limit) {
    RuleVerdict verdict{"resolution of the declared compound", fmt::format("at least {:g}", limit),
                        "", Verdict::cannot_be_told, "the peak table has no widths"};
    const auto worst = worst_neighbour(sample);
    if (sample.features.size() == 1) {
        verdict.verdict = Verdict::meets;
        verdict.reason = "no other peak was seen";
    } else if (worst) {
        verdict.found =
            fmt::format("{:.1f} from {}", worst->resolution, feature_text(*worst->feature));
        verdict.verdict = worst->resolution >= limit ? Verdict::meets : Verdict::does_not_meet;
        verdict.reason = verdict.verdict == Verdict::meets
                             ? ""
                             : "areas of peaks that overlap are shared out by the integrator";
    }
    return verdict;
}

RuleVerdict symmetry_verdict(const Feature &main, const Suitability &limits) {
    const double from = limits.symmetry_from.value_or(0.0);
    RuleVerdict verdict{"symmetry factor of the declared compound",
                        limits.symmetry_to ? fmt::format("{:g} to {:g}", from, *limits.symmetry_to)
                                           : fmt::format("at least {:g}", from),
                        "", Verdict::cannot_be_told, "the peak table has no column symmetry"};
    if (const auto found = main.shape.symmetry) {
        verdict.found = fmt::format("{:.2f}", *found);
        const bool meets = *found >= from && (!limits.symmetry_to || *found <= *limits.symmetry_to);
        verdict.verdict = meets ? Verdict::meets : Verdict::does_not_meet;
        verdict.reason = meets ? "" : "a shoulder or a tail can hide an impurity";
    }
    return verdict;
}

RuleVerdict plates_verdict(const Feature &main, double limit) {
    RuleVerdict verdict{"plate number of the declared compound",
                        fmt::format("at least {:g}", limit), "", Verdict::cannot_be_told,
                        "the peak table has no width at half height"};
    if (main.retention_time_min && is_wide(main.shape.width_half_min)) {
        const double plates = quantities::plate_number_from_half_width(*main.retention_time_min,
                                                                       *main.shape.width_half_min);
        verdict.found = fmt::format("{:.0f}", plates);
        verdict.verdict = plates >= limit ? Verdict::meets : Verdict::does_not_meet;
        verdict.reason = "";
    }
    return verdict;
}

} // namespace

Suitability usual_suitability() {
    return {1.5, 0.8, 1.8, std::nullopt};
}

std::optional<double> resolution_of(const Feature &first, const Feature &second) {
    if (!first.retention_time_min || !second.retention_time_min) {
        return std::nullopt;
    }
    const bool in_order = *first.retention_time_min <= *second.retention_time_min;
    const Feature &a = in_order ? first : second;
    const Feature &b = in_order ? second : first;
    if (is_wide(a.shape.width_half_min) && is_wide(b.shape.width_half_min)) {
        return quantities::resolution_from_half_widths(
            {*a.retention_time_min, *a.shape.width_half_min},
            {*b.retention_time_min, *b.shape.width_half_min});
    }
    const auto width_a = base_width(a.shape);
    const auto width_b = base_width(b.shape);
    if (is_wide(width_a) && is_wide(width_b)) {
        return quantities::resolution_from_base_widths({*a.retention_time_min, *width_a},
                                                       {*b.retention_time_min, *width_b});
    }
    return std::nullopt;
}

std::vector<RuleVerdict> suitability_verdicts(const JudgedSample &sample, const Suitability &asked,
                                              const Suitability &usual) {
    std::vector<RuleVerdict> verdicts;
    if (!sample.main) {
        return verdicts;
    }
    const Feature &main = sample.features[*sample.main].feature;
    const auto add = [&](bool is_asked, RuleVerdict verdict, const char *source_of_usual) {
        if (!is_asked) {
            verdict.limit += source_of_usual;
        }
        if (is_asked || !verdict.found.empty()) {
            verdicts.push_back(std::move(verdict));
        }
    };
    const auto resolution =
        asked.resolution_at_least ? asked.resolution_at_least : usual.resolution_at_least;
    if (resolution) {
        add(asked.resolution_at_least.has_value(), resolution_verdict(sample, *resolution),
            " (common practice)");
    }
    const bool asks_symmetry = asked.symmetry_from || asked.symmetry_to;
    const Suitability &symmetry = asks_symmetry ? asked : usual;
    if (symmetry.symmetry_from || symmetry.symmetry_to) {
        add(asks_symmetry, symmetry_verdict(main, symmetry), " (Ph. Eur. 2.2.46)");
    }
    const auto plates =
        asked.plate_number_at_least ? asked.plate_number_at_least : usual.plate_number_at_least;
    if (plates) {
        add(asked.plate_number_at_least.has_value(), plates_verdict(main, *plates), "");
    }
    return verdicts;
}

} // namespace cospot::purity
