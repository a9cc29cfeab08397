#include "quantities/index_scale.h"

#include "shared/text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <string>
#include <vector>

namespace cospot::quantities {

namespace {

using enum IndexScale;

// --- The words that name a scale -----------------------------------------------------------------

struct ScaleName {
    std::string_view text;
    IndexScale scale;
};

/// In the enum's order.
constexpr std::array<std::string_view, 5> kScaleTexts = {
    "n-alkane", "fatty acid methyl ester", "alkyl aryl ketone", "1-nitroalkane", "2-ketoalkane"};

/// Lower case, singular, without the idle words; see `scale_words`.
constexpr ScaleName kScaleNames[] = {
    {"alkane", n_alkane},
    {"paraffin", n_alkane},
    {"kovats", n_alkane},
    {"kovats alkane", n_alkane},
    {"alkane kovats", n_alkane},
    {"fame", fatty_acid_methyl_ester},
    {"methyl ester", fatty_acid_methyl_ester},
    {"fatty acid methyl ester", fatty_acid_methyl_ester},
    {"fatty acid methyl ester fame", fatty_acid_methyl_ester},
    {"fame fatty acid methyl ester", fatty_acid_methyl_ester},
    {"methyl ester fatty acid", fatty_acid_methyl_ester},
    {"kovats fame", fatty_acid_methyl_ester},
    {"alkyl aryl ketone", alkyl_aryl_ketone},
    {"alkylaryl ketone", alkyl_aryl_ketone},
    {"alkylarylketone", alkyl_aryl_ketone},
    {"aryl alkyl ketone", alkyl_aryl_ketone},
    {"alkyl phenyl ketone", alkyl_aryl_ketone},
    {"phenyl alkyl ketone", alkyl_aryl_ketone},
    {"alkylphenone", alkyl_aryl_ketone},
    {"alkanophenone", alkyl_aryl_ketone},
    {"1 nitroalkane", nitroalkane_1},
    {"1 nitro alkane", nitroalkane_1},
    {"nitroalkane", nitroalkane_1},
    {"nitro alkane", nitroalkane_1},
    {"2 ketoalkane", ketoalkane_2},
    {"2 keto alkane", ketoalkane_2},
    {"ketoalkane", ketoalkane_2},
    {"2 alkanone", ketoalkane_2},
    {"alkan 2 one", ketoalkane_2},
    {"methyl ketone", ketoalkane_2},
    {"methyl alkyl ketone", ketoalkane_2},
    {"alkyl methyl ketone", ketoalkane_2},
};

/// Words that may stand around the name of a scale without changing it.
constexpr std::string_view kIdleWords[] = {
    "n",        "normal",     "linear",  "logarithmic", "isothermal",  "isocratic",
    "gradient", "programmed", "program", "programme",   "temperature", "retention",
    "index",    "indices",    "indexes", "ri",          "lri",         "scale",
    "series",   "homologous", "ladder",  "standard",    "standards",   "homologues",
    "on",       "of",         "by",      "from",        "to",          "the",
    "based",    "van",        "den",     "dool",        "and",         "kratz"};

// --- The names of the members --------------------------------------------------------------------

/// The part of a name that tells the carbon number.
struct Stem {
    int carbon;
    std::string_view text;
};

/// Systematic stems (IUPAC 1979, Nomenclature of Organic Chemistry, rule A-1; 2013 spellings
/// too), of which any "-ane", "-anoate" or "-anone" is built.
constexpr Stem kStems[] = {{1, "meth"},
                           {2, "eth"},
                           {3, "prop"},
                           {4, "but"},
                           {5, "pent"},
                           {6, "hex"},
                           {7, "hept"},
                           {8, "oct"},
                           {9, "non"},
                           {10, "dec"},
                           {11, "hendec"},
                           {11, "undec"},
                           {12, "dodec"},
                           {13, "tridec"},
                           {14, "tetradec"},
                           {15, "pentadec"},
                           {16, "hexadec"},
                           {17, "heptadec"},
                           {18, "octadec"},
                           {19, "nonadec"},
                           {20, "eicos"},
                           {20, "icos"},
                           {21, "heneicos"},
                           {21, "henicos"},
                           {22, "docos"},
                           {23, "tricos"},
                           {24, "tetracos"},
                           {25, "pentacos"},
                           {26, "hexacos"},
                           {27, "heptacos"},
                           {28, "octacos"},
                           {29, "nonacos"},
                           {30, "triacont"},
                           {31, "hentriacont"},
                           {32, "dotriacont"},
                           {33, "tritriacont"},
                           {34, "tetratriacont"},
                           {35, "pentatriacont"},
                           {36, "hexatriacont"},
                           {37, "heptatriacont"},
                           {38, "octatriacont"},
                           {39, "nonatriacont"},
                           {40, "tetracont"},
                           {41, "hentetracont"},
                           {42, "dotetracont"},
                           {43, "tritetracont"},
                           {44, "tetratetracont"},
                           {45, "pentatetracont"},
                           {46, "hexatetracont"},
                           {47, "heptatetracont"},
                           {48, "octatetracont"},
                           {49, "nonatetracont"},
                           {50, "pentacont"},
                           {51, "henpentacont"},
                           {52, "dopentacont"},
                           {53, "tripentacont"},
                           {54, "tetrapentacont"},
                           {55, "pentapentacont"},
                           {56, "hexapentacont"},
                           {57, "heptapentacont"},
                           {58, "octapentacont"},
                           {59, "nonapentacont"},
                           {60, "hexacont"}};

/// Stems of trivial acid names: capryl-ate, capryl-ic acid.
constexpr Stem kAcidStems[] = {
    {1, "form"},        {2, "acet"},     {3, "propion"},     {4, "butyr"},     {5, "valer"},
    {6, "capro"},       {7, "enanth"},   {7, "heptyl"},      {8, "capryl"},    {9, "pelargon"},
    {10, "capr"},       {11, "undecyl"}, {12, "laur"},       {13, "tridecyl"}, {14, "myrist"},
    {15, "pentadecyl"}, {16, "palmit"},  {17, "margar"},     {18, "stear"},    {19, "nonadecyl"},
    {20, "arachid"},    {20, "arach"},   {21, "heneicosyl"}, {22, "behen"},    {23, "tricosyl"},
    {24, "lignocer"},   {26, "cerot"},   {28, "montan"},     {30, "meliss"}};

/// A way to build names: prefix, stem, suffix, without blanks, hyphens and commas.
struct Pattern {
    std::string_view prefix;
    std::string_view suffix;
    IndexScale scale;
    int carbon_offset; ///< from the stem's carbon number to the scale's
    int first;         ///< smallest stem that is used so
    int last;
};

constexpr Pattern kStemPatterns[] = {
    {"", "ane", n_alkane, 0, 1, 60},
    {"methyl", "anoate", fatty_acid_methyl_ester, 0, 1, 60},
    {"", "anoicacidmethylester", fatty_acid_methyl_ester, 0, 1, 60},
    {"methylesterof", "anoicacid", fatty_acid_methyl_ester, 0, 1, 60},
    {"", "anophenone", alkyl_aryl_ketone, 6, 3, 54},
    {"1phenyl1", "anone", alkyl_aryl_ketone, 6, 2, 54},
    {"1phenyl", "an1one", alkyl_aryl_ketone, 6, 2, 54},
    {"1nitro", "ane", nitroalkane_1, 0, 1, 60},
    {"nitro", "ane", nitroalkane_1, 0, 1, 2},
    {"2", "anone", ketoalkane_2, 0, 3, 60},
    {"", "an2one", ketoalkane_2, 0, 3, 60},
    {"", "anone", ketoalkane_2, 0, 3, 4},
};

constexpr Pattern kAcidPatterns[] = {
    {"methyl", "ate", fatty_acid_methyl_ester, 0, 1, 60},
    {"", "icacidmethylester", fatty_acid_methyl_ester, 0, 1, 60},
    {"methylesterof", "icacid", fatty_acid_methyl_ester, 0, 1, 60},
};

/// The carbon number in digits stands for the stem.
constexpr Pattern kNumberPatterns[] = {
    {"c", "", n_alkane, 0, 1, 200},
    {"nc", "", n_alkane, 0, 1, 200},
    {"c", "alkane", n_alkane, 0, 1, 200},
    {"nc", "alkane", n_alkane, 0, 1, 200},
    {"c", "fame", fatty_acid_methyl_ester, 0, 1, 60},
    {"famec", "", fatty_acid_methyl_ester, 0, 1, 60},
    {"c", ":0fame", fatty_acid_methyl_ester, 0, 1, 60},
    {"famec", ":0", fatty_acid_methyl_ester, 0, 1, 60},
    {"c", "methylester", fatty_acid_methyl_ester, 0, 1, 60},
    {"c", ":0methylester", fatty_acid_methyl_ester, 0, 1, 60},
};

struct TrivialName {
    std::string_view text;
    Homologue homologue;
};

constexpr TrivialName kTrivialNames[] = {
    {"cetane", {n_alkane, 16}},
    {"acetophenone", {alkyl_aryl_ketone, 8}},
    {"methylphenylketone", {alkyl_aryl_ketone, 8}},
    {"phenylmethylketone", {alkyl_aryl_ketone, 8}},
    {"1phenylethanone", {alkyl_aryl_ketone, 8}},
    {"propiophenone", {alkyl_aryl_ketone, 9}},
    {"ethylphenylketone", {alkyl_aryl_ketone, 9}},
    {"butyrophenone", {alkyl_aryl_ketone, 10}},
    {"valerophenone", {alkyl_aryl_ketone, 11}},
    {"caprophenone", {alkyl_aryl_ketone, 12}},
    {"enanthophenone", {alkyl_aryl_ketone, 13}},
    {"caprylophenone", {alkyl_aryl_ketone, 14}},
    {"laurophenone", {alkyl_aryl_ketone, 18}},
    {"myristophenone", {alkyl_aryl_ketone, 20}},
    {"palmitophenone", {alkyl_aryl_ketone, 22}},
    {"stearophenone", {alkyl_aryl_ketone, 24}},
    {"acetone", {ketoalkane_2, 3}},
    {"dimethylketone", {ketoalkane_2, 3}},
    {"methylethylketone", {ketoalkane_2, 4}},
    {"ethylmethylketone", {ketoalkane_2, 4}},
};

// --- Reading -------------------------------------------------------------------------------------

bool is_separator(char c) {
    constexpr std::string_view kSeparators = " \t-_,;()/";
    return kSeparators.find(c) != std::string_view::npos;
}

/// The parts between separators, in lower case.
std::vector<std::string> lower_words(std::string_view text) {
    std::vector<std::string> words;
    bool in_word = false;
    for (const char c : lower_ascii(text)) {
        if (is_separator(c)) {
            in_word = false;
            continue;
        }
        if (!in_word) {
            words.emplace_back();
            in_word = true;
        }
        words.back() += c;
    }
    return words;
}

template <typename Table> bool contains(const Table &table, std::string_view text) {
    return std::find(std::begin(table), std::end(table), text) != std::end(table);
}

std::optional<int> number_in(std::string_view digits) {
    int number = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), number);
    const bool whole = error == std::errc{} && end == digits.data() + digits.size();
    return whole && digits[0] != '0' && number > 0 ? std::optional(number) : std::nullopt;
}

