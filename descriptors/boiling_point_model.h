#pragma once

#include "descriptors/boiling_point.h"

#include <string>
#include <string_view>
#include <vector>

namespace RDKit {
class ROMol;
}

namespace cospot::descriptors {

/// A linear model of the boiling point in K, fitted by tools/fit-boiling-points and stored in
/// data/boiling_point_model.tsv, whose head states data, date and errors on unseen compounds.
///
/// Why linear: on unseen compounds, ridge regression on groups and on their dilution by size
/// (boiling_point_features.h) was at least as good as a Gaussian process, small neural networks and
/// boosted trees on the same numbers (mean errors of 11, 12, 12 and 17 K in the first trials), and
/// no training structure has to be shipped. Groups and penalty were chosen on the same folds, so
/// the stated errors flatter a little: on 212 compounds of another collection, none of them fitted,
/// the mean absolute error was 10.4 K, Joback's on the same 20.8 K (boiling_point_outside_test.cpp
/// reads that collection).
///
/// The standard error is residual (floor + h)^power exp(crowding c). The leverage h is the squared
/// distance of the features from those of the training set, in the metric of the regression; c is
/// the share of crowded atoms (boiling_point_features.h). It was fitted to errors on compounds that
/// the model was not fitted to: left out one by one; left out with all that have the same group;
/// and tiny and rare structures with published boiling points (tools/fit-boiling-points-rare.tsv).
/// At least 90 % lie within 1.645 and 95 % within 2 standard errors, the rare ones somewhat less.
struct BoilingPointModel {
    double intercept_kelvin = 0.0;
    std::vector<double> coefficients; ///< K per feature, in the order of the features
    double residual_kelvin = 0.0;
    double leverage_floor = 0.0;
    double leverage_power = 0.0;
    double crowding = 0.0;
    std::vector<double> centre;   ///< of the features
    std::vector<double> leverage; ///< lower triangle, row by row, of the matrix M in h = d' M d
    double fewest_heavy_atoms = 0.0;
    double most_heavy_atoms = 0.0;
};

/// Reads rows (kind, name, values). Throws std::logic_error where they do not fit the names.
[[nodiscard]] BoilingPointModel read_boiling_point_model(std::string_view table,
                                                         const std::vector<std::string> &names);

/// The model's value and standard error. Missing without carbon, where an atom is in no group of
/// the training set (metals, charges other than nitro's, boron, ...) and outside the range of heavy
/// atoms that the training set spans.
[[nodiscard]] BoilingPoint modelled_boiling_point(const RDKit::ROMol &molecule);

} // namespace cospot::descriptors
