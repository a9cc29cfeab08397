#include "identify/identify_files.h"

#include "evidence/input_features.h"
#include "evidence/two_columns.h"
#include "readers/input_file.h"
#include "shared/text.h"

#include <algorithm>
#include <set>
#include <string>
#include <utility>

namespace cospot {

namespace {

/// The name of a run of which another file has one, too.
void name_by_file(FeatureSet &set, const std::string &before) {
    const auto prefix = [&](std::string &name) { name.insert(0, before); };
    for (Feature &feature : set.features) {
        prefix(feature.run);
        prefix(feature.sample);
    }
    for (RunStandard &standard : set.standards) {
        prefix(standard.run);
    }
    for (CoSpot &cospot : set.cospots) {
        prefix(cospot.sample);
    }
}

FeatureSet features_of_one(const std::string &name, const InputSettings &settings,
                           library::Database &database, std::istream &standard_input) {
    InputFile input(name, standard_input);
    return read_features(database, input.read_all(), input.name(), settings, standard_input);
}

} // namespace

FeatureSet features_of_files(const IdentifyOptions &asked, library::Database &database,
                             std::istream &standard_input) {
    if (asked.second_file) {
        return on_two_columns(
            features_of_one(asked.files.front(), asked.input, database, standard_input),
            features_of_one(*asked.second_file, asked.second, database, standard_input),
            *asked.second_file);
    }
    FeatureSet all;
    std::set<std::string> runs;
    std::set<std::string> names;
    for (const std::string &name : asked.files) {
        if (!names.insert(name).second) {
            throw bad_usage(in_quotes(name) + " again", "each file once");
        }
        FeatureSet set = features_of_one(name, asked.input, database, standard_input);
        const bool is_taken =
            std::any_of(set.features.begin(), set.features.end(),
                        [&](const Feature &feature) { return runs.contains(feature.run); });
        if (is_taken) {
            name_by_file(set, name + ": ");
        }
        for (const Feature &feature : set.features) {
            runs.insert(feature.run);
        }
        append(all, std::move(set));
    }
    return all;
}

} // namespace cospot
