#include "model/prediction/mixture_kernel.h"

#include <algorithm>
#include <cmath>

namespace cospot::prediction {

Eigen::MatrixXd mixture_covariance(const MixtureKernel &kernel, const std::vector<Mixture> &rows,
                                   const std::vector<Mixture> &columns) {
    const auto warped = [&](double fraction) {
        return std::log1p(std::max(fraction, 0.0) / kernel.knee) / std::log1p(1.0 / kernel.knee);
    };
    Eigen::MatrixXd covariance(static_cast<Eigen::Index>(rows.size()),
                               static_cast<Eigen::Index>(columns.size()));
    for (std::size_t i = 0; i < rows.size(); ++i) {
        for (std::size_t j = 0; j < columns.size(); ++j) {
            double squares = 0.0;
            for (std::size_t s = 0; s < rows[i].size(); ++s) {
                const double step = warped(rows[i][s]) - warped(columns[j][s]);
                squares += step * step;
            }
            covariance(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) =
                std::exp(-0.5 * squares / (kernel.width * kernel.width));
        }
    }
    return covariance;
}

} // namespace cospot::prediction
