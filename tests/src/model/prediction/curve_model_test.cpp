#include "model/prediction/curve_model.h"
#include "synthetic_table.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace cospot::prediction {
namespace {

/// The same model without its short cuts: all values of a table at once.
struct Dense {
    Eigen::MatrixXd covariance; ///< of the values, noise included
    Eigen::VectorXd values;
    std::vector<std::size_t> compound;
    std::vector<Eigen::Index> mixture;
};

Dense dense_of(const CurveModel &model) {
    Dense dense;
    std::vector<double> values;
    for (std::size_t c = 0; c < model.values.compounds.size(); ++c) {
        const CompoundValues &own = model.values.compounds[c];
        for (std::size_t i = 0; i < own.mixtures.size(); ++i) {
            dense.compound.push_back(c);
            dense.mixture.push_back(own.mixtures[i]);
            values.push_back(own.values[static_cast<Eigen::Index>(i)]);
        }
    }
    const auto size = static_cast<Eigen::Index>(values.size());
    dense.values = Eigen::Map<Eigen::VectorXd>(values.data(), size);
    const Eigen::MatrixXd shared = model.basis * model.basis.transpose();
    dense.covariance.resize(size, size);
    for (std::size_t i = 0; i < values.size(); ++i) {
        for (std::size_t j = 0; j < values.size(); ++j) {
            const auto a = static_cast<Eigen::Index>(dense.compound[i]);
            const auto b = static_cast<Eigen::Index>(dense.compound[j]);
            dense.covariance(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) =
                model.kernel(a, b) * shared(dense.mixture[i], dense.mixture[j]) +
                (a == b ? model.own(dense.mixture[i], dense.mixture[j]) : 0.0) +
                (i == j ? model.parameters.noise : 0.0);
        }
    }
    return dense;
}

/// Mean and covariance of a compound's curve by the dense model, given the values `known`.
Curve dense_curve(const CurveModel &model, const Dense &dense, const Eigen::VectorXd &cross,
                  double self, const std::vector<Eigen::Index> &known) {
    const Eigen::MatrixXd shared = model.basis * model.basis.transpose();
    Eigen::MatrixXd link(static_cast<Eigen::Index>(known.size()), shared.rows());
    for (std::size_t i = 0; i < known.size(); ++i) {
        const auto row = static_cast<std::size_t>(known[i]);
        link.row(static_cast<Eigen::Index>(i)) =
            cross[static_cast<Eigen::Index>(dense.compound[row])] * shared.row(dense.mixture[row]);
    }
    const Eigen::LLT<Eigen::MatrixXd> factor(dense.covariance(known, known));
    const double unit = model.values.unit;
    return {model.values.offsets +
                unit * link.transpose() * factor.solve(dense.values(known).eval()),
            unit * unit * (self * shared + model.own - link.transpose() * factor.solve(link))};
}

/// A table with gaps, a replicate and a compound without values.
RetentionTable ragged_table() {
    std::mt19937 generator(3);
    RetentionTable table = draw_table(9, {0.1, 0.3, 0.5, 0.8}, {}, generator).table;
    std::erase_if(table.values, [](const RetentionValue &value) {
        return value.compound == 4 || (value.compound + value.mixture) % 3 == 0;
    });
    table.values.push_back({1, 1, 1.5});
    table.values.push_back({1, 1, 1.6});
    return table;
}

Eigen::MatrixXd kernel_of(const RetentionTable &table) {
    const DescriptorScale scale = fit_scale(table.compounds);
    return compound_kernel(compare_compounds(scale, table.compounds, table.compounds), {});
}

/// The left-out curves of some compounds of a table are those of the dense model without them.
void expect_left_out(const RetentionTable &table, const std::vector<std::size_t> &compounds) {
    const CurveModel model = fit_curves(table, kernel_of(table), {});
    const Dense dense = dense_of(model);
    const std::vector<Curve> closed = left_out_curves(model);
    ASSERT_EQ(closed.size(), table.compounds.size());
    for (const std::size_t out : compounds) {
        std::vector<Eigen::Index> others;
        for (std::size_t i = 0; i < dense.compound.size(); ++i) {
            if (dense.compound[i] != out) {
                others.push_back(static_cast<Eigen::Index>(i));
            }
        }
        const auto column = static_cast<Eigen::Index>(out);
        const Curve expected = dense_curve(model, dense, model.kernel.col(column),
                                           model.kernel(column, column), others);
        EXPECT_LT((closed[out].mean - expected.mean).norm(), 1e-5) << out;
        EXPECT_LT((closed[out].covariance - expected.covariance).norm(), 1e-5) << out;
    }
}

TEST(CurveModel, LeavesACompoundOutAsIfFittedWithoutIt) {
    expect_left_out(ragged_table(), {0, 1, 2, 3, 4, 5, 6, 7, 8});
}

TEST(CurveModel, LeavesOutInEveryPanelAlike) {
    std::mt19937 generator(5);
    expect_left_out(draw_table(70, {0.1, 0.3, 0.5}, {}, generator).table, // some panels
                    {0, 1, 20, 21, 31, 32, 33, 41, 42, 63, 64, 68, 69});
}

TEST(CurveModel, PredictsAsTheDenseProcessDoes) {
    RetentionTable table = ragged_table();
    const Eigen::MatrixXd kernel = kernel_of(table);
    const CurveModel model = fit_curves(table, kernel, {});
    const Dense dense = dense_of(model);
    std::vector<Eigen::Index> all(dense.compound.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
        all[i] = static_cast<Eigen::Index>(i);
    }
    const Eigen::VectorXd cross = 0.5 * kernel.col(2) + 0.2 * kernel.col(4);
    const Curve expected = dense_curve(model, dense, cross, 0.9, all);
    const Curve curve = predict_curve(model, cross, 0.9);
    EXPECT_LT((curve.mean - expected.mean).norm(), 1e-5);
    EXPECT_LT((curve.covariance - expected.covariance).norm(), 1e-5);
}

} // namespace
} // namespace cospot::prediction
