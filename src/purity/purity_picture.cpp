#include "purity/purity_picture.h"

#include "document/probability_text.h"
#include "identification/drawn_features.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

namespace cospot {

namespace {

using purity::JudgedFeature;
using purity::JudgedSample;

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

Figure chromatogram_of(const JudgedSample &sample) {
    std::vector<DrawnPeak> peaks;
    for (std::size_t i = 0; i < sample.features.size(); ++i) {
        const JudgedFeature &judged = sample.features[i];
        peaks.push_back(
            drawn_peak(judged.feature, i + 1, mark_title(judged), kind_of<PeakKind>(judged)));
    }
    ChromatogramPicture picture = chromatogram_picture(peaks, "Chromatogram of " + sample.name, {},
                                                       sample.features.front().feature.trace.get());
    return {std::move(picture.svg), fmt::format("{} {}.", picture.caption, kFillings)};
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
        const JudgedFeature &judged = sample.features[i];
        spots.push_back(
            drawn_spot(judged.feature, i + 1, mark_title(judged), kind_of<SpotKind>(judged)));
    }
    std::string key;
    const auto &standards = *sample.features.front().feature.plate->standards;
    for (std::size_t i = 0; i < standards.size(); ++i) {
        spots.push_back(drawn_standard(standards[i], standard_key(i)));
        key += fmt::format("{}{}: {}", i == 0 ? " Broken rings are standards, " : ", ",
                           standard_key(i), standards[i].label);
    }
    return {plate_picture(spots, "Lane of " + sample.name),
            fmt::format("{} {}.{}{}", kPlateScale, kFillings, key, key.empty() ? "" : ".")};
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
