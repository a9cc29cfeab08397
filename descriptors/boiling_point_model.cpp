#include "descriptors/boiling_point_model.h"

#include "descriptors/boiling_point_features.h"
#include "descriptors/boiling_point_tables.h"
#include "descriptors/pattern_table.h"
#include "shared/number.h"

#include <GraphMol/GraphMol.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <stdexcept>

namespace cospot::descriptors {

namespace {

/// The rows of one kind: name -> numbers, or the one number.
class ModelTable {
public:
    explicit ModelTable(std::string_view table) {
        for (const std::vector<std::string> &row : table_rows(table, 3)) {
            values_[row[0] + ' ' + row[1]] = numbers_in(row[2]);
        }
    }

    [[nodiscard]] const std::vector<double> &numbers(const std::string &key) const {
        const auto found = values_.find(key);
        if (found == values_.end() || found->second.empty()) {
            throw std::logic_error("the boiling-point model lacks " + key);
        }
        return found->second;
    }

    [[nodiscard]] double number(const std::string &key) const { return numbers(key).front(); }

private:
    static std::vector<double> numbers_in(std::string_view text) {
        std::vector<double> numbers;
        while (!text.empty()) {
            const std::string_view word = text.substr(0, text.find(' '));
            text.remove_prefix(std::min(text.size(), word.size() + 1));
            numbers.push_back(number_from_text(word).value());
        }
        return numbers;
    }

    std::map<std::string, std::vector<double>> values_;
};

/// d' M d of the differences d from the centre.
double leverage_of(const BoilingPointModel &model, const std::vector<double> &features) {
    double sum = 0.0;
    auto entry = model.leverage.begin();
    for (std::size_t row = 0; row < model.centre.size(); ++row) {
        const double difference = features[row] - model.centre[row];
        for (std::size_t column = 0; column <= row; ++column, ++entry) {
            const double both = difference * (features[column] - model.centre[column]) * *entry;
            sum += column == row ? both : 2.0 * both;
        }
    }
    return std::max(sum, 0.0);
}

double standard_error(const BoilingPointModel &model, const BoilingPointFeatures &features) {
    return model.residual_kelvin *
           std::pow(model.leverage_floor + leverage_of(model, features.values),
                    model.leverage_power) *
           std::exp(model.crowding * features.crowded);
}

bool has_carbon(const RDKit::ROMol &molecule) {
    for (const RDKit::Atom *atom : molecule.atoms()) {
        if (atom->getAtomicNum() == 6) {
            return true;
        }
    }
    return false;
}

std::string outside(const BoilingPointModel &model, const RDKit::ROMol &molecule) {
    if (!has_carbon(molecule)) {
        return "no carbon";
    }
    const unsigned heavy_atoms = molecule.getNumHeavyAtoms();
    if (heavy_atoms < model.fewest_heavy_atoms || heavy_atoms > model.most_heavy_atoms) {
        return fmt::format("{} heavy atoms; the model was fitted to {} to {}", heavy_atoms,
                           model.fewest_heavy_atoms, model.most_heavy_atoms);
    }
    return {};
}

} // namespace

BoilingPointModel read_boiling_point_model(std::string_view table,
                                           const std::vector<std::string> &names) {
    const ModelTable rows(table);
    BoilingPointModel model;
    model.intercept_kelvin = rows.number("constant intercept");
    model.residual_kelvin = rows.number("constant residual");
    model.leverage_floor = rows.number("constant leverage_floor");
    model.leverage_power = rows.number("constant leverage_power");
    model.crowding = rows.number("constant crowding");
    model.fewest_heavy_atoms = rows.number("constant fewest_heavy_atoms");
    model.most_heavy_atoms = rows.number("constant most_heavy_atoms");
    for (const std::string &name : names) {
        model.coefficients.push_back(rows.number("coefficient " + name));
        model.centre.push_back(rows.number("centre " + name));
        const std::vector<double> &row = rows.numbers("leverage " + name);
        if (row.size() != model.centre.size()) {
            throw std::logic_error("the boiling-point model's leverage is no triangle at " + name);
        }
        model.leverage.insert(model.leverage.end(), row.begin(), row.end());
    }
    return model;
}

BoilingPoint modelled_boiling_point(const RDKit::ROMol &molecule) {
    static const BoilingPointModel model =
        read_boiling_point_model(kBoilingPointModel, boiling_point_feature_names());
    if (std::string reason = outside(model, molecule); !reason.empty()) {
        return {{}, {}, std::move(reason)};
    }
    const BoilingPointFeatures features = boiling_point_features(molecule);
    if (!features.missing.empty()) {
        return {{}, {}, features.missing};
    }
    const double kelvin = std::inner_product(features.values.begin(), features.values.end(),
                                             model.coefficients.begin(), model.intercept_kelvin);
    return {kelvin, standard_error(model, features), {}};
}

} // namespace cospot::descriptors
