#include "identification/run_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

/// Less than this probability of another place is not worth a sentence.
constexpr double kElsewhere = 0.2;

std::string named(const EvidenceStandard &one) {
    return fmt::format("{} ({})", one.standard.compound, place_of(one.standard));
}

/// What a run that lies elsewhere usually comes from (common practice, no source).
std::string usual_causes(Quantity quantity, Technique technique) {
    switch (quantity) {
    case Quantity::Rf:
        return "another eluent, another layer, humidity, a chamber that was not saturated or a "
               "front that was misread";
    case Quantity::RI:
        return technique == Technique::gc
                   ? "a leak, another column of the same name, an oven that is off or a mistaken "
                     "ladder"
                   : "another eluent, another column of the same name or a mistaken ladder";
    case Quantity::tR:
        return technique == Technique::gc
                   ? "another flow or pressure, a leak, a column that was cut or an oven that is "
                     "off"
                   : "another flow, another eluent, a leak or another column of the same name";
    case Quantity::RRT:
    case Quantity::r:
        return "a mistaken reference peak, another eluent or programme, or another column of the "
               "same name";
    case Quantity::k:
        break;
    }
    return "a mistaken hold-up time, another eluent, another temperature or an aged column";
}

std::string distance_words(const RunPlace &place) {
    const matcher::RegisteredSystem &found = place.found;
    constexpr double factor_worth_saying = 0.005;
    if (place.quantity == Quantity::tR && std::abs(found.slope) > factor_worth_saying) {
        return fmt::format(
            "takes {:.3f} times as long as the library's: {} by {:.3f} min at {} min",
            1.0 + found.slope, found.shift < 0.0 ? "earlier" : "later", std::abs(found.shift),
            shown(place.quantity, found.place));
    }
    if (place.quantity == Quantity::tR) {
        return fmt::format("runs {:.3f} min {} than the library", std::abs(found.shift),
                           found.shift < 0.0 ? "earlier" : "later");
    }
    return fmt::format("lies {} {} {} the library", shown(place.quantity, std::abs(found.shift)),
                       to_text(place.quantity), found.shift < 0.0 ? "below" : "above");
}

} // namespace

std::string place_of(const RunStandard &standard) {
    const bool is_spot = standard.observation.quantity == Quantity::Rf;
    return standard.lane.empty() ? (is_spot ? "spot " : "peak ") + standard.name
                                 : "lane " + standard.lane;
}

std::string standard_words(const EvidenceStandard &one, const matcher::SystemModel &model) {
    const FeatureObservation &read = one.standard.observation;
    const matcher::CandidateDensity *held = matcher::find_candidate(model, one.compound);
    std::string words = fmt::format("standard {}: {} {} in this run, {} in the library", named(one),
                                    to_text(read.quantity), shown(read.quantity, read.value),
                                    held == nullptr ? "none" : shown(read.quantity, held->mean));
    if (matcher::censoring(read.quantity, read.value) != matcher::Censoring::none) {
        return words + "; at the start or the front it tells nothing";
    }
    return held == nullptr ? words + ": it stands for itself alone" : words;
}

std::string contradiction_words(const EvidenceStandard &one) {
    return fmt::format(
        "! the readings of the standard {} lie too far apart for one compound in one "
        "run: none of them is used. Check its lanes and labels",
        one.standard.compound);
}

std::string label_words(const matcher::LabelCheck &labels,
                        std::span<const EvidenceStandard *const> standards,
                        const matcher::SystemModel &model, KnownCompounds &compounds) {
    std::string which;
    std::string would_be;
    for (std::size_t i = 0; i < standards.size(); ++i) {
        const auto &other = labels.would_be[i];
        if (other == standards[i]->compound) {
            continue;
        }
        which += (which.empty() ? "" : " and ") + named(*standards[i]);
        const FeatureObservation &read = standards[i]->standard.observation;
        const std::string where = place_of(standards[i]->standard);
        const auto *held = matcher::find_candidate(model, standards[i]->compound);
        would_be += would_be.empty() ? "" : "; ";
        would_be += other ? fmt::format("{} runs as {}", where, compounds.at(*other).name)
                          : fmt::format("{} has {} {} where {} is expected", where,
                                        to_text(read.quantity), shown(read.quantity, read.value),
                                        held == nullptr ? "another value"
                                                        : shown(read.quantity, held->mean));
    }
    const bool is_used =
        std::find(labels.trusted.begin(), labels.trusted.end(), false) == labels.trusted.end();
    return fmt::format("! {}: {} ({}; all labels are right with probability {:.2g}). {}",
                       fault_words(labels), which, would_be, labels.as_given,
                       is_used ? "Check the plate or run"
                               : "What seems wrong is not used until that is settled");
}

std::string assumed_within_run_words(const matcher::StandardInRun &standard,
                                     const matcher::SystemModel &model) {
    const double units =
        std::sqrt(standard.within_variance) / matcher::scale_slope(model.quantity, standard.value);
    return fmt::format("no compound was read twice in one run: readings of one run are assumed to "
                       "scatter by {:.2g} in {}, beside the error of reading",
                       units, to_text(model.quantity));
}

std::vector<std::string> place_words(const RunPlace &place, Technique technique) {
    const matcher::RegisteredSystem &found = place.found;
    if (!found.fits) {
        return {
            fmt::format("! this run does not fit what the library holds on {}: no shift explains "
                        "its features better than chance. Check the system, the ladder and the "
                        "units",
                        place.system)};
    }
    if (found.second > kElsewhere) {
        return {}; // `standard_to_run_words` says that it is not known
    }
    if (place.moved) {
        return {fmt::format("! this run {} on {} (± {}), farther than runs of the library vary. "
                            "Usual causes: {}. The probabilities allow for it",
                            distance_words(place), place.system,
                            shown(place.quantity, found.uncertainty),
                            usual_causes(place.quantity, technique))};
    }
    if (std::abs(found.shift) > found.uncertainty) {
        return {fmt::format("this run {} on {} (± {}), as runs vary (found from its own features "
                            "and standards)",
                            distance_words(place), place.system,
                            shown(place.quantity, found.uncertainty))};
    }
    return {};
}

std::optional<std::size_t> standard_to_run(const matcher::RegisteredSystem &found,
                                           const matcher::SystemModel &model) {
    if (!found.fits || found.second < kElsewhere) {
        return std::nullopt;
    }
    // The compound that the library knows best, of several the one nearest to the features.
    const double middle = matcher::to_model_scale(model.quantity, found.place);
    const matcher::CandidateDensity *best = nullptr;
    for (const matcher::CandidateDensity &candidate : model.candidates) {
        if (candidate.basis != matcher::Basis::measured ||
            candidate.always != matcher::Censoring::none) {
            continue;
        }
        if (best == nullptr || candidate.runs > best->runs ||
            (candidate.runs == best->runs &&
             std::abs(candidate.location - middle) < std::abs(best->location - middle))) {
            best = &candidate;
        }
    }
    return best == nullptr ? std::nullopt : std::optional(best->compound);
}

std::string standard_to_run_words(const RunPlace &place, const std::string &compound) {
    return fmt::format("where this run lies against the library on {} is not known: several places "
                       "fit its features, and the likeliest has a probability of {:.2f}; {} as a "
                       "standard beside them would tell",
                       place.system, 1.0 - place.found.second, compound);
}

} // namespace cospot
