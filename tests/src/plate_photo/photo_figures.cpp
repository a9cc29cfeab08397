#include "photo_figures.h"

#include <algorithm>
#include <numeric>
#include <string>
#include <utility>

namespace cospot::rendering {
namespace {

using plate_photo::Light;
using Json = nlohmann::ordered_json;

Json share(const Share &counted) {
    if (counted.all == 0) {
        return nullptr;
    }
    return static_cast<double>(counted.part) / static_cast<double>(counted.all);
}

double mean_of(const std::vector<double> &values) {
    return values.empty() ? 0.0
                          : std::accumulate(values.begin(), values.end(), 0.0) /
                                static_cast<double>(values.size());
}

Json figures(const SpotTally &spots) {
    Json said{{"asked_for", spots.asked.all},
              {"found", share(spots.asked)},
              {"false_share", share(spots.falsely)},
              {"rf_error_mean", mean_of(spots.rf_errors)},
              {"rf_error_95", quantile_of(spots.rf_errors, 0.95)},
              {"covered", share(spots.covered)},
              {"stated_uncertainty_mean", mean_of(spots.uncertainties)},
              {"without_rf", spots.without_rf},
              {"drowned_in_noise", spots.drowned.all},
              {"drowned_in_noise_found", share(spots.drowned)},
              {"faint", spots.faint.all},
              {"faint_found", share(spots.faint)}};
    for (const auto &[kind, counted] : spots.kind) {
        said["found_by_kind"][kind] = {{"asked_for", counted.all}, {"found", share(counted)}};
    }
    return said;
}

Json figures(const LineTally &line) {
    return {{"visible", line.seen.all},
            {"seen", share(line.seen)},
            {"right", share(line.right)},
            {"invisible", line.false_ones.all},
            {"seen_where_invisible", share(line.false_ones)}};
}

/// All that is counted through one kind of corners.
struct Tally {
    std::size_t plates = 0, refused = 0;
    SpotTally spots;
    LaneTally lanes;
    LineTally start, front;

    void count(const Answer &answer, const Chromatogram &truth) {
        ++plates;
        refused += answer.refused ? 1 : 0;
        count_spots(answer.helped, truth, spots);
        count_lanes(answer.helped, truth, lanes);
        count_line(answer.unaided.start, truth.start, truth.size.height_mm, start);
        count_line(answer.unaided.front, truth.front, truth.size.height_mm, front);
    }
    [[nodiscard]] Json said() const {
        return {{"plates", plates},
                {"refused", refused},
                {"spots", figures(spots)},
                {"lanes_right", share(lanes.lanes)},
                {"plates_with_all_lanes_right", share(lanes.plates)},
                {"start", figures(start)},
                {"front", figures(front)}};
    }
};

Json corner_figures(const std::vector<Outcome> &outcomes) {
    std::size_t asked_for = 0;
    std::size_t wrong = 0;
    std::vector<double> px;
    std::vector<double> mm;
    for (const Outcome &outcome : outcomes) {
        asked_for += outcome.corners.verdict == CornerVerdict::asked_for ? 1 : 0;
        wrong += outcome.corners.verdict == CornerVerdict::wrong ? 1 : 0;
        if (outcome.corners.verdict == CornerVerdict::right) {
            px.push_back(outcome.corners.mean_px);
            mm.push_back(outcome.corners.mean_mm);
        }
    }
    return {{"found", share({px.size(), outcomes.size()})},
            {"asked_for", share({asked_for, outcomes.size()})},
            {"wrong", share({wrong, outcomes.size()})},
            {"right_ones_mean_px", mean_of(px)},
            {"right_ones_mean_mm", mean_of(mm)},
            {"right_ones_95_mm", quantile_of(mm, 0.95)}};
}

/// Of the plates that `belongs` picks.
template <typename Belongs>
Json group_figures(const std::vector<Outcome> &outcomes, Belongs belongs) {
    Tally through_true;
    Tally through_found;
    Tally through_right;
    std::vector<Outcome> group;
    for (const Outcome &outcome : outcomes) {
        if (!belongs(outcome)) {
            continue;
        }
        group.push_back(outcome);
        through_true.count(outcome.through_true, outcome.plate.truth);
        if (outcome.through_found) {
            through_found.count(*outcome.through_found, outcome.plate.truth);
        }
        if (outcome.corners.verdict == CornerVerdict::right) {
            through_right.count(*outcome.through_found, outcome.plate.truth);
        }
    }
    return {{"corners", corner_figures(group)},
            {"through_true_corners", through_true.said()},
            {"through_found_corners", through_found.said()},
            {"through_found_corners_that_are_right", through_right.said()}};
}

} // namespace

nlohmann::ordered_json all_figures(const std::vector<Outcome> &outcomes) {
    Json said;
    said["all"] = group_figures(outcomes, [](const Outcome &) { return true; });
    const std::vector<std::pair<const char *, Light>> lights{
        {"white", Light::white}, {"uv254", Light::uv254}, {"uv366", Light::uv366}};
    for (const auto &[name, light] : lights) {
        said[name] = group_figures(
            outcomes, [wanted = light](const Outcome &o) { return o.plate.truth.light == wanted; });
    }
    const std::vector<const char *> names{"easy", "usual", "hard"};
    for (std::size_t k = 0; k < names.size(); ++k) {
        said[names[k]] = group_figures(outcomes, [&](const Outcome &o) {
            return static_cast<std::size_t>(&o - outcomes.data()) % 3 == k;
        });
    }
    return said;
}

nlohmann::ordered_json definitions() {
    return {
        {"asked for", "a spot whose contrast is at least 5 %, whose signal over all its pixels is "
                      "at least 5 times the noise of the sensor, and whose change of light has a "
                      "maximum of its own along the lane; contrast: the largest change in a "
                      "colour channel, in linear light, over the brighter of layer and spot"},
        {"found", "a found place lies within the true spot's half height, at least 1 mm, across "
                  "and along; each counts once, nearest first"},
        {"false", "a found spot with no true one left within twice that distance, and no streak "
                  "there; spots below 5 % are neither asked for nor false"},
        {"R_F", "of the densest place, between start and front at the spot's own x; where one of "
                "them is not seen, its height in the middle is given with an error of 0.3 mm; "
                "errors are those of found spots that are asked for"},
        {"covered", "|dR_F| is at most 1.96 standard uncertainties, propagated from those stated "
                    "of the spot, the start and the front"},
        {"lanes right", "of lanes with a spot that is asked for, and of found lanes that are none: "
                        "a found middle lies within a quarter of the least distance of two lanes, "
                        "1 to 3 mm"},
        {"line right", "mean distance at both edges and in the middle at most 0.5 mm, or 0.7 % of "
                       "the plate's height; of lines that can be seen"},
        {"corners wrong", "one is off by more than 1.5 % of the plate's height; through found "
                          "corners: all plates with found corners, wrong ones too"}};
}

double quantile_of(std::vector<double> values, double at) {
    if (values.empty()) {
        return 0.0;
    }
    std::sort(values.begin(), values.end());
    return values[std::min(values.size() - 1,
                           static_cast<std::size_t>(at * static_cast<double>(values.size())))];
}

} // namespace cospot::rendering
