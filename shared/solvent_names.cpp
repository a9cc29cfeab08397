#include "shared/solvent_names.h"

#include "shared/text.h"

#include <algorithm>
#include <array>

namespace cospot {

namespace {

struct SolventNames {
    std::string_view name;
    std::string_view others; ///< separated by '|', lower case
};

constexpr std::string_view kPetroleumEther = "petroleum ether";

constexpr std::array kSolvents{
    SolventNames{"pentane", "n-pentane|pentan|n-pentan"},
    SolventNames{kPetroleumEther,
                 "pe|petrol ether|petrolether|petroläther|pet ether|pet. ether|petroleumether|"
                 "light petroleum|petroleum spirit|petrol"},
    SolventNames{"hexane", "n-hexane|hexanes|hex|hexan|n-hexan|hexane isomers"},
    SolventNames{"heptane", "n-heptane|heptanes|hept|heptan|n-heptan"},
    SolventNames{"isohexane", "isohexan|i-hexane|2-methylpentane"},
    SolventNames{"isooctane", "2,2,4-trimethylpentane|isooctan|i-octane"},
    SolventNames{"cyclohexane", "cyclohexan|cy|cyhex|chx|c-hexane|c6h12"},
    SolventNames{"carbon disulfide", "cs2|carbon disulphide|schwefelkohlenstoff"},
    SolventNames{"carbon tetrachloride", "ccl4|tetrachloromethane|tetrachlormethan"},
    SolventNames{"diisopropyl ether",
                 "isopropyl ether|ipr2o|i-pr2o|dipe|diisopropylether|di-isopropyl ether"},
    SolventNames{"toluene", "phme|tol|methylbenzene|toluol"},
    SolventNames{"chlorobenzene", "phcl|chlorbenzol"},
    SolventNames{"benzene", "phh|benzol|c6h6"},
    SolventNames{"diethyl ether", "ether|et2o|ethyl ether|ethoxyethane|diethylether|äther|Äther|"
                                  "diethyläther|dee"},
    SolventNames{"chloroform", "chcl3|trichloromethane|trichlormethan"},
    SolventNames{
        "dichloromethane",
        "dcm|ch2cl2|methylene chloride|methylene dichloride|dichlormethan|methylenchlorid"},
    SolventNames{"4-methyl-2-pentanone",
                 "methyl isobutyl ketone|mibk|4-methylpentan-2-one|methylisobutylketon"},
    SolventNames{"1,2-dichloroethane", "dce|ethylene dichloride|1,2-dichlorethan"},
    SolventNames{"tert-butyl methyl ether",
                 "mtbe|tbme|methyl tert-butyl ether|tert-butylmethylether|"
                 "methyl-tert-butylether|t-bume ether|t-buome"},
    SolventNames{"2-butanone", "mek|methyl ethyl ketone|butanone|butan-2-one|butanon|2-butanon"},
    SolventNames{"tetrahydrofuran", "thf"},
    SolventNames{"acetone", "me2co|propanone|2-propanone|propan-2-one|aceton"},
    SolventNames{"1,4-dioxane", "dioxane|dioxan|1,4-dioxan"},
    SolventNames{"ethyl acetate", "etoac|acoet|ea|ee|etac|ethyl ethanoate|ethylacetat|essigester|"
                                  "essigsäureethylester|ethylethanoat"},
    SolventNames{"methyl acetate", "meoac|methyl ethanoate|methylacetat"},
    SolventNames{"dimethyl sulfoxide", "dmso|dimethyl sulphoxide|dimethylsulfoxid"},
    SolventNames{"diethylamine", "et2nh|dea|diethylamin"},
    SolventNames{"triethylamine", "et3n|net3|tea|triethylamin"},
    SolventNames{"nitromethane", "meno2|ch3no2|nitromethan"},
    SolventNames{"acetonitrile", "mecn|acn|ch3cn|acetonitril"},
    SolventNames{"pyridine", "py|pyridin"},
    SolventNames{"1-propanol", "n-propanol|propan-1-ol|nproh|n-proh"},
    SolventNames{"2-propanol",
                 "isopropanol|iproh|i-proh|2-proh|ipa|propan-2-ol|isopropyl alcohol|iso-propanol"},
    SolventNames{"1-butanol", "n-butanol|butan-1-ol|butanol|buoh|n-buoh|nbuoh"},
    SolventNames{"ethanol", "etoh|ethyl alcohol|c2h5oh"},
    SolventNames{"methanol", "meoh|methyl alcohol|ch3oh"},
    SolventNames{"ethylene glycol", "ethane-1,2-diol|1,2-ethanediol|ethylenglykol"},
    SolventNames{"acetic acid",
                 "acoh|hoac|hac|glacial acetic acid|ethanoic acid|essigsäure|eisessig|ch3cooh"},
    SolventNames{"formic acid", "hcooh|hco2h|methanoic acid|ameisensäure"},
    SolventNames{"trifluoroacetic acid", "tfa|cf3cooh|trifluoressigsäure"},
    SolventNames{"ammonia", "nh3|nh4oh|aqueous ammonia|nh3 (aq)|nh3(aq)|ammonia solution|"
                            "ammonium hydroxide|ammoniak"},
    SolventNames{"N,N-dimethylformamide", "dmf|dimethylformamide|dimethylformamid"},
    SolventNames{"formamide", "methanamide|formamid"},
    SolventNames{"water", "h2o|wasser"},
};

bool is_called(const SolventNames &solvent, std::string_view lower) {
    if (lower_ascii(solvent.name) == lower) {
        return true;
    }
    std::string_view rest = solvent.others;
    while (!rest.empty()) {
        const std::string_view name = rest.substr(0, rest.find('|'));
        if (name == lower) {
            return true;
        }
        rest.remove_prefix(std::min(rest.size(), name.size() + 1));
    }
    return false;
}

std::string_view plainly_known(std::string_view lower) {
    const auto found =
        std::find_if(kSolvents.begin(), kSolvents.end(),
                     [&](const SolventNames &solvent) { return is_called(solvent, lower); });
    return found == kSolvents.end() ? std::string_view() : found->name;
}

/// In lower case, single blanks within, subscripts as plain digits ("CH₂Cl₂").
std::string plain_name(std::string_view text) {
    constexpr std::string_view subscript = "\xE2\x82"; // U+2080 to U+2089 end in 0x80 to 0x89
    constexpr unsigned char zero = 0x80;
    constexpr unsigned char nine = 0x89;
    std::string plain;
    const std::string lower = lower_ascii(trimmed(text));
    for (std::size_t i = 0; i < lower.size(); ++i) {
        const bool is_subscript = lower.compare(i, subscript.size(), subscript) == 0 &&
                                  i + 2 < lower.size() &&
                                  static_cast<unsigned char>(lower[i + 2]) >= zero &&
                                  static_cast<unsigned char>(lower[i + 2]) <= nine;
        if (is_subscript) {
            plain += static_cast<char>('0' + (static_cast<unsigned char>(lower[i + 2]) - zero));
            i += 2;
        } else if (lower[i] != ' ' || plain.empty() || plain.back() != ' ') {
            plain += lower[i];
        }
    }
    return plain;
}

/// A whole number of two or three digits at `at`, which goes on behind it; 0: none.
int read_degrees(std::string_view text, std::size_t &at) {
    const std::size_t begin = at;
    int number = 0;
    while (at < text.size() && is_digit(text[at]) && at - begin < 4) {
        number = 10 * number + (text[at] - '0');
        ++at;
    }
    const std::size_t digits = at - begin;
    return digits == 2 || digits == 3 ? number : 0;
}

} // namespace

std::size_t boiling_range_length(std::string_view text, std::size_t at) {
    const std::size_t begin = at;
    const auto pass = [&](std::string_view what) {
        const bool is_there = text.substr(std::min(at, text.size())).starts_with(what);
        at += is_there ? what.size() : 0;
        return is_there;
    };
    while (pass(" ")) {
    }
    const bool has_bracket = pass("(");
    const int from = read_degrees(text, at);
    const bool is_divided = pass("/") || pass("-") || pass("–");
    const int to = is_divided ? read_degrees(text, at) : 0;
    if (from == 0 || to <= from) {
        return 0;
    }
    for (const std::string_view unit : {" °C", "°C", " °c", "°c"}) {
        if (pass(unit)) {
            break;
        }
    }
    if (has_bracket && !pass(")")) {
        return 0;
    }
    const bool is_end = at >= text.size() || !(is_digit(text[at]) || text[at] == '.');
    return is_end ? at - begin : 0;
}

std::string_view known_solvent(std::string_view text) {
    const std::string plain = plain_name(text);
    if (const std::string_view known = plainly_known(plain); !known.empty()) {
        return known;
    }
    const std::size_t digit = plain.find_first_of("0123456789");
    if (digit == std::string::npos || digit == 0) {
        return {};
    }
    const std::size_t end = plain.find_last_not_of(" (", digit - 1);
    const std::string stem = end == std::string::npos ? "" : plain.substr(0, end + 1);
    const bool has_range = plainly_known(stem) == kPetroleumEther &&
                           boiling_range_length(plain, stem.size()) == plain.size() - stem.size();
    return has_range ? kPetroleumEther : std::string_view();
}

std::string solvent_key(std::string_view text) {
    const std::string_view known = known_solvent(text);
    return known.empty() ? plain_name(text) : std::string(known);
}

} // namespace cospot
