#include "quantities/solvent_strength.h"

#include "shared/error.h"
#include "shared/solvent_names.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string>

namespace cospot::quantities {

namespace {

using Value = std::optional<double>;
constexpr Value none = std::nullopt;

/// Marks a value that no table at hand confirmed; the others were read (tests/SOURCES.md: for
/// alumina `snyder1974`, for P' `libretexts28` and `polarityslides`).
constexpr Value remembered(double value) {
    return value;
}
/// As pentane and hexane, of which it consists (common practice, no source).
constexpr Value alike(double value) {
    return value;
}

struct Solvent {
    std::string_view name; ///< as `known_solvent` gives it
    Value alumina;         ///< eps0
    Value silica;          ///< eps0
    Value polarity;
};

// Tables disagree for tetrahydrofuran on alumina (0.45 or 0.57), ethyl acetate on silica (0.38 or
// 0.48), and the polarity of cyclohexane (0.04 or 0.2), acetic acid (6.0 or 6.2) and water (9.0 or
// 10.2).
constexpr std::array solvents{
    Solvent{"pentane", 0.00, remembered(0.00), 0.0},
    Solvent{"petroleum ether", alike(0.00), alike(0.00), alike(0.1)},
    Solvent{"hexane", 0.01, remembered(0.01), 0.1},
    Solvent{"heptane", 0.01, remembered(0.01), none},
    Solvent{"isooctane", remembered(0.01), none, none},
    Solvent{"cyclohexane", 0.04, none, 0.04},
    Solvent{"carbon disulfide", remembered(0.15), none, none},
    Solvent{"carbon tetrachloride", 0.18, none, 1.6},
    Solvent{"diisopropyl ether", 0.28, none, 2.4},
    Solvent{"toluene", 0.29, remembered(0.22), 2.4},
    Solvent{"chlorobenzene", remembered(0.30), none, none},
    Solvent{"benzene", remembered(0.32), none, 2.7},
    Solvent{"diethyl ether", 0.38, remembered(0.43), 2.8},
    Solvent{"chloroform", 0.40, remembered(0.26), 4.1},
    Solvent{"dichloromethane", 0.42, remembered(0.30), 3.1},
    Solvent{"4-methyl-2-pentanone", remembered(0.43), none, none},
    Solvent{"1,2-dichloroethane", remembered(0.49), none, none},
    Solvent{"tert-butyl methyl ether", none, remembered(0.48), none},
    Solvent{"2-butanone", remembered(0.51), none, remembered(4.7)},
    Solvent{"tetrahydrofuran", 0.57, remembered(0.53), 4.0},
    Solvent{"acetone", 0.56, remembered(0.53), 5.1},
    Solvent{"1,4-dioxane", remembered(0.56), remembered(0.51), 4.8},
    Solvent{"ethyl acetate", 0.58, remembered(0.48), 4.4},
    Solvent{"methyl acetate", remembered(0.60), none, none},
    Solvent{"dimethyl sulfoxide", remembered(0.62), none, remembered(7.2)},
    Solvent{"diethylamine", remembered(0.63), none, none},
    Solvent{"nitromethane", remembered(0.64), none, remembered(6.0)},
    Solvent{"acetonitrile", 0.65, remembered(0.52), 5.8},
    Solvent{"pyridine", remembered(0.71), none, 5.3},
    Solvent{"1-propanol", 0.82, none, 4.0},
    Solvent{"2-propanol", remembered(0.82), remembered(0.60), remembered(3.9)},
    Solvent{"ethanol", 0.88, none, 4.3},
    Solvent{"methanol", 0.95, remembered(0.70), 5.1},
    Solvent{"ethylene glycol", remembered(1.11), none, remembered(6.9)},
    Solvent{"acetic acid", none, none, 6.2},
    Solvent{"N,N-dimethylformamide", none, none, 6.4},
    Solvent{"formamide", none, none, remembered(9.6)},
    Solvent{"water", none, none, 10.2},
};

const Solvent &solvent_called(std::string_view text) {
    const std::string_view name = known_solvent(text);
    const auto found = std::find_if(solvents.begin(), solvents.end(),
                                    [&](const Solvent &solvent) { return solvent.name == name; });
    if (found == solvents.end()) {
        throw InputError({}, "the solvent " + in_quotes(text),
                         "a solvent whose strength is known, such as hexane, toluene, "
                         "dichloromethane, ethyl acetate, acetone or methanol");
    }
    return *found;
}

double published(const Solvent &solvent, const Value &value, std::string_view quantity) {
    if (!value) {
        throw InputError({}, "the solvent " + in_quotes(solvent.name),
                         fmt::format("a solvent with a published {}", quantity));
    }
    return *value;
}

} // namespace

std::string_view solvent_name(std::string_view text) {
    return solvent_called(text).name;
}

double solvent_strength(std::string_view solvent, Adsorbent adsorbent) {
    const Solvent &known = solvent_called(solvent);
    return adsorbent == Adsorbent::silica ? published(known, known.silica, "strength on silica")
                                          : published(known, known.alumina, "strength on alumina");
}

double solvent_polarity(std::string_view solvent) {
    const Solvent &known = solvent_called(solvent);
    return published(known, known.polarity, "polarity P'");
}

} // namespace cospot::quantities