std::string singular(std::string word) {
    if (word == "kov\xC3\xA1ts" || word == "kovats") {
        return "kovats";
    }
    if (word.size() > 3 && word.back() == 's') {
        word.pop_back();
    }
    return word;
}

/// The words that tell the scale, singular and joined by blanks: idle words and carbon ranges
/// such as C7-C30 left out.
std::string scale_words(std::string_view text) {
    std::string joined;
    for (const std::string &word : lower_words(text)) {
        const bool carbon_number = word[0] == 'c' && number_in(std::string_view(word).substr(1));
        if (!carbon_number && !contains(kIdleWords, word)) {
            joined += (joined.empty() ? "" : " ") + singular(word);
        }
    }
    return joined;
}

/// The name without separators and without the "n-" that says "unbranched".
std::string joined_name(std::string_view name) {
    std::string joined;
    for (const std::string &word : lower_words(trimmed(name))) {
        if (word != "n" && word != "normal") {
            joined += word;
        }
    }
    return joined;
}

/// What stands between the pattern's prefix and suffix; empty if they do not fit.
std::string_view middle(const Pattern &pattern, std::string_view name) {
    if (!name.starts_with(pattern.prefix)) {
        return {};
    }
    name.remove_prefix(pattern.prefix.size());
    if (!name.ends_with(pattern.suffix)) {
        return {};
    }
    name.remove_suffix(pattern.suffix.size());
    return name;
}

