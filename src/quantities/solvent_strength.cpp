#include "quantities/solvent_strength.h"

#include "quantities/domain.h"
#include "shared/text.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string>

namespace cospot::quantities {

namespace {

enum class Source { eluotropic_table, snyder_1968, snyder_1978, snyder_1997, by_composition };

struct Citation {
    std::string_view text;
    bool from_memory;
};

Citation citation(Source source) {
    switch (source) {
    case Source::eluotropic_table:
        return {"eluotropic table after L. R. Snyder, J. Chromatogr. 1974, 92, 223", false};
    case Source::snyder_1968:
        return {"L. R. Snyder, Principles of Adsorption Chromatography (1968)", true};
    case Source::snyder_1978:
        return {"L. R. Snyder, J. Chromatogr. Sci. 1978, 16, 223", true};
    case Source::snyder_1997:
        return {
            "L. R. Snyder, J. J. Kirkland, J. L. Glajch, Practical HPLC Method Development (1997)",
            true};
    case Source::by_composition:
        break;
    }
    return {"as pentane and hexane, of which it consists (common practice, no source)", true};
}

struct Value {
    double value;
    double tolerance;
    Source source;
};

using OptionalValue = std::optional<Value>;

/// Alumina values of the table that was at hand, and those of 1968 from memory.
constexpr OptionalValue read_alumina(double value) {
    return Value{value, 0.03, Source::eluotropic_table};
}
constexpr OptionalValue alumina(double value) {
    return Value{value, 0.03, Source::snyder_1968};
}
/// Silica values; older tables give about 0.77 of alumina.
constexpr OptionalValue silica(double value, double tolerance = 0.05) {
    return Value{value, tolerance, Source::snyder_1997};
}
constexpr OptionalValue read_polarity(double value) {
    return Value{value, 0.2, Source::eluotropic_table};
}
constexpr OptionalValue polarity(double value, double tolerance = 0.3) {
    return Value{value, tolerance, Source::snyder_1978};
}
constexpr OptionalValue alike(double value) {
    return Value{value, 0.05, Source::by_composition};
}
constexpr OptionalValue none = std::nullopt;

struct Solvent {
    std::string_view name;
    std::string_view other_names; ///< separated by '|', lower case
    OptionalValue alumina;
    OptionalValue silica;
    OptionalValue polarity;
    double molar_volume_ml; ///< 0 for a mixture
};

// Tables disagree for tetrahydrofuran on alumina (0.45 or 0.57), ethyl acetate on silica (0.38 or
// 0.48) and the polarity of water (9.0 or 10.2): the wider tolerance says so.
constexpr std::array solvents{
    Solvent{"pentane", "n-pentane", read_alumina(0.00), silica(0.00), read_polarity(0.0), 116.1},
    Solvent{"petroleum ether", "petrol ether|pet ether|light petroleum|petroleum spirit",
            alike(0.00), alike(0.00), alike(0.1), 0.0},
    Solvent{"hexane", "n-hexane|hexanes|hex", read_alumina(0.01), silica(0.01), polarity(0.1),
            131.6},
    Solvent{"heptane", "n-heptane|heptanes", read_alumina(0.01), silica(0.01), none, 147.5},
    Solvent{"isooctane", "2,2,4-trimethylpentane", alumina(0.01), none, none, 166.1},
    Solvent{"cyclohexane", "", read_alumina(0.04), none, read_polarity(0.2), 108.7},
    Solvent{"carbon disulfide", "cs2|carbon disulphide", alumina(0.15), none, none, 60.6},
    Solvent{"carbon tetrachloride", "ccl4|tetrachloromethane", read_alumina(0.18), none,
            read_polarity(1.6), 97.1},
    Solvent{"diisopropyl ether", "isopropyl ether|ipr2o|dipe", read_alumina(0.28), none,
            read_polarity(2.4), 142.3},
    Solvent{"toluene", "phme|methylbenzene", read_alumina(0.29), silica(0.22), read_polarity(2.4),
            106.9},
    Solvent{"chlorobenzene", "phcl", alumina(0.30), none, none, 102.2},
    Solvent{"benzene", "phh", alumina(0.32), none, polarity(2.7), 89.4},
    Solvent{"diethyl ether", "ether|et2o|ethyl ether|ethoxyethane", read_alumina(0.38),
            silica(0.43), read_polarity(2.8), 104.8},
    Solvent{"chloroform", "chcl3|trichloromethane", read_alumina(0.40), silica(0.26),
            read_polarity(4.1), 80.7},
    Solvent{"dichloromethane", "dcm|ch2cl2|methylene chloride|methylene dichloride",
            read_alumina(0.42), silica(0.30), read_polarity(3.1), 64.5},
    Solvent{"4-methyl-2-pentanone", "methyl isobutyl ketone|mibk|4-methylpentan-2-one",
            alumina(0.43), none, none, 125.8},
    Solvent{"1,2-dichloroethane", "dce|ethylene dichloride", alumina(0.49), none, none, 79.4},
    Solvent{"tert-butyl methyl ether", "mtbe|tbme|methyl tert-butyl ether", none, silica(0.48),
            none, 119.9},
    Solvent{"2-butanone", "mek|methyl ethyl ketone|butanone|butan-2-one", alumina(0.51), none,
            polarity(4.7), 90.2},
    Solvent{"tetrahydrofuran", "thf", Value{0.57, 0.12, Source::eluotropic_table}, silica(0.53),
            read_polarity(4.0), 81.7},
    Solvent{"acetone", "me2co|propanone|2-propanone", read_alumina(0.56), silica(0.53),
            read_polarity(5.1), 74.0},
    Solvent{"1,4-dioxane", "dioxane", alumina(0.56), silica(0.51), polarity(4.8), 85.7},
    Solvent{"ethyl acetate", "etoac|acoet|ea|ethyl ethanoate", alumina(0.58), silica(0.48, 0.10),
            polarity(4.4), 98.5},
    Solvent{"methyl acetate", "meoac|methyl ethanoate", alumina(0.60), none, none, 79.8},
    Solvent{"dimethyl sulfoxide", "dmso|dimethyl sulphoxide", alumina(0.62), none, polarity(7.2),
            71.3},
    Solvent{"diethylamine", "et2nh|dea", alumina(0.63), none, none, 104.3},
    Solvent{"nitromethane", "meno2|ch3no2", alumina(0.64), none, polarity(6.0), 54.0},
    Solvent{"acetonitrile", "mecn|acn|ch3cn", read_alumina(0.65), silica(0.52), read_polarity(5.8),
            52.9},
    Solvent{"pyridine", "py", alumina(0.71), none, polarity(5.3), 80.9},
    Solvent{"1-propanol", "n-propanol|propan-1-ol|nproh", read_alumina(0.82), none,
            read_polarity(4.0), 75.1},
    Solvent{"2-propanol", "isopropanol|iproh|ipa|propan-2-ol|isopropyl alcohol", alumina(0.82),
            silica(0.60), polarity(3.9), 76.9},
    Solvent{"ethanol", "etoh|ethyl alcohol", read_alumina(0.88), none, read_polarity(4.3), 58.7},
    Solvent{"methanol", "meoh|methyl alcohol", read_alumina(0.95), silica(0.70), read_polarity(5.1),
            40.7},
    Solvent{"ethylene glycol", "ethane-1,2-diol|1,2-ethanediol", alumina(1.11), none, polarity(6.9),
            55.9},
    Solvent{"acetic acid", "acoh|hoac|glacial acetic acid|ethanoic acid", none, none, polarity(6.0),
            57.5},
    Solvent{"N,N-dimethylformamide", "dmf|dimethylformamide", none, none, polarity(6.4), 77.4},
    Solvent{"formamide", "methanamide", none, none, polarity(9.6), 39.9},
    Solvent{"water", "h2o", none, none, polarity(10.2, 1.2), 18.1},
};

bool is_called(const Solvent &solvent, const std::string &lower) {
    if (lower_ascii(solvent.name) == lower) {
        return true;
    }
    std::string_view rest = solvent.other_names;
    while (!rest.empty()) {
        const std::string_view name = rest.substr(0, rest.find('|'));
        if (name == lower) {
            return true;
        }
        rest.remove_prefix(std::min(rest.size(), name.size() + 1));
    }
    return false;
}

const Solvent &solvent_called(std::string_view text) {
    const std::string lower = lower_ascii(trimmed(text));
    const auto found = std::find_if(solvents.begin(), solvents.end(), [&](const Solvent &solvent) {
        return is_called(solvent, lower);
    });
    if (found == solvents.end()) {
        throw InputError({}, "the solvent " + in_quotes(text),
                         "a solvent whose strength is known, such as hexane, toluene, "
                         "dichloromethane, ethyl acetate, acetone or methanol");
    }
    return *found;
}

SolventValue published(const Solvent &solvent, const OptionalValue &value,
                       std::string_view quantity) {
    if (!value) {
        throw InputError({}, "the solvent " + in_quotes(solvent.name),
                         fmt::format("a solvent with a published {}", quantity));
    }
    const Citation from = citation(value->source);
    return {solvent.name, value->value, value->tolerance, from.text, from.from_memory};
}

} // namespace

std::vector<std::string_view> known_solvents() {
    std::vector<std::string_view> names;
    names.reserve(solvents.size());
    for (const Solvent &solvent : solvents) {
        names.push_back(solvent.name);
    }
    return names;
}

std::string_view solvent_name(std::string_view text) {
    return solvent_called(text).name;
}

SolventValue solvent_strength(std::string_view solvent, Adsorbent adsorbent) {
    const Solvent &known = solvent_called(solvent);
    return adsorbent == Adsorbent::silica ? published(known, known.silica, "strength on silica")
                                          : published(known, known.alumina, "strength on alumina");
}

SolventValue solvent_polarity(std::string_view solvent) {
    const Solvent &known = solvent_called(solvent);
    return published(known, known.polarity, "polarity P'");
}

double molar_volume_ml(std::string_view solvent) {
    const Solvent &known = solvent_called(solvent);
    if (known.molar_volume_ml <= 0.0) {
        throw InputError({}, "the solvent " + in_quotes(known.name),
                         "one substance, not a mixture without molar volume");
    }
    return known.molar_volume_ml;
}

std::vector<double> mole_fractions(const std::vector<double> &volumes,
                                   const std::vector<double> &molar_volumes_ml) {
    if (volumes.size() != molar_volumes_ml.size()) {
        throw InputError({}, fmt::format("{} molar volumes", molar_volumes_ml.size()),
                         fmt::format("{}, one for each volume", volumes.size()));
    }
    std::vector<double> moles;
    double total = 0.0;
    for (std::size_t index = 0; index < volumes.size(); ++index) {
        require(volumes[index] >= 0.0, "a volume", volumes[index], "a volume of 0 mL or more");
        require(molar_volumes_ml[index] > 0.0, "a molar volume", molar_volumes_ml[index],
                "a molar volume above 0 mL/mol");
        moles.push_back(volumes[index] / molar_volumes_ml[index]);
        total += moles.back();
    }
    require(total > 0.0, "a total volume", total, "a volume above 0 mL");
    for (double &amount : moles) {
        amount /= total;
    }
    return moles;
}

double binary_eluent_strength(const BinaryEluent &eluent) {
    require(eluent.strength_b >= eluent.strength_a, "a strength of the second solvent",
            eluent.strength_b, "at least that of the first");
    require(eluent.strength_a >= -1.0, "a strength of the first solvent", eluent.strength_a,
            "a solvent strength");
    require(eluent.mole_fraction_b >= 0.0 && eluent.mole_fraction_b <= 1.0, "a mole fraction",
            eluent.mole_fraction_b, "a mole fraction from 0 to 1");
    require(eluent.area_b > 0.0, "a molecular area", eluent.area_b, "an area above 0");
    require(eluent.activity > 0.0, "an activity", eluent.activity, "an activity above 0");
    const double slope = eluent.activity * eluent.area_b;
    const double adsorbed = std::pow(10.0, slope * (eluent.strength_b - eluent.strength_a));
    const double x = eluent.mole_fraction_b;
    return eluent.strength_a + std::log10(x * adsorbed + 1.0 - x) / slope;
}

double eluent_polarity(const std::vector<SolventPart> &eluent) {
    const std::vector<double> fractions = volume_fractions(eluent);
    double polarity = 0.0;
    for (std::size_t index = 0; index < eluent.size(); ++index) {
        polarity += fractions[index] * solvent_polarity(eluent[index].solvent).value;
    }
    return polarity;
}

double normal_phase_retention_change(double polarity_1, double polarity_2) {
    require(true, "a polarity", polarity_1, "a solvent polarity");
    require(true, "a polarity", polarity_2, "a solvent polarity");
    return std::pow(10.0, (polarity_1 - polarity_2) / 2.0);
}

double reversed_phase_retention_change(double polarity_1, double polarity_2) {
    return normal_phase_retention_change(polarity_2, polarity_1);
}

} // namespace cospot::quantities
