#pragma once

#include "model/matcher/retention_scale.h"
#include "model/matcher/run_shift.h"
#include "shared/quantity.h"

#include <cstddef>

namespace cospot::matcher {

/// Where a candidate's expected value comes from.
enum class Basis {
    same_run,    ///< on this very plate or in this very run, as a standard beside the sample
    measured,    ///< on this very system
    transferred, ///< from the compound's values on other systems
    predicted,   ///< from structure
};

/// What a known compound is expected to show on a system: a Student t on the model scale.
/// An R_F that was always censored in the library is expected to be censored again.
struct CandidateDensity {
    std::size_t compound = 0; ///< index of the compound in the problem
    Basis basis = Basis::measured;
    double location = 0.0;              ///< model scale
    double scale = 0.0;                 ///< model scale; the uncertainty of the mean is in it
    double freedom = 0.0;               ///< degrees of freedom
    double log_constant = 0.0;          ///< `student_t_constant(freedom)` of shared/student_t.h
    double mean = 0.0;                  ///< in the unit of the quantity
    double mean_uncertainty = 0.0;      ///< standard uncertainty of the mean, in the same unit
    std::size_t runs = 0;               ///< independent runs behind the mean
    Censoring always = Censoring::none; ///< all values of the library stand at this end
    bool disagrees = false;             ///< its values lie apart: one may be mislabelled
};

/// A candidate as one reading of a certain uncertainty would show it: the reading's own error joins
/// the spread (`as_read`), so that a reading that tells nothing is as likely whatever the compound.
class ReadCandidate {
public:
    /// `value` and `uncertainty` (standard, of the reading) in the unit of the quantity; the
    /// candidate must outlive this.
    ReadCandidate(const CandidateDensity &candidate, Quantity quantity, double value,
                  double uncertainty);

    /// Natural logarithm of the density (on the model scale) of the reading in a run that lies so,
    /// or of its probability where the reading is censored.
    [[nodiscard]] double log_density(const RunShift &shift) const;

    /// Probability of a smaller value than the one that was read.
    [[nodiscard]] double probability_below(const RunShift &shift) const;

private:
    [[nodiscard]] double scale(const RunShift &shift) const;
    [[nodiscard]] double standardised(const RunShift &shift, double x) const;
    [[nodiscard]] double probability_at_end(const RunShift &shift) const;

    const CandidateDensity *held_;
    double error_; ///< of the reading, model scale
    Censoring end_;
    double x_; ///< the reading, model scale
    CandidateDensity read_;
};

/// The same for one way in which the run may lie.
[[nodiscard]] double log_density(const CandidateDensity &candidate, Quantity quantity, double value,
                                 double uncertainty, const RunShift &shift = {});
[[nodiscard]] double probability_below(const CandidateDensity &candidate, Quantity quantity,
                                       double value, double uncertainty,
                                       const RunShift &shift = {});

/// Predictive standard spread in the unit of the quantity, at the candidate's mean.
[[nodiscard]] double spread_in_units(const CandidateDensity &candidate, Quantity quantity,
                                     double uncertainty, const RunShift &shift = {});

/// Share of the predictive densities that two candidates have in common, 0 to 1.
[[nodiscard]] double overlap(const CandidateDensity &a, const CandidateDensity &b);

/// The overlap cannot be larger, whatever the degrees of freedom (from 1): at a point between the
/// means, as many scales from one as from the other, each density has no more beyond it than
/// Cauchy's. Quickly computed; 1 for censored candidates.
[[nodiscard]] double most_overlap(const CandidateDensity &a, const CandidateDensity &b);

} // namespace cospot::matcher
