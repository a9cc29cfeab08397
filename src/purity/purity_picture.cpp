#include "purity/purity_picture.h"

#include "document/probability_text.h"
#include "drawing/chromatogram_picture.h"
#include "drawing/plate_picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

namespace cospot {

namespace {

using purity::JudgedFeature;
using purity::JudgedSample;

constexpr std::string_view kFillings =
    " Filled: a compound of the library is the likeliest; hatched: none of them is; empty: nothing "
    "to compare with.";

/// "peak 2: propylparaben 0.90"
std::string mark_title(const JudgedFeature &judged) {
    const std::string name = purity::feature_text(judged.feature);
    return judged.identification.candidates.empty()
               ? name
               : fmt::format("{}: {} {}", name, judged.identity.name,
                             probability_text(judged.identity.probability));
}

template <typename Kind> Kind kind_of(const JudgedFeature &judged) {
    if (judged.identification.candidates.empty()) {
        return Kind::not_compared;
    }
    return judged.identity.is_unlisted ? Kind::unlisted : Kind::listed;
}

std::optional<double> index_of(const Feature &feature) {
    for (const FeatureObservation &one : feature.observations) {
        if (one.quantity == Quantity::RI && !one.extrapolated) {
            return one.value;
        }
    }
    return std::nullopt;
}

Figure chromatogram_of(const JudgedSample &sample) {
    std::vector<DrawnPeak> peaks;
    for (std::size_t i = 0; i < sample.features.size(); ++i) {
        const Feature &feature = sample.features[i].feature;
        peaks.push_back({.key = std::to_string(i + 1),
                         .title = mark_title(sample.features[i]),
                         .retention_time_min = *feature.retention_time_min,
                         .index = index_of(feature),
                         .area = feature.area,
                         .height = feature.shape.height,
                         .start_min = feature.shape.start_min,
                         .end_min = feature.shape.end_min,
                         .width_half_min = feature.shape.width_half_min,
                         .kind = kind_of<PeakKind>(sample.features[i])});
    }
    ChromatogramPicture picture = chromatogram_picture(peaks, "Chromatogram of " + sample.name);
    return {std::move(picture.svg), picture.caption + std::string(kFillings)};
}

/// Standards have letters, which the caption explains: a, b, ..., z, and numbers from there on.
std::string standard_key(std::size_t position) {
    constexpr std::size_t letters = 26;
    return position < letters ? std::string(1, static_cast<char>('a' + position))
                              : fmt::format("s{}", position + 1);
}

Figure plate_of(const JudgedSample &sample) {
    std::vector<DrawnSpot> spots;
    for (std::size_t i = 0; i < sample.features.size(); ++i) {
        const PlatePlace &place = *sample.features[i].feature.plate;
        spots.push_back({std::to_string(i + 1), place.lane, mark_title(sample.features[i]),
                         place.distance_mm, place.front_mm, kind_of<SpotKind>(sample.features[i])});
    }
    std::string key;
    const auto &standards = *sample.features.front().feature.plate->standards;
    for (std::size_t i = 0; i < standards.size(); ++i) {
        const PlateStandard &one = standards[i];
        spots.push_back({standard_key(i), one.lane, "standard: " + one.label, one.distance_mm,
                         one.front_mm, SpotKind::standard});
        key += fmt::format("{}{}: {}", i == 0 ? " Broken rings are standards, " : ", ",
                           standard_key(i), one.label);
    }
    return {plate_picture(spots, "Lane of " + sample.name),
            "Distances from the start are to scale; the spacing of the lanes and the size of the "
            "spots were not recorded." +
                std::string(kFillings) + key + (key.empty() ? "" : ".")};
}

} // namespace

std::optional<Figure> purity_picture(const JudgedSample &sample) {
    const auto all = [&](const auto &has) {
        return std::all_of(sample.features.begin(), sample.features.end(),
                           [&](const JudgedFeature &one) { return has(one.feature); });
    };
    if (all([](const Feature &one) { return one.retention_time_min.has_value(); })) {
        return chromatogram_of(sample);
    }
    if (all([](const Feature &one) { return one.plate.has_value(); })) {
        return plate_of(sample);
    }
    return std::nullopt;
}

} // namespace cospot
