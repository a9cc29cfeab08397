#include "identify/feature_figures.h"

#include "document/probability_text.h"
#include "identification/alternatives.h"
#include "identification/drawn_features.h"
#include "identify/feature_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>

namespace cospot {

namespace {

/// "flask 1 / 2: linalool 0.42"
std::string mark_words(const AnsweredFeature &answered) {
    const auto alternatives = alternatives_of(answered.found);
    const std::string name = feature_name(*answered.feature);
    return alternatives.empty()
               ? name
               : fmt::format("{}: {} {}", name, name_of(alternatives.front(), answered.found),
                             probability_text(alternatives.front().probability));
}

template <typename Kind> Kind mark_kind(const AnsweredFeature &answered) {
    const auto alternatives = alternatives_of(answered.found);
    if (alternatives.empty()) {
        return Kind::not_compared;
    }
    return alternatives.front().group == nullptr ? Kind::unlisted : Kind::listed;
}

/// a, b, ..., z, aa, ab, ...
std::string letters(std::size_t index) {
    std::string text;
    for (std::size_t rest = index + 1; rest > 0; rest = (rest - 1) / 26) {
        text.insert(text.begin(), static_cast<char>('a' + (rest - 1) % 26));
    }
    return text;
}

struct DrawnPlate {
    std::vector<DrawnSpot> spots;
    std::vector<LegendEntry> legend;
};

void add_standards(DrawnPlate &plate, const std::vector<PlateStandard> &standards) {
    if (!standards.empty()) {
        plate.legend.push_back({"", "standards"});
    }
    for (std::size_t i = 0; i < standards.size(); ++i) {
        plate.spots.push_back(drawn_standard(standards[i], letters(i)));
        plate.legend.push_back({letters(i), standards[i].label});
    }
}

DrawnPlate drawn_plate(std::span<const AnsweredFeature> features, std::size_t first,
                       const std::string &run) {
    DrawnPlate plate;
    std::string last_lane;
    for (std::size_t i = 0; i < features.size(); ++i) {
        const Feature &feature = *features[i].feature;
        if (!feature.plate || feature.run != run) {
            continue;
        }
        if (plate.spots.empty()) {
            add_standards(plate, *feature.plate->standards);
        }
        const std::string key = fmt::to_string(first + i);
        plate.spots.push_back(drawn_spot(feature, first + i, mark_words(features[i]),
                                         mark_kind<SpotKind>(features[i])));
        const std::string lane = fmt::format("lane {}, {}", feature.plate->lane, feature.sample);
        if (lane != last_lane) {
            plate.legend.push_back({"", lane});
            last_lane = lane;
        }
        const auto alternatives = alternatives_of(features[i].found);
        if (!alternatives.empty()) {
            plate.legend.push_back({key, name_of(alternatives.front(), features[i].found),
                                    probability_text(alternatives.front().probability)});
        }
    }
    return plate;
}

/// Lanes in the order of their names where all are numbers, as they lie on the plate.
void sort_by_lane(std::vector<DrawnSpot> &spots) {
    const auto number_of = [](const DrawnSpot &spot) -> std::optional<long> {
        constexpr std::size_t longest = 9;
        const bool is_number = !spot.lane.empty() && spot.lane.size() <= longest &&
                               spot.lane.find_first_not_of("0123456789") == std::string::npos;
        return is_number ? std::optional<long>(std::stol(spot.lane)) : std::nullopt;
    };
    if (std::all_of(spots.begin(), spots.end(),
                    [&](const DrawnSpot &spot) { return number_of(spot).has_value(); })) {
        std::stable_sort(spots.begin(), spots.end(), [&](const DrawnSpot &a, const DrawnSpot &b) {
            return number_of(a) < number_of(b);
        });
    }
}

/// What the marks mean is said below the first plate.
Figure plate_figure(std::span<const AnsweredFeature> features, std::size_t first,
                    const std::string &run, bool is_first) {
    DrawnPlate plate = drawn_plate(features, first, run);
    sort_by_lane(plate.spots);
    const std::string name = run.empty() ? "The plate" : "Plate " + run;
    return {.svg = plate_picture(plate.spots, name + " as it was read"),
            .caption = is_first ? fmt::format("{}. {} {}; broken ring: standard.", name,
                                              kPlateScale, kFillings)
                                : name + ".",
            .legend = std::move(plate.legend)};
}

std::vector<Figure> plate_figures(std::span<const AnsweredFeature> features, std::size_t first) {
    std::vector<Figure> figures;
    std::set<std::string> drawn;
    for (const AnsweredFeature &one : features) {
        if (one.feature->plate && drawn.insert(one.feature->run).second) {
            figures.push_back(plate_figure(features, first, one.feature->run, figures.empty()));
        }
    }
    return figures;
}

/// A peak as it is seen on the second column.
Feature on_second_column(const Feature &feature) {
    Feature there = feature;
    there.retention_time_min = feature.pair->retention_time_min;
    there.area = feature.pair->area;
    there.shape = {};
    there.trace = feature.pair->trace;
    return there;
}

/// The peaks of each sample; those on a second column apart.
std::vector<Figure> chromatogram_figures(std::span<const AnsweredFeature> features,
                                         std::size_t first) {
    std::vector<std::string> samples;
    std::map<std::string, std::vector<DrawnPeak>> peaks;
    std::map<std::string, std::shared_ptr<const RecordedTrace>> traces;
    for (std::size_t i = 0; i < features.size(); ++i) {
        const auto draw = [&](const Feature &feature, const std::string &column) {
            const std::string name = feature.sample + (column.empty() ? "" : " on " + column);
            if (peaks[name].empty()) {
                samples.push_back(name);
                traces[name] = feature.trace;
            }
            peaks[name].push_back(drawn_peak(feature, first + i, mark_words(features[i]),
                                             mark_kind<PeakKind>(features[i])));
        };
        const Feature &feature = *features[i].feature;
        if (feature.retention_time_min) {
            draw(feature, feature.plate ? "" : feature.lane);
        }
        if (feature.pair) {
            draw(on_second_column(feature), feature.pair->system);
        }
    }
    std::vector<Figure> figures;
    for (const std::string &sample : samples) {
        const ChromatogramPicture picture = chromatogram_picture(
            peaks[sample], "Chromatogram of " + sample, {}, traces[sample].get());
        figures.push_back(
            {.svg = picture.svg, .caption = fmt::format("{} {}.", picture.caption, kFillings)});
    }
    return figures;
}

} // namespace

std::vector<Figure> feature_figures(std::span<const AnsweredFeature> features, std::size_t first) {
    std::vector<Figure> figures = plate_figures(features, first);
    std::vector<Figure> chromatograms = chromatogram_figures(features, first);
    std::move(chromatograms.begin(), chromatograms.end(), std::back_inserter(figures));
    return figures;
}

} // namespace cospot
