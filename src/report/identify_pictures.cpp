#include "report/identify_pictures.h"

#include "document/html.h"
#include "document/probability_text.h"
#include "drawing/chromatogram_picture.h"
#include "drawing/plate_picture.h"
#include "report/identify_result.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>

namespace cospot {

namespace {

std::string words_of(const Json &result) {
    const auto proposals = proposals_of(result);
    const std::string name = feature_name(result);
    return proposals.empty() ? name
                             : fmt::format("{}: {} {}", name, name_of(proposals.front()),
                                           probability_text(proposals.front().probability));
}

template <typename Kind> Kind kind_of(const Json &result) {
    const auto proposals = proposals_of(result);
    if (proposals.empty()) {
        return Kind::not_compared;
    }
    return is_unlisted(proposals.front()) ? Kind::unlisted : Kind::listed;
}

/// a, b, ..., z, aa, ab, ...
std::string letters(std::size_t index) {
    std::string text;
    for (std::size_t rest = index + 1; rest > 0; rest = (rest - 1) / 26) {
        text.insert(text.begin(), static_cast<char>('a' + (rest - 1) % 26));
    }
    return text;
}

struct Plate {
    std::vector<DrawnSpot> spots;
    std::string key; ///< HTML: what the labels stand for
};

void add_standards(Plate &plate, const Json &standards) {
    if (!standards.empty()) {
        plate.key += "<li class=\"lane\">standards</li>\n";
    }
    for (std::size_t i = 0; i < standards.size(); ++i) {
        const Json &standard = standards[i];
        const auto label = standard.at("label").get<std::string>();
        plate.spots.push_back({letters(i), standard.at("lane").get<std::string>(),
                               "standard: " + label, standard.at("distance_mm").get<double>(),
                               standard.at("front_mm").get<double>(), SpotKind::standard});
        plate.key += fmt::format("<li data-key=\"{}\"><b>{}</b> {}</li>\n", letters(i), letters(i),
                                 html::escaped(label));
    }
}

std::string key_entry(const std::string &key, const Proposal &proposal) {
    return fmt::format("<li data-key=\"{}\"><b>{}</b> {} <span class=\"number\">{}</span></li>\n",
                       key, key, html::escaped(name_of(proposal)),
                       html::escaped(probability_text(proposal.probability)));
}

Plate plate_of(const Json &results) {
    Plate plate;
    std::string last_lane;
    for (std::size_t i = 0; i < results.size(); ++i) {
        const Json &result = results[i];
        if (!result.contains("plate")) {
            continue;
        }
        if (plate.spots.empty()) {
            add_standards(plate, result.at("plate").at("standards"));
        }
        const Json &place = result.at("plate");
        const std::string key = std::to_string(i + 1);
        const auto proposals = proposals_of(result);
        plate.spots.push_back({key, place.at("lane").get<std::string>(), words_of(result),
                               place.at("distance_mm").get<double>(),
                               place.at("front_mm").get<double>(), kind_of<SpotKind>(result)});
        const std::string lane = fmt::format("lane {}, {}", place.at("lane").get<std::string>(),
                                             result.at("sample").get<std::string>());
        if (lane != last_lane) {
            plate.key += "<li class=\"lane\">" + html::escaped(lane) + "</li>\n";
            last_lane = lane;
        }
        if (!proposals.empty()) {
            plate.key += key_entry(key, proposals.front());
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

std::string heading_html(int level, std::string_view words) {
    return fmt::format("<h{0}>{1}</h{0}>\n", level, words);
}

std::string plate_html(const Json &results, int heading_level) {
    Plate plate = plate_of(results);
    sort_by_lane(plate.spots);
    return heading_html(heading_level, "The plate") + "<div class=\"beside\">\n" +
           html::figure_html(
               plate_picture(plate.spots, "The plate as it was read"),
               "Distances from the start are to scale; the spacing of the lanes and the size of "
               "the spots were not recorded. Filled: a compound of the library is the likeliest; "
               "hatched: none of them is; empty: nothing to compare with; broken ring: standard.") +
           "<ul class=\"key\" aria-label=\"what each label stands for: the likeliest proposal "
           "and its probability\">\n" +
           plate.key + "</ul>\n</div>\n";
}

std::optional<double> number_in(const Json &result, const char *name) {
    return result.contains(name) ? std::optional<double>(result.at(name).get<double>())
                                 : std::nullopt;
}

std::optional<double> index_of(const Json &result) {
    for (const Json &observation : result.at("observations")) {
        if (observation.at("quantity") == "RI" && !observation.contains("extrapolated")) {
            return observation.at("value").get<double>();
        }
    }
    return std::nullopt;
}

DrawnPeak peak_of(const Json &result, std::size_t position) {
    return {.key = std::to_string(position),
            .title = words_of(result),
            .retention_time_min = result.at("tR").get<double>(),
            .index = index_of(result),
            .area = number_in(result, "area"),
            .height = number_in(result, "height"),
            .start_min = number_in(result, "start"),
            .end_min = number_in(result, "end"),
            .width_half_min = number_in(result, "width_half"),
            .kind = kind_of<PeakKind>(result)};
}

std::string chromatograms_html(const Json &results, int heading_level) {
    std::vector<std::string> samples;
    std::map<std::string, std::vector<DrawnPeak>> peaks;
    for (std::size_t i = 0; i < results.size(); ++i) {
        if (results[i].contains("tR")) {
            const auto sample = results[i].at("sample").get<std::string>();
            if (peaks[sample].empty()) {
                samples.push_back(sample);
            }
            peaks[sample].push_back(peak_of(results[i], i + 1));
        }
    }
    std::string html;
    for (const std::string &sample : samples) {
        const ChromatogramPicture picture =
            chromatogram_picture(peaks[sample], "Chromatogram of " + sample);
        html += heading_html(heading_level, "The chromatogram") +
                html::figure_html(picture.svg,
                                  html::escaped(picture.caption) +
                                      " Filled: a compound of the library is the likeliest; "
                                      "hatched: none of them is; empty: nothing to compare with.");
    }
    return html;
}

} // namespace

std::string identify_pictures(const Json &results, int heading_level) {
    const bool has_plate = std::any_of(results.begin(), results.end(),
                                       [](const Json &result) { return result.contains("plate"); });
    return has_plate ? plate_html(results, heading_level)
                     : chromatograms_html(results, heading_level);
}

} // namespace cospot
