#include "purity/detectors.h"

#include "evidence/compound_traits.h"
#include "purity/detector_table.h"
#include "quantities/element_counts.h"
#include "quantities/stains.h"
#include "shared/embedded_table.h"
#include "shared/table.h"
#include "shared/text.h"

#include <algorithm>
#include <sstream>

namespace cospot::purity {

namespace {

std::vector<std::string> listed_parts(std::string_view text) {
    std::vector<std::string> parts;
    while (!text.empty()) {
        const std::string_view part = text.substr(0, text.find(','));
        text.remove_prefix(std::min(text.size(), part.size() + 1));
        parts.emplace_back(trimmed(part));
    }
    return parts;
}

std::vector<Detector> read_detectors() {
    std::istringstream in{std::string(without_comments(kDetectorTable))};
    TableReader table(in, "detectors.tsv",
                      {{"detector", true},
                       {"techniques", true},
                       {"with_all", true},
                       {"with_any", true},
                       {"groups", true},
                       {"unseen", true},
                       {"why", true},
                       {"blind", true}});
    std::vector<Detector> all;
    while (table.next()) {
        Detector detector;
        detector.name = table.required_text("detector", "the name of a detector");
        for (const std::string &technique : listed_parts(table.text("techniques"))) {
            detector.techniques.push_back(technique_from_text(technique).value());
        }
        detector.with_all = listed_parts(table.text("with_all"));
        detector.with_any = listed_parts(table.text("with_any"));
        for (std::string &group : listed_parts(table.text("groups"))) {
            detector.groups.insert(std::move(group));
        }
        detector.unseen = listed_parts(table.text("unseen"));
        detector.why = table.text("why");
        detector.blind = table.required_text("blind", "what the detector does not show");
        all.push_back(std::move(detector));
    }
    return all;
}

bool hardly_absorbs(const std::optional<library::Description> &description) {
    return description && seen_probability(uv254(), reacting_groups(*description)) < 0.5;
}

bool has_a_group(const Detector &detector, const library::Description &description) {
    return std::any_of(description.groups.begin(), description.groups.end(),
                       [&](const auto &group) { return detector.groups.contains(group.first); });
}

} // namespace

const std::vector<Detector> &detectors() {
    static const std::vector<Detector> all = read_detectors();
    return all;
}

const Detector *find_detector(std::string_view name) {
    const auto found =
        std::find_if(detectors().begin(), detectors().end(), [&](const Detector &detector) {
            return equal_ignoring_case(detector.name, name);
        });
    return found == detectors().end() ? nullptr : &*found;
}

std::string detector_names(std::optional<Technique> technique) {
    std::vector<std::string> names;
    for (const Detector &detector : detectors()) {
        if (!technique || std::find(detector.techniques.begin(), detector.techniques.end(),
                                    *technique) != detector.techniques.end()) {
            names.push_back(detector.name);
        }
    }
    std::string text;
    for (std::size_t i = 0; i < names.size(); ++i) {
        text += (i == 0 ? "" : i + 1 == names.size() ? " or " : ", ") + names[i];
    }
    return text;
}

std::string why_hardly_seen(const Detector &detector, const library::Compound &compound,
                            const std::optional<library::Description> &description) {
    if (detector.name == "uv") {
        return hardly_absorbs(description) ? detector.why : "";
    }
    const auto elements = element_counts(compound.formula);
    if (!elements) {
        return "";
    }
    const auto holds = [&](const std::string &element) { return elements->contains(element); };
    const bool has_all = std::all_of(detector.with_all.begin(), detector.with_all.end(), holds);
    const bool needs_one = !detector.with_any.empty() || !detector.groups.empty();
    const bool has_one =
        std::any_of(detector.with_any.begin(), detector.with_any.end(), holds) ||
        (!detector.groups.empty() && (!description || has_a_group(detector, *description)));
    const bool is_unseen = std::find(detector.unseen.begin(), detector.unseen.end(),
                                     compound.formula) != detector.unseen.end();
    return !has_all || (needs_one && !has_one) || is_unseen ? detector.why : "";
}

} // namespace cospot::purity
