#include "shared/usual_headers.h"

#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>

namespace cospot {

namespace {

struct UsualHeader {
    std::string_view column;
    std::string_view words; ///< lower case, without stops
};

constexpr UsualHeader kUsual[]{
    {"tR", "rt"},
    {"tR", "ret time"},
    {"tR", "retention time"},
    {"tR", "retention"},
    {"tR", "retentionszeit"},
    {"area", "area"},
    {"area", "peak area"},
    {"area", "fläche"},
    {"area", "peakfläche"},
    {"height", "height"},
    {"height", "peak height"},
    {"height", "höhe"},
    {"peak", "peak no"},
    {"peak", "peak nr"},
    {"peak", "peak number"},
    {"compound", "peak name"},
    {"compound", "compound name"},
    {"compound", "component"},
    {"compound", "component name"},
    {"compound", "substance"},
    {"compound", "name"},
    {"compound", "analyte"},
    {"compound", "analyt"},
    {"compound", "solvent"},
    {"compound", "lösungsmittel"},
    {"standard", "name"},
    {"standard", "compound"},
    {"standard", "compound name"},
    {"standard", "peak name"},
    {"standard", "component"},
    {"standard", "component name"},
    {"standard", "alkane name"},
    {"compound", "substanz"},
    {"run", "sample"},
    {"run", "sample name"},
    {"run", "injection"},
    {"run", "batch"},
    {"run", "batch no"},
    {"run", "lot"},
    {"run", "lot no"},
    {"run", "probe"},
    {"date", "inj date"},
    {"date", "injection date"},
    {"date", "datum"},
    {"carbon", "alkane"},
    {"carbon", "alkan"},
    {"carbon", "carbon number"},
    {"carbon", "carbons"},
    {"compound", "verbindung"},
    {"compound", "stoff"},
    {"synonyms", "kürzel"},
    {"synonyms", "abbreviation"},
    {"synonyms", "short name"},
    {"cas", "cas no"},
    {"cas", "cas-nr"},
    {"cas", "cas number"},
    {"smiles", "structure"},
    {"smiles", "struktur"},
    {"system", "lm"},
    {"system", "laufmittel"},
    {"system", "eluent"},
    {"system", "solvent system"},
    {"system", "fließmittel"},
    {"Rf", "rf-wert"},
    {"Rf", "rf value"},
    {"Rf", "rf-value"},
    {"plate", "platte"},
    {"plate", "dc-platte"},
    {"plate", "tlc plate"},
    {"lane", "bahn"},
    {"lane", "spur"},
    {"lane", "track"},
    {"label", "spot label"},
    {"distance_mm", "laufstrecke"},
    {"distance_mm", "strecke"},
    {"distance_mm", "weg"},
    {"distance_mm", "distance of spot"},
    {"front_mm", "lauffront"},
    {"front_mm", "solvent front"},
    {"stain", "anfärbung"},
    {"stain", "färbung"},
    {"stain", "staining"},
    {"role", "rolle"},
    {"fraction", "tube"},
    {"fraction", "tubes"},
    {"fraction", "fraktion"},
    {"fraction", "fractions"},
    {"fraction", "röhrchen"},
    {"note", "bemerkung"},
    {"note", "bem"},
    {"note", "remark"},
    {"note", "remarks"},
};

/// The words of a header without its unit ("Weg / cm"), and what stands in brackets behind them.
struct HeaderWords {
    std::string words;
    std::string in_brackets;
};

HeaderWords words_of(std::string_view header) {
    header = trimmed(header);
    HeaderWords found;
    const std::size_t open = header.find_first_of("[(");
    if (open != std::string_view::npos && (header.ends_with(']') || header.ends_with(')'))) {
        found.in_brackets = header.substr(open + 1, header.size() - open - 2);
        header = header.substr(0, open);
    }
    header = header.substr(0, header.find('/'));
    for (const char sign : lower_ascii(header)) {
        const char plain = sign == '_' ? ' ' : sign;
        const bool is_blank_again =
            plain == ' ' && (found.words.empty() || found.words.back() == ' ');
        if (plain != '.' && !is_blank_again) {
            found.words += plain;
        }
    }
    found.words = trimmed(found.words);
    return found;
}

} // namespace

bool usually_means(std::string_view header, std::string_view column) {
    const HeaderWords found = words_of(header);
    if (column == "ppm") {
        return equal_ignoring_case(found.in_brackets, "ppm") ||
               equal_ignoring_case(found.in_brackets, "mg/kg");
    }
    return found.in_brackets != "%" && !equal_ignoring_case(header, column) &&
           std::any_of(std::begin(kUsual), std::end(kUsual), [&](const UsualHeader &one) {
               return one.column == column && one.words == found.words;
           });
}

std::string proposed_maps(const std::vector<std::string> &headers,
                          const std::vector<std::string> &columns, std::string_view option) {
    std::string maps;
    for (const std::string &column : columns) {
        const auto header =
            std::find_if(headers.begin(), headers.end(),
                         [&](const std::string &name) { return usually_means(name, column); });
        if (header != headers.end()) {
            maps += fmt::format("{}{} {}={}", maps.empty() ? "" : " ", option, column,
                                in_quotes(trimmed(*header)));
        }
    }
    return maps;
}

} // namespace cospot
