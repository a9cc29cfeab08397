#pragma once

#include "quantities/uncertain.h"

#include <string>
#include <vector>

namespace cospot::quantities {

/// A reference compound run on the same plate as the unknowns. A compound spotted in several lanes
/// is one reference: average its readings first.
struct PlateReference {
    std::string compound;
    Uncertain measured_rf;  ///< read on this plate
    Uncertain reference_rf; ///< accepted value of the system
};

/// Sorts the references by measured R_F. Throws InputError, naming the compounds, where two
/// measured values coincide or the accepted values do not rise strictly with the measured ones, and
/// for a reference that lies at the start or front (R_F 0 or 1) or has a negative uncertainty.
[[nodiscard]] std::vector<PlateReference>
ordered_references(std::vector<PlateReference> references);

/// R_F corrected through references on the same plate: linear between the two neighbours, with
/// 0 -> 0 at the start and 1 -> 1 at the front as outer anchors without uncertainty (de Zeeuw,
/// Franke, Degel, Machbert, Schuette, Wijsbeek 1992, DFG/TIAFT tables of R_F values; rule from
/// memory). `ordered` comes from `ordered_references`; without references the value stays.
/// The uncertainty is first order in the observation and in both neighbours' measured and accepted
/// values, taken as independent (JCGM 100:2008, 5.1.2).
/// Throws InputError for a measured R_F outside 0..1 or a negative uncertainty.
[[nodiscard]] Uncertain corrected_rf(const std::vector<PlateReference> &ordered,
                                     Uncertain measured);

} // namespace cospot::quantities
