#pragma once

#include "library/changes.h"
#include "library/column_runs.h"
#include "library/compounds.h"
#include "library/descriptions.h"
#include "library/overview.h"
#include "library/rename.h"
#include "library/systems.h"
#include "library/value_records.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// What a call of `show` asks for.
struct ShowOptions {
    /// Of a system, of a compound or of a packed column; registry number or InChIKey of a compound.
    std::string name;
    library::Visit which = library::Visit::held;
    library::Selection selection;   ///< of the values
    std::optional<std::size_t> top; ///< most values of each
};

/// The values of a compound or a system that are wanted, or the first of them.
struct HeldValues {
    library::RecordCounts counts; ///< of all that are wanted
    std::vector<library::MeasurementRecord> listed;

    [[nodiscard]] bool is_complete() const {
        return static_cast<std::int64_t>(listed.size()) == counts.all;
    }
};

struct HeldCompound {
    library::Compound compound;
    std::vector<std::string> synonyms;
    std::vector<library::FormerStructure> former; ///< structures that were wrong
    std::optional<library::Change> retirement;
    std::optional<library::Description> description;
    library::Counts counts; ///< of the wanted values that hold
    HeldValues values;
};

struct HeldSystem {
    library::System system;
    std::vector<std::string> former_names;
    std::optional<library::Change> retirement;
    std::vector<std::string> elution; ///< what leaves first and why, as `elution_words` tells it
    library::Counts counts;           ///< of all values that hold
    HeldValues values;
};

struct HeldColumn {
    library::PackedColumn column;
    std::vector<library::ColumnBand> bands; ///< the oldest first
};

/// All that the library holds under one name.
struct Holdings {
    std::string name;
    library::Visit which = library::Visit::held;
    std::optional<HeldSystem> system;
    std::optional<HeldCompound> compound;
    std::optional<HeldColumn> column;
};

/// Throws InputError for a name that the library does not hold, or several structures bear.
[[nodiscard]] Holdings holdings(library::Database &database, const ShowOptions &options);

} // namespace cospot
