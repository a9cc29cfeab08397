#pragma once

#include "library/database.h"
#include "purity/judged_sample.h"

#include <span>
#include <string>
#include <vector>

namespace cospot::purity {

/// Who the sample is said to hold.
struct Declaration {
    std::string declared; ///< name in the library
    library::CompoundId declared_id{};
    std::vector<std::string> expected; ///< names in the library of known impurities
    std::vector<library::CompoundId> expected_ids;
    std::vector<std::string> confirmed{}; ///< names in the library; what the user states
};

/// What is believed before measuring: the declared compound is as likely as all others of the
/// library together, and each expected one half of that. Both are assumptions of the program.
[[nodiscard]] matcher::Prior prior_of(const Declaration &declaration,
                                      const LibraryEvidence &evidence, double unlisted);

/// Ranks all features of the sample jointly, and says of each who it most likely is.
[[nodiscard]] std::vector<JudgedFeature>
with_identities(std::span<const Feature> features, const Declaration &declaration,
                const LibraryEvidence &evidence, library::Database &database,
                const IdentificationOptions &how, std::vector<std::string> &notes);

/// From what probability on a feature may be a compound at all, and from what on it is one of
/// several that may.
inline constexpr double kLeastForMain = 0.05;
inline constexpr double kLeastForRival = 0.1;

/// The probability that the feature is the compound of that name.
[[nodiscard]] double probability_of(const Identification &identification,
                                    const std::string &compound);

/// What a feature is likelier to be than a compound: another one, or nothing of the library.
struct Likelier {
    std::string name;
    double probability = 0.0;
};

/// The likeliest of all but the compound.
[[nodiscard]] Likelier likelier_than(const JudgedFeature &feature, const std::string &compound);

/// Whether retention makes the feature more likely that compound than any other one, and than one
/// that the library lacks: then a statement of the user may name it.
[[nodiscard]] bool is_likeliest(const JudgedFeature &feature, const std::string &compound);

/// Chooses the declared compound's feature: the one that the table names so, else the likeliest
/// above 5 % that it does not name otherwise, among residual solvents only where nothing else is
/// likelier; and its rivals: others that are named so, or have 10 % or more.
void choose_main(JudgedSample &sample);

} // namespace cospot::purity
