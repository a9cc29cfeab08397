#pragma once

#include "library/database.h"
#include "library/measurements.h"
#include "model/matcher/likelihood.h"
#include "model/matcher/system_model.h"
#include "shared/quantity.h"

#include <span>
#include <vector>

namespace cospot {

/// The model that values of one system and quantity are fitted by, those of a compound together;
/// compounds are numbered as the values have it.
[[nodiscard]] matcher::SystemModel fit_held(Technique technique, Quantity quantity,
                                            const std::vector<library::HeldValue> &held);

/// The model with `numbers[c]` for the compound c.
[[nodiscard]] matcher::SystemModel renumbered(matcher::SystemModel model,
                                              const std::vector<std::size_t> &numbers);

/// The model of all values that the library holds, its compounds numbered by their ids. What the
/// library keeps of an earlier fit is taken where no value changed since.
[[nodiscard]] matcher::SystemModel fitted_system(library::Database &database,
                                                 library::SystemId system, Quantity quantity);

/// The same without most of the candidates that cannot have shown any of the observations, whatever
/// shift of the run is estimated; those are only counted. All candidates where the library keeps no
/// fit of today's values, and for R_F, which may be censored.
[[nodiscard]] matcher::SystemModel
fitted_within_reach(library::Database &database, library::SystemId system, Quantity quantity,
                    std::span<const matcher::Observation> observations);

/// Fits what has no up-to-date fit, and keeps the fits in the library: for the end of a command
/// that changed values, after it said what it did. One transaction of its own; where there is no
/// room for it, the library does without. An interruption throws Interrupted, which says that the
/// change before is stored.
void keep_fits(library::Database &database);

} // namespace cospot
