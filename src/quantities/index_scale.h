#pragma once

#include <optional>
#include <string_view>

namespace cospot::quantities {

/// The homologous series that a retention index counts on. Indices of different scales are never
/// compared. What carbon number counts:
/// - n_alkane: atoms of the alkane (Kovats 1958, Helv. Chim. Acta 41, 1915);
/// - fatty_acid_methyl_ester: carbon atoms of the acid, without the methyl (common practice, no
///   source);
/// - alkyl_aryl_ketone: all carbon atoms, acetophenone 8 (Smith 1982, J. Chromatogr. 236, 313);
/// - nitroalkane_1: carbon atoms of the 1-nitroalkane (Bogusz and Aderjan 1988, J. Chromatogr. 435,
///   43);
/// - ketoalkane_2: all carbon atoms, acetone 3 (Baker and Ma 1979, J. Chromatogr. 169, 107).
enum class IndexScale {
    n_alkane,
    fatty_acid_methyl_ester,
    alkyl_aryl_ketone,
    nitroalkane_1,
    ketoalkane_2
};

/// The scale that a text names, e.g. "n-alkane", "Kovats, alkanes", "linear (n-alkanes C7-C30)",
/// "FAME", "alkyl aryl ketones"; empty if it names none, or more than one. Case, hyphens, plurals,
/// carbon ranges and words about the oven ("isothermal", "temperature-programmed") do not matter.
[[nodiscard]] std::optional<IndexScale> index_scale_from_text(std::string_view text);

/// The name of the scale: "n-alkane", "fatty acid methyl ester", "alkyl aryl ketone",
/// "1-nitroalkane", "2-ketoalkane". `index_scale_from_text` reads each back.
[[nodiscard]] std::string_view to_text(IndexScale scale);

/// A member of one of the series; `carbon` as its scale counts.
struct Homologue {
    IndexScale scale = IndexScale::n_alkane;
    int carbon = 0;
};

/// What a scale text names after "own series:", e.g. "1-bromoalkane" of "own series:
/// 1-bromoalkane": homologues of the laboratory's choice, whose members are known by their carbon
/// numbers alone. Empty where the text names no series of one's own.
[[nodiscard]] std::string_view own_series_of(std::string_view text);

/// The series member that a name means; empty if it is none. Systematic names up to 60 carbon atoms
/// ("n-decane", "methyl octanoate", "octanoic acid methyl ester", "hexanophenone",
/// "1-nitropropane", "butan-2-one"), the usual trivial ones ("methyl caprylate", "acetone") and
/// short forms ("C10" for the alkane, "C8 FAME"). Case, hyphens, commas and blanks do not matter. A
/// name belongs to one scale only; without locant, names that could mean several isomers
/// ("nitropropane", "pentanone") belong to none.
[[nodiscard]] std::optional<Homologue> homologue_from_name(std::string_view name);

} // namespace cospot::quantities
