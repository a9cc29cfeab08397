#pragma once

#include "library/changes.h"
#include "library/database.h"
#include "shared/quantity.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace cospot::library {

/// A value that a change corrected or withdrew.
struct ChangedValue {
    std::string compound;
    std::string system;
    Quantity quantity = Quantity::Rf;
    std::string run; ///< name; may be empty
    double before = 0.0;
    std::optional<double> after; ///< none: withdrawn
};

/// Of one change so many values are told; the counts have all.
inline constexpr std::size_t kMostChangedValues = 5;

/// What one change of the library did. Numbers are of the rows that it stored or withdrew; where
/// the history of something is asked for, values are counted of that only.
struct HistoryEntry {
    ChangeId id{};
    Change change;
    std::string action;  ///< the verb, e.g. learn
    std::string command; ///< as it was typed, without the library; empty: not recorded
    std::int64_t values = 0;
    std::int64_t withdrawn = 0; ///< values that are still retired by it
    std::int64_t corrected = 0; ///< of the values: that superseded an older one
    std::int64_t compounds = 0;
    std::int64_t names = 0;
    std::int64_t structures = 0; ///< corrected
    std::int64_t systems = 0;
    std::int64_t responses = 0;
    std::int64_t bands = 0;            ///< of the laboratory's own columns
    std::int64_t proofs = 0;           ///< questions that were proved
    std::vector<ChangedValue> changed; ///< the first ones of those corrected and withdrawn
};

/// Whose history is asked for; what is empty does not narrow it.
struct HistoryQuestion {
    std::optional<CompoundId> compound;
    std::optional<SystemId> system;
    std::optional<std::string> run; ///< name, as it was learned
    std::size_t top = 50;           ///< most entries
};

struct History {
    std::vector<HistoryEntry> entries; ///< the newest first
    std::size_t more = 0;              ///< older ones that are left out
};

/// The changes of the library that were about what is asked for: of a compound its own, those of
/// its names and values; of a system and a run likewise. A change that took nothing up is left out.
[[nodiscard]] History history_of(Database &database, const HistoryQuestion &question);

/// Whether any value was learned in a run of that name.
[[nodiscard]] bool is_run(Database &database, const std::string &run);

} // namespace cospot::library
