#include "evidence/two_columns.h"

#include "evidence/input_features.h"
#include "evidence/peak_pairs.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <set>
#include <utility>
#include <vector>

namespace cospot {

namespace {

/// The peaks of one column in the order of elution.
struct Elution {
    std::vector<Feature *> peaks;
    std::vector<double> areas;
    double total = 0.0;
};

Elution elution_of(FeatureSet &set, const std::string &which) {
    Elution found;
    for (Feature &feature : set.features) {
        const Where where =
            feature.observations.empty() ? Where{} : feature.observations.front().where;
        if (feature.run != set.features.front().run || !feature.retention_time_min) {
            throw InputError(where, "peaks on two columns, but " + which + " is not one run",
                             "one chromatogram for each column");
        }
        if (feature.area.value_or(0.0) <= 0.0) {
            throw InputError({where.file, where.line, "area"},
                             fmt::format("no area of peak {} on {}", feature.name, which),
                             "an area above 0 for each peak: peaks of two columns are paired by "
                             "area and order");
        }
        found.peaks.push_back(&feature);
    }
    std::stable_sort(found.peaks.begin(), found.peaks.end(),
                     [](const Feature *a, const Feature *b) {
                         return *a->retention_time_min < *b->retention_time_min;
                     });
    for (const Feature *peak : found.peaks) {
        found.areas.push_back(*peak->area);
        found.total += *peak->area;
    }
    return found;
}

/// "the first column", or its system where a peak was read on one.
std::string column_name(const FeatureSet &set, const char *otherwise) {
    for (const Feature &feature : set.features) {
        if (!feature.observations.empty()) {
            return feature.observations.front().system;
        }
    }
    return otherwise;
}

void join(Feature &first, Feature &second, const PairedPeak &pair) {
    first.pair = pair;
    std::move(second.observations.begin(), second.observations.end(),
              std::back_inserter(first.observations));
    for (std::string &warning : second.warnings) {
        first.warnings.push_back(pair.system + ": " + std::move(warning));
    }
}

/// Those of the second column that have no partner, under names that the first does not use.
void add_alone(FeatureSet &all, const Elution &second, const std::set<std::size_t> &paired,
               const std::string &column) {
    const std::string run = all.features.front().run;
    const std::string sample = all.features.front().sample;
    for (std::size_t j = 0; j < second.peaks.size(); ++j) {
        if (paired.count(j) == 0) {
            Feature feature = std::move(*second.peaks[j]);
            feature.name += " on " + column;
            feature.lane = column; // what lies alone there may be a compound that is seen here, too
            feature.run = run;
            feature.sample = sample;
            all.features.push_back(std::move(feature));
        }
    }
}

} // namespace

FeatureSet on_two_columns(FeatureSet first, FeatureSet second, const std::string &file) {
    const std::string first_column = column_name(first, "the first column");
    const std::string second_column = column_name(second, "the second column");
    if (first_column == second_column) {
        throw InputError({file, 0, ""}, "both columns are " + in_quotes(first_column),
                         "another system for --second-system");
    }
    const Elution before = elution_of(first, first_column);
    const Elution after = elution_of(second, second_column);
    const std::vector<PeakPair> pairs = pair_peaks(before.areas, after.areas);
    std::set<std::size_t> paired;
    for (const PeakPair &pair : pairs) {
        Feature &other = *after.peaks[pair.second];
        join(*before.peaks[pair.first], other,
             {.name = other.name,
              .system = second_column,
              .retention_time_min = *other.retention_time_min,
              .area = *other.area,
              .percent = 100 * *other.area / after.total,
              .first_percent = 100 * before.areas[pair.first] / before.total,
              .probability = pair.probability,
              .trace = other.trace});
        paired.insert(pair.second);
    }
    const std::size_t on_first = before.peaks.size();
    add_alone(first, after, paired, second_column);
    for (RunStandard &standard : second.standards) {
        standard.run = first.features.front().run;
    }
    second.features.clear();
    second.scales.clear();
    append(first, std::move(second));
    first.notes.push_back(fmt::format(
        "{} on {} and {} on {} were paired by area and order: {}. A pair is likely, not certain; "
        "peaks without a partner are judged on their own column",
        counted(on_first, "peak"), first_column, counted(after.peaks.size(), "peak"), second_column,
        counted(pairs.size(), "pair")));
    return first;
}

} // namespace cospot
