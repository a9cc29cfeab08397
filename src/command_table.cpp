#include "command.h"

namespace cospot {

const std::vector<Command> &command_table() {
    static const std::vector<Command> commands{
        {"init", "creates an empty library", run_init},
        {"learn", "adds measured values of known compounds, and systems", run_learn},
        {"identify", "ranks candidates for each spot or peak", run_identify},
        {"list", "lists the compounds or systems of the library", run_list},
        {"show", "shows all that the library holds on a compound or a system", run_show},
    };
    return commands;
}

} // namespace cospot