/// The first pattern that fits; `carbon_of` reads the part between prefix and suffix.
template <typename Patterns, typename CarbonOf>
std::optional<Homologue> match(const Patterns &patterns, std::string_view name,
                               CarbonOf carbon_of) {
    for (const Pattern &pattern : patterns) {
        const std::optional<int> carbon = carbon_of(middle(pattern, name));
        if (carbon && *carbon >= pattern.first && *carbon <= pattern.last) {
            return Homologue{pattern.scale, *carbon + pattern.carbon_offset};
        }
    }
    return std::nullopt;
}

template <typename Stems> auto carbon_of_stem(const Stems &stems) {
    return [&stems](std::string_view text) -> std::optional<int> {
        const auto found = std::find_if(std::begin(stems), std::end(stems),
                                        [&](const Stem &stem) { return stem.text == text; });
        return found == std::end(stems) ? std::nullopt : std::optional(found->carbon);
    };
}

} // namespace

std::optional<IndexScale> index_scale_from_text(std::string_view text) {
    const std::string words = scale_words(text);
    for (const ScaleName &name : kScaleNames) {
        if (name.text == words) {
            return name.scale;
        }
    }
    return std::nullopt;
}

std::string_view to_text(IndexScale scale) {
    return kScaleTexts.at(static_cast<std::size_t>(scale));
}

std::string_view own_series_of(std::string_view text) {
    constexpr std::string_view mark = "own series:";
    text = trimmed(text);
    return equal_ignoring_case(text.substr(0, mark.size()), mark)
               ? trimmed(text.substr(std::min(mark.size(), text.size())))
               : std::string_view{};
}

std::optional<Homologue> homologue_from_name(std::string_view name) {
    const std::string joined = joined_name(name);
    for (const TrivialName &trivial : kTrivialNames) {
        if (trivial.text == joined) {
            return trivial.homologue;
        }
    }
    if (const auto found = match(kStemPatterns, joined, carbon_of_stem(kStems))) {
        return found;
    }
    if (const auto found = match(kAcidPatterns, joined, carbon_of_stem(kAcidStems))) {
        return found;
    }
    return match(kNumberPatterns, joined, number_in);
}

} // namespace cospot::quantities
