#pragma once

#include "document/json.h"
#include "pool/pool_result.h"

namespace cospot {

/// The advice as objects: one a component, in the order in which they leave, then one
/// with the pools and all that a picture of the column needs.
///
/// A component: record "component"; component (its letter); rf, rf_low, rf_high (null of a trace);
/// first, last (fractions); target (whether it is the wanted one); spots, one a fraction: fraction,
/// state, rf, intensity; one_spot, mixed, missed, weak_edges: numbers of fractions; not_seen:
/// ranges {first,last} within the band; recovery: null, or one_spot (share of its intensity in its
/// one-spot fractions), with_mixed (in all its fractions: 1), by_volume, lower_bound;
/// one_spot_mass, one_spot_volume, mixed_mass: null, or total (mg, mL), known and of (fractions);
/// candidates: rank, compound, inchikey, probability; groups: compounds,
/// probability, more (members that are not listed); unlisted (null without --system).
///
/// The last object: record "pools"; source ("plates" or "trace"); pools: component, fractions,
/// mass, volume, recovery of what to combine; mixed: components, fractions, mass, volume;
/// no_spot; not_seen; open_start, open_end: components that the first or last fraction looked at
/// shows, which may reach beyond it; fractions: fraction, state ("no spot", "one spot", "mixed"),
/// plates, signal, mass_mg, volume_mL, spots (component, rf, intensity); target: null, or asked,
/// component, probability, fault; tolerance, threshold, loaded_mg (null where they have no
/// meaning); collected: null, or total (mg of all fractions), known, of; warnings: kind,
/// components, fractions (ranges), text; needs_attention; notes; cautions.
[[nodiscard]] Json pool_json(const PoolResult &result);

} // namespace cospot
