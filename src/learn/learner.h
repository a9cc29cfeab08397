#pragma once

#include "learn/compound_learner.h"
#include "learn/label_watch.h"
#include "learn/learn_summary.h"
#include "learn/replicate_watch.h"
#include "library/database.h"
#include "library/measurements.h"
#include "library/runs.h"
#include "library/systems.h"
#include "quantities/ladder.h"
#include "readers/compound_row.h"
#include "readers/measurement_table.h"

#include <functional>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace cospot {

/// How rows are to be learned.
struct LearnerOptions {
    bool create_systems =
        false;            ///< a row of an unknown system makes one, instead of being an error
    bool correct = false; ///< a row replaces the one value of its compound, run and quantity
    bool accepts_corrected = false; ///< a structure that was corrected may come back
};

/// Writes measured values and structures into a library within one change, row by row. All of it
/// belongs into one transaction of the caller.
class Learner {
public:
    Learner(library::Database &database, library::ChangeId change, LearnerOptions options,
            LearnSummary &summary);

    /// Reads the structures of these SMILES ahead, on all cores.
    void prepare(const std::vector<std::string> &smiles) { compounds_.prepare(smiles); }

    /// Learn one row. Throw InputError, and store nothing of it, if that cannot be done.
    void learn(const MeasurementRow &row);
    void learn(const CompoundRow &row);

    /// Ends the present file: what it added counts as held for the next one.
    void begin_file() {
        writer_.begin_file();
        confirmed_.clear();
    }

    /// What the runs that were learned since the last call leave doubtful (`LabelWatch`).
    [[nodiscard]] std::vector<std::string> doubts() { return labels_.doubts(); }

    /// Which of them the other values of their compound contradict (`ReplicateWatch`).
    [[nodiscard]] ReplicateWatch::Words outlying_replicates() { return replicates_.words(); }

    /// Keeps the ladder of the run that these rows belong to.
    void keep_ladder(const MeasurementRow &row, const quantities::Ladder &ladder);

private:
    const library::System &system_of(const MeasurementRow &row);
    library::RunId run_of(const MeasurementRow &row, library::SystemId system);
    void correct(const MeasurementRow &row, const library::Measurement &measurement);
    [[nodiscard]] std::string held_elsewhere(const library::Measurement &measurement) const;

    library::Database *database_;
    library::ChangeId change_;
    LearnerOptions options_;
    LearnSummary *summary_;
    CompoundLearner compounds_;
    LabelWatch labels_;
    ReplicateWatch replicates_;
    std::set<library::RunId> undated_; ///< runs with a name but no date
    library::MeasurementWriter writer_;
    /// Of several values of one run, those that a row repeats.
    std::set<library::MeasurementId> confirmed_;
    std::map<std::string, library::System, std::less<>> systems_;
    /// The run of the row before, which most rows share.
    struct {
        library::SystemId system{};
        library::Run run;
        library::RunId id{};
    } last_run_;
};

} // namespace cospot
