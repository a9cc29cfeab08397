#pragma once

#include "model/matcher/ranking.h"
#include "model/matcher/system_model.h"

#include <cstdint>
#include <span>
#include <vector>

namespace cospot::matcher {

/// A part of the model scale.
struct Stretch {
    double low = 0.0;
    double high = 0.0;
};

/// The density of what a listed feature shows on a system, whichever compound it is: the
/// candidates' densities with their prior shares, tabulated over a part of the model scale so that
/// a run can be tried at many places. Tails beyond eight spreads are left out.
class ListedDensity {
public:
    /// Of the candidates at `positions`, each blurred by a normal distribution of standard
    /// deviation `blur`; `total_weight` is that of all compounds, these or not.
    ListedDensity(const SystemModel &system, std::span<const std::uint32_t> positions,
                  const Prior &prior, double total_weight, double blur, Stretch stretch);

    /// On the model scale, linear between the points of the table; 0 outside the stretch.
    [[nodiscard]] double at(double x) const;

private:
    double low_;
    double step_;
    std::vector<double> values_;
};

} // namespace cospot::matcher
