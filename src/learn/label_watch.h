#pragma once

#include "library/database.h"
#include "model/matcher/standard_labels.h"
#include "model/matcher/system_model.h"
#include "readers/measurement_table.h"

#include <map>
#include <string>
#include <tuple>
#include <vector>

namespace cospot {

/// Compares the labels of the runs that are learned with what the library held before: an exchange
/// of two standards is seen while it can still be mended. Values without run and date are not
/// compared, nor those on a system of which the library held nothing.
class LabelWatch {
public:
    explicit LabelWatch(library::Database &database) : database_(&database) {}

    /// To be told of each row before it is learned.
    void see(const MeasurementRow &row);

    /// What is doubtful about the runs seen since the last call, one sentence a run.
    [[nodiscard]] std::vector<std::string> doubts();

private:
    struct Seen {
        matcher::LabelledReading reading;
        bool is_label = false; ///< not a row of a table of values
        std::size_t line = 0;
        std::string lane; ///< of a plate
    };
    using System = std::pair<std::string, Quantity>;
    using Run = std::tuple<System, std::string, std::string>; ///< name, date

    const matcher::SystemModel &model_of(const System &system);
    std::string name_of(std::size_t compound);
    std::string doubt_about(const Run &run, const std::vector<Seen> &seen);

    library::Database *database_;
    std::map<System, matcher::SystemModel> models_;
    std::map<Run, std::vector<Seen>> runs_;
    /// By name; none where the library holds no compound of it, or several.
    std::map<std::string, std::optional<library::CompoundId>> compounds_;
};

} // namespace cospot
