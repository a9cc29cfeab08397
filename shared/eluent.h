#pragma once

#include "shared/error.h"

#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// One solvent of a mobile phase with its share of the volume.
struct SolventPart {
    std::string solvent;
    double parts; ///< volume parts as written, e.g. 3 of "3:1"
};

/// Reads a mobile phase as laboratories write it (common practice, no source):
/// - names and volume parts, "hexane:ethyl acetate 3:1", "PE/EE 4/1", "4:1 PE-EE", "EE 4:1 PE".
///   ':', '/' and '+' divide names; '-' and a blank do where both sides are known solvents
///   (`known_solvent`). A boiling range ("PE 40/60") belongs to its name;
/// - "20 % EtOAc in hexane";
/// - behind either, what is added in per cent of the mixture: "DCM/MeOH 95:5 + 1 % Et3N".
/// A text in which nothing of that is found ("helium", "acetone") is one solvent, 1 part.
/// Throws InputError where names and parts do not match, or a part is not above 0 or above a
/// million.
[[nodiscard]] std::vector<SolventPart> parse_eluent(std::string_view text, const Where &where);

/// The volume fraction of each part; they sum to 1.
[[nodiscard]] std::vector<double> volume_fractions(const std::vector<SolventPart> &eluent);

/// The solvents of which nothing is known but the name that they have here, as they are written.
[[nodiscard]] std::vector<std::string> unknown_solvents(const std::vector<SolventPart> &eluent);

/// Without the bases and acids that are added against tailing: up to 5 % of triethylamine,
/// diethylamine, pyridine, ammonia, or acetic, formic or trifluoroacetic acid (common practice, no
/// source). They tell little of what the other solvents do.
[[nodiscard]] std::vector<SolventPart> without_additives(const std::vector<SolventPart> &eluent);

} // namespace cospot
