#pragma once

#include "purity/judged_sample.h"

#include <string>

namespace cospot::purity {

/// From this probability on an identity is taken as settled as far as retention can.
inline constexpr double kSettled = 0.8;

/// Why a rule that rests on a name is judged by it.
inline constexpr const char *kStatedByUser = "identity confirmed, as stated with --confirmed";

/// Whether retention names one compound, or several that it cannot tell apart, surely enough; or
/// the user's table names one and retention does not contradict it.
[[nodiscard]] bool is_settled(const Identity &identity);

/// "likeliest is toluene, probability 0.94", or what the user's table says and whether retention
/// agrees.
[[nodiscard]] std::string proposal_text(const Identity &identity);

/// The verdict on a rule that is met if the feature is the compound that the user says it is.
[[nodiscard]] RuleVerdict by_statement(RuleVerdict verdict);

/// The verdict on a rule that is met only if the feature is what retention says: a compound known
/// by its retention alone counts as unidentified (ICH Q3B(R2), 2006, glossary).
[[nodiscard]] RuleVerdict open_until_confirmed(RuleVerdict verdict, const std::string &compound);

/// The same of a feature, with where the name is from.
[[nodiscard]] RuleVerdict open_until_confirmed(RuleVerdict verdict, const Identity &identity);

/// "known by its retention only: likeliest is ...", or the table's name.
[[nodiscard]] std::string unconfirmed_text(const Identity &identity);

/// Adds the action, once.
void ask_to_confirm(JudgedFeature &feature, const std::string &compound);

} // namespace cospot::purity
