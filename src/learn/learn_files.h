#pragma once

#include "document/progress.h"
#include "learn/learn_summary.h"
#include "learn/learner.h"
#include "learn/raw_run.h"
#include "learn/refused_rows.h"
#include "library/database.h"
#include "readers/input_file.h"
#include "shared/quantity.h"
#include "shared/table.h"

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// How files are to be learned.
struct FileOptions {
    std::vector<ColumnAlias> aliases;
    std::optional<Quantity> quantity{}; ///< of values whose rows do not name it
    RunDetails run;                     ///< of plates and chromatograms
};

/// What files are learned into.
struct LearnTarget {
    library::Database &database;
    library::ChangeId change; ///< what they are learned as
    Learner &learner;
    LearnSummary &summary;
    RefusedRows *refused; ///< null: the first faulty row is an error
    Progress &progress;
};

/// Learns a table of systems. Throws InputError for a faulty one.
void learn_systems_file(InputFile &file, const std::vector<ColumnAlias> &aliases,
                        LearnTarget &target);

/// Learns one file of any kind that `learn_kind` tells. Throws InputError for a faulty file.
void learn_file(InputFile &file, const FileOptions &options, LearnTarget &target,
                std::istream &standard_input);

} // namespace cospot
