#include "command.h"
#include "command_line.h"
#include "learning/learner.h"
#include "library/changes.h"
#include "library/library_file.h"
#include "options.h"
#include "readers/input_file.h"

#include <fmt/format.h>
#include <fmt/ostream.h>
#include <nlohmann/json.hpp>

#include <ostream>
#include <string>
#include <vector>

namespace cospot {

namespace {

namespace po = boost::program_options;

constexpr std::size_t kRemarksShown = 20;

void print_text(const LearnSummary &summary, std::ostream &out) {
    fmt::print(out, "values:    {} added, {} already there\n", summary.values_added,
               summary.values_known);
    fmt::print(out, "compounds: {} added\n", summary.compounds_added);
    fmt::print(out, "systems:   {} added, {} already there\n", summary.systems_added,
               summary.systems_known);
}

void print_json(const LearnSummary &summary, std::ostream &out) {
    const nlohmann::ordered_json json{
        {"values_added", summary.values_added},       {"values_known", summary.values_known},
        {"compounds_added", summary.compounds_added}, {"systems_added", summary.systems_added},
        {"systems_known", summary.systems_known},     {"remarks", summary.remarks}};
    out << json.dump() << '\n';
}

void print_remarks(const LearnSummary &summary, std::ostream &err) {
    for (std::size_t i = 0; i < summary.remarks.size(); ++i) {
        if (i == kRemarksShown) {
            fmt::print(err, "... and {} more remarks; --json lists them all\n",
                       summary.remarks.size() - kRemarksShown);
            break;
        }
        err << summary.remarks[i] << '\n';
    }
}

std::vector<std::string> files_of(const CommandOptions &options, const char *name) {
    return options.has(name) ? options.get<std::vector<std::string>>(name)
                             : std::vector<std::string>{};
}

std::string detail_of(const std::vector<std::string> &system_files,
                      const std::vector<std::string> &files) {
    std::string detail;
    for (const auto *names : {&system_files, &files}) {
        for (const std::string &name : *names) {
            detail += (detail.empty() ? "" : " ") + name;
        }
    }
    return detail;
}

} // namespace

int run_learn(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] learn [FILE...] [options]",
        "Adds measured values of known compounds to the library, all or nothing. FILE is a table\n"
        "with the columns compound,smiles,system,quantity,value and, if you like,\n"
        "cas,run,date,operator,instrument,source,uncertainty,note; quantity is Rf, k, RI or tR\n"
        "(min). A file may be learned again: what the library holds is not stored twice.");
    options.add()("systems", po::value<std::vector<std::string>>(),
                  "table of systems, learned first: system,technique,stationary_phase,"
                  "mobile_phase,scale,programme,note")(
        "create-systems", "create a system that a row names and the library does not hold");
    options.positional("file", -1, "long tables");
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    const std::vector<std::string> system_files = files_of(options, "systems");
    const std::vector<std::string> files = files_of(options, "file");
    if (system_files.empty() && files.empty()) {
        throw InputError({"command line", 0, ""}, "no file", "a FILE to learn, or --systems FILE");
    }

    library::Database database = library::open_library(invocation.library, library::Access::write);
    library::Transaction transaction(database);
    const std::int64_t change =
        library::begin_change(database, "learn", detail_of(system_files, files));
    Learner learner(database, change, options.has("create-systems"));
    for (const std::string &name : system_files) {
        InputFile file(name, invocation.in);
        learner.learn_systems(read_systems(file.stream(), file.name()));
    }
    for (const std::string &name : files) {
        InputFile file(name, invocation.in);
        MeasurementTable table(file.stream(), file.name());
        learner.learn_values(table);
    }
    transaction.commit();

    if (invocation.json) {
        print_json(learner.summary(), invocation.out);
    } else {
        print_text(learner.summary(), invocation.out);
        print_remarks(learner.summary(), invocation.err);
    }
    return kDone;
}

} // namespace cospot
