#pragma once

#include "model/matcher/candidate_density.h"
#include "model/matcher/system_model.h"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace cospot::matcher {

/// Share of a candidate's density that may lie outside its reach. What is left out of a ranking of
/// that kind is less than this in sum. Kept fits rest on it: see `kFitVersion`.
inline constexpr double kOutOfReach = 1e-4;

/// So many candidates on each side of an observation count as near it, however far they are.
inline constexpr std::size_t kClosest = 10;

/// How far from an observation candidates of a system can lie that may have shown it.
struct Reach {
    double farthest = 0.0; ///< of the candidates' own reaches, model scale
    double widest = 0.0;   ///< the same in scales of the candidate, or of the reading's error

    /// Distance on the model scale within which all candidates are that may have shown a reading;
    /// `error` is the reading's own (`error_of`), `extra` as in `NearbyCandidates::near`.
    [[nodiscard]] double width(double error, double extra) const;
};

/// The candidates of a system in the order of location, so that those near an observation are found
/// without going through all of them. Made anew when the model changes.
class NearbyCandidates {
public:
    explicit NearbyCandidates(const SystemModel &system);

    /// Positions in the system's candidates, in any order, of those that may have shown a value:
    /// all within their reach of it, and the ten closest on both sides. All candidates for a
    /// censored value, and always those that the library only holds as censored. `uncertainty` is
    /// in the unit of the quantity; `shift` is where the run lies and `extra` by how much it may
    /// lie elsewhere, both on the model scale.
    [[nodiscard]] std::vector<std::uint32_t> near(double value, double uncertainty,
                                                  double shift = 0.0, double extra = 0.0) const;

    /// The same for all that a run may show by a mixture of shifts.
    [[nodiscard]] std::vector<std::uint32_t> near(double value, double uncertainty,
                                                  const ShiftMixture &shifts) const;

    [[nodiscard]] const Reach &reach() const { return reach_; }

private:
    struct Place {
        double location;
        double scale;
        float reach; ///< in scales
        std::uint32_t position;
    };

    Quantity quantity_;
    std::size_t size_;                    ///< of the system's candidates
    std::vector<Place> places_;           ///< by location
    std::vector<std::uint32_t> censored_; ///< positions
    Reach reach_;
    double reach_of_reading_ = 0.0; ///< of its own error, in its standard uncertainties
};

} // namespace cospot::matcher
