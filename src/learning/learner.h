#pragma once

#include "library/compounds.h"
#include "library/database.h"
#include "library/measurements.h"
#include "library/runs.h"
#include "readers/measurement_table.h"
#include "readers/systems_table.h"

#include <cstddef>
#include <cstdint>
#include <map>
#include <string>
#include <unordered_map>
#include <vector>

namespace cospot {

/// What learning added to the library, and what the user should look at.
struct LearnSummary {
    std::size_t systems_added = 0;
    std::size_t systems_known = 0;
    std::size_t compounds_added = 0;
    std::size_t values_added = 0;
    std::size_t values_known = 0; ///< already held: same compound, run, quantity, value, source
    std::vector<std::string> remarks;
};

/// Writes systems and measured values into a library within one change. Each structure is read and
/// described once. All of it belongs into one transaction of the caller.
class Learner {
public:
    /// `create_systems`: a row of an unknown system makes one, instead of being an error.
    Learner(library::Database &database, std::int64_t change, bool create_systems);

    /// Adds the systems that the library does not hold, and fills in what a held one left unstated.
    /// Throws InputError where a row contradicts what the library says about its system.
    void learn_systems(const std::vector<SystemRow> &rows);

    /// Adds all rows. Throws InputError at the first row that cannot be learned.
    void learn_values(MeasurementTable &table);

    [[nodiscard]] const LearnSummary &summary() const noexcept { return summary_; }

private:
    void learn_row(const MeasurementRow &row, const MeasurementTable &table);
    std::int64_t system_of(const MeasurementRow &row, const MeasurementTable &table);
    std::int64_t compound_of(const MeasurementRow &row, const MeasurementTable &table);
    std::int64_t compound_by_name(const MeasurementRow &row, const MeasurementTable &table);
    std::int64_t compound_by_structure(const MeasurementRow &row, const MeasurementTable &table);
    void note_names(const library::Compound &held, const MeasurementRow &row);

    library::Database *database_;
    std::int64_t change_;
    bool create_systems_;
    library::MeasurementWriter writer_;
    LearnSummary summary_;
    std::map<std::string, std::int64_t, std::less<>> systems_;
    std::unordered_map<std::string, std::int64_t> compounds_; ///< by name and SMILES as written
    std::unordered_map<std::string, std::string> inchikeys_;  ///< by SMILES as written
};

} // namespace cospot
