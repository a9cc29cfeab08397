#pragma once

#include "identification/identification.h"
#include "quantities/rounding.h"
#include "readers/feature.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace cospot::purity {

/// What a feature of a sample is taken for.
enum class Role {
    declared,    ///< the declared compound's peak
    impurity,    ///< anything else that counts
    disregarded, ///< at or below the reporting threshold
    unretained,  ///< it leaves with the hold-up time: nothing that the column kept
    blank        ///< the blank shows it too
};

/// Whether the feature is one of what the sample holds.
[[nodiscard]] constexpr bool is_of_sample(Role role) {
    return role != Role::blank && role != Role::unretained;
}

/// What the retention relative to the declared compound is a ratio of.
enum class Ratio {
    none,        ///< no declared compound was found, or the quantity has no ratio
    retardation, ///< R_rel, of R_F
    unadjusted,  ///< RRT, of retention times
    adjusted     ///< r, of times less the hold-up time
};

/// Its symbol (IUPAC): R_rel, RRT or r; empty where there is none. IUPAC's r_G is what monographs
/// call RRT.
[[nodiscard]] const char *symbol(Ratio ratio);

/// Its definition in words, e.g. "t_R/t_R(declared), unadjusted".
[[nodiscard]] const char *definition(Ratio ratio);

/// The likeliest identity of a feature: one compound or several that cannot be told apart.
struct Identity {
    std::string name = "unlisted"; ///< compounds joined by " or "
    double probability = 1.0;
    bool is_unlisted = true;
    bool is_judged = true;     ///< false: nothing of it could be compared, e.g. outside the ladder
    bool is_expected = false;  ///< one of the compounds that the user expects, or that has a limit
    bool is_confirmed = false; ///< the user states that it was confirmed otherwise
    bool is_named = false;     ///< the user's table names it: a statement, not confirmed by that
    bool is_contradicted = false; ///< retention speaks against that name
    std::string by_retention{};   ///< what retention says beside that name, in words
    std::string inchikey{};       ///< of the named compound, where the library holds it
    std::string compound;         ///< the first of the compounds; empty for unlisted
};

/// One spot or peak of the sample, as purity sees it.
struct JudgedFeature {
    Feature feature;
    Identification identification;
    Identity identity;
    double declared_probability = 0.0; ///< that it is the declared compound
    Role role = Role::impurity;
    std::optional<double>
        relative_retention; ///< to the declared compound, as `ratio` of the sample
    std::optional<double>
        unadjusted_ratio;           ///< the same without the hold-up time, where it is known
    std::optional<double> area;     ///< what the blank leaves
    double response_factor = 1.0;   ///< relative to the declared compound
    bool response_is_held = false;  ///< the library holds the factor
    std::optional<double> ppm;      ///< mg in a kg of the sample, of residual solvents
    std::optional<double> per_cent; ///< of all that is not the blank's
    std::optional<double> unnamed_per_cent; ///< the same without the response factors of names that
                                            ///< rest on retention alone; none where it has none
    std::optional<Decimal> reported;        ///< `per_cent` as rounded for the report
    std::vector<std::string> actions;       ///< what is to be done with it
};

/// `open` is a rule that the figures meet, but only if a compound is there that its retention alone
/// speaks for.
enum class Verdict { meets, does_not_meet, cannot_be_told, open };

[[nodiscard]] constexpr const char *to_text(Verdict verdict) {
    switch (verdict) {
    case Verdict::meets:
        return "meets";
    case Verdict::does_not_meet:
        return "does not meet";
    case Verdict::open:
        return "open";
    case Verdict::cannot_be_told:
        break;
    }
    return "can't be told";
}

[[nodiscard]] constexpr const char *to_text(Role role) {
    switch (role) {
    case Role::declared:
        return "declared";
    case Role::impurity:
        return "impurity";
    case Role::disregarded:
        return "disregarded";
    case Role::unretained:
        return "unretained";
    case Role::blank:
        break;
    }
    return "blank";
}

/// One rule, applied.
struct RuleVerdict {
    std::string rule;  ///< such as "identification threshold"
    std::string limit; ///< such as "0.10 %"; empty where the rule has no number
    std::string found; ///< such as "peak 3, 0.12 %"
    Verdict verdict = Verdict::cannot_be_told;
    std::string reason;
};

/// All that is said about one sample.
struct JudgedSample {
    std::string name;
    std::string system{}; ///< that it was run on
    std::string file{};   ///< that it was read from
    std::string declared;
    bool asks_solvents = false;          ///< its residual solvents are judged, nothing else of it
    std::vector<JudgedFeature> features; ///< in the order of the input
    std::optional<std::size_t> main;     ///< index of the declared compound's feature, if any fits
    bool main_is_assumed = false;    ///< it is the reference, and only because it is the largest
    bool main_is_reference = false;  ///< relative retention counts from it: its own tells nothing
    Ratio ratio = Ratio::none;       ///< of the features' relative retention
    std::vector<std::size_t> rivals; ///< other features that the declared compound fits as well
    std::size_t disregarded_count = 0;
    double disregarded_per_cent = 0.0;
    std::optional<double> impurities_per_cent; ///< sum of the reported ones
    std::vector<RuleVerdict> verdicts;
    std::vector<std::string> confirmed; ///< compounds that the user states were confirmed here
    std::vector<std::string> hidden;    ///< what this measurement cannot show, in words
    std::vector<std::string> notes;
};

/// Whether every verdict is `meets`.
[[nodiscard]] bool is_in_order(const JudgedSample &sample);

/// How a feature is called in words: "peak 3" or "spot 3".
[[nodiscard]] std::string feature_text(const Feature &feature);

} // namespace cospot::purity
