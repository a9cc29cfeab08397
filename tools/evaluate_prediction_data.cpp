#include "evaluate_prediction_data.h"

#include "descriptors/retention_features.h"
#include "descriptors/structure.h"
#include "shared/table.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <fstream>
#include <iterator>
#include <map>
#include <random>
#include <set>
#include <sstream>
#include <utility>

namespace cospot::evaluation {

using namespace prediction;

namespace {

/// A row of a data file: which compound in which mixture showed what.
struct Reading {
    std::string smiles;
    std::string label;
    Mixture mixture;
    double value;
};

std::vector<Reading> read_rf(const std::string &path) {
    std::ifstream in(path);
    TableReader table(in, path,
                      {{"smiles", true},
                       {"eluent", true},
                       {"frac_hexane", true},
                       {"frac_EA", true},
                       {"frac_DCM", true},
                       {"frac_MeOH", true},
                       {"frac_Et2O", true},
                       {"Rf", true}});
    std::vector<Reading> readings;
    while (table.next()) {
        Reading reading{std::string(table.text("smiles")),
                        std::string(table.text("eluent")),
                        {},
                        std::clamp(table.number("Rf", "an R_F"), 0.0, 1.0)};
        for (const char *solvent :
             {"frac_hexane", "frac_EA", "frac_DCM", "frac_MeOH", "frac_Et2O"}) {
            reading.mixture.push_back(table.number(solvent, "a volume fraction"));
        }
        readings.push_back(reading);
    }
    return readings;
}

/// The file is Windows-1252; its names, the only text beyond ASCII, are not used.
std::vector<Reading> read_log_k(const std::string &path) {
    std::ifstream file(path);
    std::string text{std::istreambuf_iterator<char>(file), {}};
    std::replace_if(
        text.begin(), text.end(), [](char c) { return (c & '\x80') != 0; }, '?');
    std::istringstream in(text);
    TableReader table(in, path, {{"smiles", true}, {"fi", true}, {"logk", true}});
    std::vector<Reading> readings;
    while (table.next()) {
        const double modifier = std::round(table.number("fi", "a volume fraction") * 100.0) / 100.0;
        readings.push_back({std::string(table.text("smiles")),
                            fmt::format("{:.2f}", modifier),
                            {1.0 - modifier, modifier},
                            table.number("logk", "a log k")});
    }
    return readings;
}

/// Retention times below 1.5 hold-up times, where one is given, say nothing about the compound.
constexpr double kFewestHoldUps = 1.5;

/// Retention times of `rt.csv` on the systems that hold enough structures; labels are the
/// dataset's number and kind.
std::vector<Reading> read_times(const std::string &folder) {
    std::ifstream systems_file(folder + "/systems.csv");
    TableReader systems(systems_file, folder + "/systems.csv",
                        {{"dataset", true}, {"method_type", true}, {"column.t0", true}});
    std::map<std::string, std::pair<std::string, double>> kinds;
    while (systems.next()) {
        kinds[std::string(systems.text("dataset"))] = {
            std::string(systems.text("method_type")),
            systems.text("column.t0").empty() ? 0.0 : systems.number("column.t0", "minutes")};
    }
    std::ifstream times_file(folder + "/rt.csv");
    TableReader times(times_file, folder + "/rt.csv",
                      {{"dataset", true}, {"rt_min", true}, {"smiles_flat", true}});
    std::map<std::string, std::vector<Reading>> by_system;
    while (times.next()) {
        const std::string dataset(times.text("dataset"));
        const auto &[kind, hold_up_min] = kinds.at(dataset);
        const double time_min = times.number("rt_min", "minutes");
        if (time_min >= kFewestHoldUps * hold_up_min && !times.text("smiles_flat").empty()) {
            by_system[dataset].push_back({std::string(times.text("smiles_flat")),
                                          fmt::format("{} {}", dataset, kind),
                                          {},
                                          time_min});
        }
    }
    std::vector<Reading> readings;
    for (const auto &[dataset, rows] : by_system) {
        std::set<std::string> structures;
        for (const Reading &reading : rows) {
            structures.insert(reading.smiles);
        }
        if (structures.size() >= kFewestStructures) {
            readings.insert(readings.end(), rows.begin(), rows.end());
        }
    }
    return readings;
}

/// Indices on the fatty-acid-ester scale of the compounds whose structure is given.
std::vector<Reading> read_index_values(const std::string &folder) {
    std::ifstream compounds_file(folder + "/compounds.csv");
    TableReader compounds(compounds_file, folder + "/compounds.csv",
                          {{"compound", true}, {"smiles", true}});
    std::map<std::string, std::string> smiles;
    while (compounds.next()) {
        smiles[std::string(compounds.text("compound"))] = compounds.text("smiles");
    }
    std::ifstream runs_file(folder + "/true_positive_runs.csv");
    TableReader runs(runs_file, folder + "/true_positive_runs.csv",
                     {{"compound", true}, {"ri", true}});
    std::vector<Reading> readings;
    while (runs.next()) {
        const std::string &structure = smiles[std::string(runs.text("compound"))];
        if (!structure.empty()) {
            readings.push_back(
                {structure, "fatty-acid-ester scale", {}, runs.number("ri", "an index")});
        }
    }
    return readings;
}

/// Folds over structures, from a fixed seed.
std::vector<std::size_t> folds(std::size_t compounds) {
    std::mt19937 generator(20240501);
    std::vector<std::pair<std::uint32_t, std::size_t>> order;
    for (std::size_t i = 0; i < compounds; ++i) {
        order.emplace_back(generator(), i);
    }
    std::sort(order.begin(), order.end());
    std::vector<std::size_t> fold(compounds);
    for (std::size_t i = 0; i < compounds; ++i) {
        fold[order[i].second] = i % kFolds;
    }
    return fold;
}

/// As the program describes a compound.
CompoundFeatures features_of(const std::string &smiles) {
    auto features = descriptors::retention_features(descriptors::read_smiles(smiles).parent_smiles);
    return {std::move(features.descriptors), std::move(features.environments)};
}

Dataset dataset_of(const std::vector<Reading> &readings) {
    std::map<std::string, std::map<std::string, std::vector<double>>> cells;
    std::map<std::string, Mixture> mixtures;
    for (const auto &reading : readings) {
        cells[reading.smiles][reading.label].push_back(reading.value);
        mixtures[reading.label] = reading.mixture;
    }
    Dataset data;
    std::map<std::string, std::size_t> position;
    for (const auto &[label, mixture] : mixtures) {
        position[label] = data.labels.size();
        data.labels.push_back(label);
        data.table.mixtures.push_back(mixture);
    }
    for (const auto &[smiles, row] : cells) {
        const std::size_t compound = data.table.compounds.size();
        data.table.compounds.push_back(features_of(smiles));
        for (const auto &[label, values] : row) {
            double sum = 0.0;
            for (const double value : values) {
                sum += value;
            }
            data.table.values.push_back(
                {compound, position[label], sum / static_cast<double>(values.size())});
        }
    }
    data.fold = folds(data.table.compounds.size());
    return data;
}

} // namespace

Dataset read_plates(const std::string &folder) {
    return dataset_of(read_rf(folder + "/tlc-xu2022/tlc_rf_tidy.csv"));
}

Dataset read_columns(const std::string &folder) {
    return dataset_of(read_log_k(folder + "/hplc-isocratic/isocratic_logk.csv"));
}

Dataset read_gradients(const std::string &folder) {
    return dataset_of(read_times(folder + "/hplc-report"));
}

Dataset read_indices(const std::string &folder) {
    return dataset_of(read_index_values(folder + "/gc-pnnl2023"));
}

RetentionTable training_part(const Dataset &data, std::size_t fold) {
    std::vector<Eigen::Index> compounds;
    for (std::size_t c = 0; c < data.fold.size(); ++c) {
        if (data.fold[c] != fold) {
            compounds.push_back(static_cast<Eigen::Index>(c));
        }
    }
    return part_of(data.table, compounds);
}

} // namespace cospot::evaluation
