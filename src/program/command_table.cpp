#include "options/command.h"

namespace cospot {

const std::vector<Command> &command_table() {
    static const std::vector<Command> commands{
        {"desk", "opens the library as pages in the browser of this computer", run_desk},
        {"init", "creates an empty library", run_init},
        {"learn", "adds measured values of known compounds, and systems", run_learn},
        {"identify", "ranks candidates for each spot or peak", run_identify},
        {"purity", "judges a sample against what it is declared to be", run_purity},
        {"advise", "says which further measurement would tell most", run_advise},
        {"resolve", "finds the composition that resolves a mixture best (isocratic HPLC)",
         run_resolve},
        {"peaks", "finds and measures the peaks of a recorded trace", run_peaks},
        {"photo", "finds the spots of a plate in its photo", run_photo},
        {"distil", "puts a gas chromatogram on a scale of boiling points", run_distil},
        {"predict", "says what a structure is and what retention to expect", run_predict},
        {"column", "plans a preparative column from Rf on a plate", run_column},
        {"pool", "says which fractions of a column to combine", run_pool},
        {"list", "lists the compounds or systems of the library", run_list},
        {"export", "writes values, compounds or systems as CSV, JSON or SDF", run_export},
        {"show", "shows all that the library holds on a compound or a system", run_show},
        {"audit", "finds what contradicts itself or is thin in the library", run_audit},
        {"prove", "says how often the library's stated probabilities are right", run_prove},
        {"rename", "gives a compound or a system another name, or the right structure", run_rename},
        {"retire", "withdraws values, a compound or a system; they stay readable", run_retire},
        {"history", "says who changed what and when, by which command", run_history},
        {"merge", "takes over all that another library holds", run_merge},
        {"backup", "copies the library into a new file, while others use it", run_backup},
    };
    return commands;
}

} // namespace cospot
