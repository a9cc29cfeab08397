#include "model/prediction/retention_table.h"

#include <algorithm>
#include <cmath>

namespace cospot::prediction {

namespace {

/// The mean of each mixture; those without values from the ones that have some.
Eigen::VectorXd offsets_of(const RetentionTable &table, const Eigen::MatrixXd &alike) {
    const auto mixtures = static_cast<Eigen::Index>(table.mixtures.size());
    Eigen::VectorXd sums = Eigen::VectorXd::Zero(mixtures);
    Eigen::VectorXd counts = Eigen::VectorXd::Zero(mixtures);
    for (const auto &value : table.values) {
        sums[static_cast<Eigen::Index>(value.mixture)] += value.value;
        counts[static_cast<Eigen::Index>(value.mixture)] += 1.0;
    }
    const Eigen::VectorXd has_values = (counts.array() > 0.0).cast<double>();
    Eigen::VectorXd offsets = sums.array() / counts.array().max(1.0);
    for (Eigen::Index e = 0; e < mixtures; ++e) {
        if (counts[e] == 0.0) {
            // The small number keeps a mixture unlike all others at their plain mean.
            const Eigen::VectorXd weights =
                has_values.array() * (alike.row(e).transpose().array() + 1e-12);
            offsets[e] = weights.dot(offsets) / std::max(weights.sum(), 1e-300);
        }
    }
    return offsets;
}

} // namespace

std::size_t measured_compounds(const RetentionTable &table) {
    std::vector<bool> seen(table.compounds.size(), false);
    for (const auto &value : table.values) {
        seen[value.compound] = true;
    }
    return static_cast<std::size_t>(std::count(seen.begin(), seen.end(), true));
}

RetentionTable part_of(const RetentionTable &table, const std::vector<Eigen::Index> &compounds) {
    RetentionTable part{{}, table.mixtures, {}};
    std::vector<std::size_t> position(table.compounds.size(), compounds.size());
    for (const Eigen::Index compound : compounds) {
        position[static_cast<std::size_t>(compound)] = part.compounds.size();
        part.compounds.push_back(table.compounds[static_cast<std::size_t>(compound)]);
    }
    for (const auto &value : table.values) {
        if (position[value.compound] < compounds.size()) {
            part.values.push_back({position[value.compound], value.mixture, value.value});
        }
    }
    return part;
}

CentredValues centre(const RetentionTable &table, const Eigen::MatrixXd &alike) {
    CentredValues centred;
    centred.offsets = offsets_of(table, alike);
    double squares = 0.0;
    for (const auto &value : table.values) {
        squares +=
            std::pow(value.value - centred.offsets[static_cast<Eigen::Index>(value.mixture)], 2);
    }
    if (squares > 0.0) {
        centred.unit = std::sqrt(squares / static_cast<double>(table.values.size()));
    }
    std::vector<std::vector<double>> values(table.compounds.size());
    centred.compounds.resize(table.compounds.size());
    for (const auto &value : table.values) {
        const auto mixture = static_cast<Eigen::Index>(value.mixture);
        centred.compounds[value.compound].mixtures.push_back(mixture);
        values[value.compound].push_back((value.value - centred.offsets[mixture]) / centred.unit);
    }
    for (std::size_t c = 0; c < values.size(); ++c) {
        centred.compounds[c].values = Eigen::Map<Eigen::VectorXd>(
            values[c].data(), static_cast<Eigen::Index>(values[c].size()));
    }
    return centred;
}

} // namespace cospot::prediction
