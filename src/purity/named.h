#pragma once

#include "evidence/library_evidence.h"
#include "library/database.h"
#include "purity/judged_sample.h"

#include <span>
#include <string>
#include <vector>

namespace cospot::purity {

/// Takes the name that the user's table gives the feature for its identity, as what it is: a
/// statement of the user. Retention is held against it: it contradicts the name where the compound
/// could be compared and has less than 5 %, and where it could not, but another compound is
/// settled; then a warning says so. Does nothing where the table gives no name. Throws InputError
/// for a name of several structures.
void set_name(JudgedFeature &feature, const LibraryEvidence &evidence, library::Database &database);

/// Whether the table names the feature another compound.
[[nodiscard]] bool is_named_otherwise(const JudgedFeature &feature, const std::string &compound);

/// Whether the table names the feature so.
[[nodiscard]] bool is_named_so(const JudgedFeature &feature, const std::string &compound);

/// Which samples of a file hold nothing but named peaks without any amount, beside samples with
/// amounts: runs of standards. Their residual solvents cannot be judged.
[[nodiscard]] std::vector<bool>
are_of_standards(std::span<const std::vector<const Feature *>> samples);

/// "2 peaks are judged by the names ..."; empty where the table names none.
[[nodiscard]] std::string names_words(std::span<const std::vector<const Feature *>> samples);

} // namespace cospot::purity
