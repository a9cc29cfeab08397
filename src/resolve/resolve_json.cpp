#include "resolve/resolve_json.h"

#include "document/caution.h"
#include "evidence/elution_order.h"
#include "quantities/peak_shape.h"
#include "resolve/resolve_words.h"

#include <cmath>

namespace cospot {

namespace {

using namespace resolve;

const std::string &name_of(const Answer &answer, std::size_t compound) {
    return answer.question.compounds[compound].name;
}

Json pair_json(const Answer &answer, const Pair &pair) {
    return {name_of(answer, pair.first), name_of(answer, pair.second)};
}

Json compound_json(const Answer &answer, std::size_t i) {
    const RetentionLine &line = answer.choice.lines[i];
    Json points = Json::array();
    for (const RetentionPoint &point : answer.question.compounds[i].points) {
        points.push_back(
            {{"fraction", point.fraction},
             {"k", point.k},
             {"k_of_line", quantities::retention_factor_at(line.law, point.fraction)}});
    }
    return {{"compound", name_of(answer, i)},
            {"log_k_w", line.law.log_k_weak},
            {"S", line.law.slope},
            {"measured_from", line.low},
            {"measured_to", line.high},
            {"worst_factor", or_null(line.worst_factor)},
            {"bent", line.is_bent},
            {"log_p", or_null(answer.question.compounds[i].log_p)},
            {"points", points}};
}

Json k_json(const Answer &answer, std::size_t i, double fraction) {
    const RetentionLine &line = answer.choice.lines[i];
    const double k = quantities::retention_factor_at(line.law, fraction);
    Json json{{"compound", name_of(answer, i)}, {"k", k}};
    if (answer.choice.scatter) {
        const KInterval interval = k_interval(line, *answer.choice.scatter, fraction);
        json["k_low"] = interval.low;
        json["k_high"] = interval.high;
        json["coverage"] = prediction::kIntervalCoverage;
    }
    if (answer.hold_up_min) {
        json["tR"] = *answer.hold_up_min * (1.0 + k);
    }
    json["outside_measured"] = fraction < line.low || fraction > line.high;
    return json;
}

/// A point of the curve with all that is known of it, first to leave first.
Json run_json(const Answer &answer, std::optional<std::size_t> position) {
    if (!position || answer.question.compounds.size() < 2) {
        return nullptr;
    }
    const CurvePoint &point = answer.choice.curve[*position];
    Json order = Json::array();
    const std::vector<std::size_t> by_k = elution_order(point.k);
    for (std::size_t place = 0; place < by_k.size(); ++place) {
        const double k = point.k[by_k[place]];
        Json one = k_json(answer, by_k[place], point.fraction);
        one["resolution_to_next"] =
            place + 1 == by_k.size()
                ? Json(nullptr)
                : Json(quantities::resolution_from_plate_number(k, point.k[by_k[place + 1]],
                                                                answer.question.plate_number));
        order.push_back(std::move(one));
    }
    return {{"summary", run_words(answer, point)},
            {"fraction", point.fraction},
            {"resolution", point.resolution},
            {"critical_pair", pair_json(answer, *point.critical)},
            {"outside_window", point.outside_window},
            {"order", order}};
}

Json curve_json(const Answer &answer) {
    Json curve = Json::array();
    for (const CurvePoint &point : answer.choice.curve) {
        curve.push_back(
            {{"fraction", point.fraction},
             {"resolution", point.critical ? Json(point.resolution) : Json(nullptr)},
             {"critical_pair", point.critical ? pair_json(answer, *point.critical) : Json(nullptr)},
             {"outside_window", point.outside_window},
             {"outside_measured", !answer.choice.measured.holds(point.fraction)},
             {"k", point.k}});
    }
    return curve;
}

Json wanted_json(const Answer &answer) {
    const auto &found = answer.choice.wanted;
    if (!found) {
        return nullptr;
    }
    Json json{{"summary", wanted_words(answer)},
              {"compound", name_of(answer, found->compound)},
              {"k", found->k},
              {"fraction", or_null(found->fraction)},
              {"outside_measured", found->is_outside_measured}};
    if (found->interval) {
        json["fraction_low"] = found->interval->low;
        json["fraction_high"] = found->interval->high;
        json["coverage"] = prediction::kIntervalCoverage;
    }
    return json;
}

Json gradient_json(const Answer &answer) {
    if (!answer.question.gradient) {
        return nullptr;
    }
    const quantities::LinearGradient &gradient = *answer.question.gradient;
    Json compounds = Json::array();
    for (std::size_t i = 0; i < answer.choice.gradient.size(); ++i) {
        const GradientAnswer &one = answer.choice.gradient[i];
        compounds.push_back({{"compound", name_of(answer, i)},
                             {"tR", one.retention ? Json(one.retention->time_min) : Json(nullptr)},
                             {"fraction", one.fraction},
                             {"stage", one.retention ? Json(stage_words(one)) : Json(nullptr)},
                             {"outside_measured", one.is_outside_measured}});
    }
    return {{"summary", gradient_words(answer)},
            {"from", gradient.from_fraction},
            {"to", gradient.to_fraction},
            {"duration", gradient.duration_min},
            {"dwell", gradient.dwell_min},
            {"hold_up", gradient.hold_up_min},
            {"compounds", compounds}};
}

} // namespace

Json resolve_json(const Answer &answer) {
    const Choice &choice = answer.choice;
    Json compounds = Json::array();
    for (std::size_t i = 0; i < choice.lines.size(); ++i) {
        compounds.push_back(compound_json(answer, i));
    }
    Json crossings = Json::array();
    for (const Crossing &crossing : choice.crossings) {
        crossings.push_back({{"fraction", crossing.fraction},
                             {"first_below", name_of(answer, crossing.compounds.first)},
                             {"first_above", name_of(answer, crossing.compounds.second)}});
    }
    return {{"kind", "resolution map"},
            {"modifier", answer.modifier},
            {"systems", answer.systems},
            {"plate_number", answer.question.plate_number},
            {"plate_basis", answer.plate_basis},
            {"k_from", answer.question.window.from},
            {"k_to", answer.question.window.to},
            {"resolution_wanted", answer.question.resolution},
            {"scatter_log_k", choice.scatter ? Json(choice.scatter->deviation) : Json(nullptr)},
            {"measured_from", choice.measured.low},
            {"measured_to", choice.measured.high},
            {"range_from", choice.range.low},
            {"range_to", choice.range.high},
            {"compounds", compounds},
            {"best", run_json(answer, choice.best)},
            {"resolution_off_best", choice.off_best},
            {"fastest", run_json(answer, choice.fastest)},
            {"best_without_window", run_json(answer, choice.unlimited)},
            {"crossings", crossings},
            {"wanted", wanted_json(answer)},
            {"gradient", gradient_json(answer)},
            {"curve", curve_json(answer)},
            {"rule", elution_principle(mechanism_of(answer.question.phase))},
            {"shortfalls", shortfalls(answer)},
            {"warnings", choice.warnings},
            {"remarks", remarks_on_best(answer)},
            {"basis", basis_words(answer)},
            {"notes", answer.notes},
            {"cautions", {kLiquidCaution, kRetentionIsNoProof}}};
}

} // namespace cospot
