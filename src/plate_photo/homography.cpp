#include "plate_photo/homography.h"

#include <Eigen/Dense>

#include <stdexcept>

namespace cospot::plate_photo {

Homography homography(const Corners &from, const Corners &to) {
    Eigen::Matrix<double, 8, 8> equations;
    Eigen::Matrix<double, 8, 1> values;
    for (std::size_t i = 0; i < 4; ++i) {
        const auto row = static_cast<Eigen::Index>(2 * i);
        const auto [x, y] = from[i];
        const auto [u, v] = to[i];
        equations.row(row) << x, y, 1, 0, 0, 0, -u * x, -u * y;
        equations.row(row + 1) << 0, 0, 0, x, y, 1, -v * x, -v * y;
        values(row) = u;
        values(row + 1) = v;
    }
    const Eigen::FullPivLU<Eigen::Matrix<double, 8, 8>> solver(equations);
    if (!solver.isInvertible()) {
        throw std::invalid_argument("three corners on a line");
    }
    const Eigen::Matrix<double, 8, 1> solution = solver.solve(values);
    Homography map;
    for (std::size_t i = 0; i < 8; ++i) {
        map.rows[i] = solution(static_cast<Eigen::Index>(i));
    }
    return map;
}

Place mapped(const Homography &map, Place place) {
    const auto &h = map.rows;
    const double w = h[6] * place.x + h[7] * place.y + h[8];
    return {(h[0] * place.x + h[1] * place.y + h[2]) / w,
            (h[3] * place.x + h[4] * place.y + h[5]) / w};
}

} // namespace cospot::plate_photo
