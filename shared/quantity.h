#pragma once

#include "shared/error.h"

#include <optional>
#include <string>
#include <string_view>

namespace cospot {

/// What a retention value measures. Symbols as in IUPAC's nomenclature for chromatography
/// (Pure Appl. Chem. 1993, 65, 819); there the unadjusted relative retention is r_G.
enum class Quantity {
    Rf,  ///< retardation factor R_F, 0 (at the start) to 1 (at the front)
    k,   ///< retention factor, dimensionless, from 0
    RI,  ///< retention index on the system's scale
    tR,  ///< retention time, min
    RRT, ///< unadjusted relative retention t_R / t_R(reference)
    r,   ///< relative retention t'_R / t'_R(reference), of times less the hold-up time
};

/// How the retention was measured.
enum class Technique { tlc, paper, column, hplc, gc };

/// Whether a technique can show the quantity: R_F on plates and paper, all others elsewhere.
[[nodiscard]] bool can_show(Technique technique, Quantity quantity);

/// Whether the value is relative to the reference compound of its system.
[[nodiscard]] bool is_relative(Quantity quantity);

[[nodiscard]] std::string_view to_text(Quantity quantity);
[[nodiscard]] std::string_view to_text(Technique technique);
/// As it is written in a sentence: "TLC", "HPLC", "paper".
[[nodiscard]] std::string_view in_words(Technique technique);
[[nodiscard]] std::optional<Quantity> quantity_from_text(std::string_view text);
[[nodiscard]] std::optional<Technique> technique_from_text(std::string_view text);

/// Throws InputError unless the value is physically possible: k and R_F from 0, the others above 0,
/// R_F up to 1, an index up to 20 000, the others up to 100 000. A reading error lets R_F stray by
/// 0.02 beyond 0 and 1; such a value is kept as read.
void check_physical(Quantity quantity, double value, const Where &where);

/// Whether `check_physical` lets it pass.
[[nodiscard]] bool is_physical(Quantity quantity, double value);

/// The value with the digits that the quantity deserves and no unit: R_F 0.42, RI 1099.3,
/// RRT 0.450.
[[nodiscard]] std::string shown(Quantity quantity, double value);

} // namespace cospot
