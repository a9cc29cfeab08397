#include "evidence/fitted_system.h"
#include "learn/description_learner.h"
#include "learn/learn_document.h"
#include "learn/learn_files.h"
#include "library/changes.h"
#include "options/command.h"
#include "options/input_options.h"
#include "options/open_library.h"
#include "options/options.h"
#include "report/presentation.h"
#include "shared/date.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ostream.h>
#include <fmt/ranges.h>

#include <optional>
#include <ostream>
#include <string>
#include <vector>

namespace cospot {

namespace {

namespace po = boost::program_options;

constexpr std::size_t kRemarksShown = 20;

using Texts = std::vector<std::string>;

void add_learn_options(CommandOptions &options) {
    options.add()("systems", po::value<Texts>(),
                  "table of systems, learned first: system, technique, stationary_phase, "
                  "mobile_phase, scale, reference, programme, column_length_m, column_diameter_mm, "
                  "film_um, particle_um, note")(
        "create-systems", "create a system that a row names and the library does not hold")(
        "dry-run", "say what would be learned, and store nothing")(
        "partial",
        "learn the good rows and write the faulty ones to a file; of plates, leave out lanes with "
        "faults and plates without a front")("refused", po::value<std::string>(),
                                             "that file (else FILE.refused.csv)")(
        "accept",
        "learn also what seems wrong: exchanged labels, values far from those held, structures "
        "that were corrected")(
        "correct",
        "each row supersedes the value of its compound, run and quantity that says otherwise")(
        "quantity", po::value<std::string>(),
        "quantity of a table of values that has no column for it: Rf, k, RI, tR, RRT or r");
    add_input_options(options);
    options.add()("run", po::value<std::string>()->default_value("", "file name"),
                  "name of the run of a plate or chromatogram")(
        "date", po::value<std::string>()->default_value("", ""),
        "its date")("operator", po::value<std::string>()->default_value("", ""), "who ran it")(
        "instrument", po::value<std::string>()->default_value("", ""), "on what")(
        "source", po::value<std::string>()->default_value("", ""), "where its values are from");
    options.positional("file", -1, "what to learn");
}

FileOptions file_options(const CommandOptions &options, const Invocation &invocation) {
    FileOptions result;
    result.run.reading = input_settings(options, invocation);
    result.run.reading.form.is_partial = options.has("partial");
    result.aliases = result.run.reading.form.aliases;
    if (const auto quantity = options.text("quantity")) {
        result.quantity = quantity_from_text(*quantity);
        if (!result.quantity) {
            throw bad_option("quantity", in_quotes(*quantity), "Rf, k, RI, tR, RRT or r");
        }
    }
    result.run.run = options.get<std::string>("run");
    if (const auto &date = options.get<std::string>("date"); !date.empty()) {
        result.run.date = parse_past_date(date, at_option("date"));
    }
    result.run.operator_name = options.get<std::string>("operator");
    result.run.instrument = options.get<std::string>("instrument");
    result.run.source = options.get<std::string>("source");
    return result;
}

std::optional<RefusedRows> refused_rows(const CommandOptions &options, const Texts &files) {
    if (!options.has("partial")) {
        return std::nullopt;
    }
    if (options.has("refused")) {
        return RefusedRows(options.get<std::string>("refused"));
    }
    return RefusedRows((files.empty() || files.front() == "-" ? "standard-input" : files.front()) +
                       ".refused.csv");
}

void print_remarks(const LearnSummary &summary, std::ostream &err) {
    for (std::size_t i = 0; i < summary.remarks.size(); ++i) {
        if (i == kRemarksShown) {
            fmt::print(err, "... and {} more remarks; --json lists them all\n",
                       summary.remarks.size() - kRemarksShown);
            break;
        }
        err << printable(summary.remarks[i]) << '\n';
    }
}

void print_doubts(const LearnSummary &summary, std::ostream &err) {
    for (const std::string &doubt : summary.doubts) {
        err << printable(doubt) << '\n';
    }
}

void remark_missing_runs(LearnSummary &summary) {
    constexpr std::size_t few_runs = 5;
    if (summary.runs_without_date >= few_runs) {
        summary.remarks.push_back(fmt::format(
            "{} runs have no date: those of one day then count as independent runs, and "
            "spreads come out too small; give dates",
            summary.runs_without_date));
    }
    if (summary.added_without_run > 0) {
        summary.remarks.push_back(fmt::format(
            "{} values have neither run nor date: each counts as an independent run, and spreads "
            "may come out too small",
            summary.added_without_run));
    }
    if (summary.known_without_run > 0) {
        summary.remarks.push_back(fmt::format(
            "{} values without run and date equal values already there and were not stored again; "
            "give run or date if they were measured anew",
            summary.known_without_run));
    }
}

void present_learned(const Invocation &invocation, const CommandOptions &options,
                     const LearnSummary &summary, LearnOutcome outcome) {
    present(
        invocation, options, [&] { return learn_json(summary, outcome); },
        [&] { return learn_document(summary, outcome); });
    if (!invocation.json) {
        print_remarks(summary, invocation.err);
    }
    print_doubts(summary, invocation.err);
}

std::vector<InputFile> open_files(const Texts &names, std::istream &standard_input) {
    std::vector<InputFile> files;
    for (const std::string &name : names) {
        files.emplace_back(name, standard_input);
    }
    return files;
}

/// The files of one call, opened before the library is locked: standard input may take its time.
struct OpenFiles {
    std::vector<InputFile> systems;
    std::vector<InputFile> others;
};

/// From 0 to 1.
double share_read(const std::vector<InputFile> &files) {
    double sum = 0.0;
    for (const InputFile &file : files) {
        sum += file.share_read();
    }
    return sum / static_cast<double>(files.size());
}

/// Learns everything inside the transaction that is open.
void learn_all(const CommandOptions &options, const FileOptions &how, const Invocation &invocation,
               OpenFiles &files, library::Database &database, RefusedRows *refused,
               LearnSummary &summary) {
    Texts names = options.texts("systems");
    const Texts others = options.texts("file");
    names.insert(names.end(), others.begin(), others.end());
    const library::ChangeId change =
        library::begin_change(database, "learn", fmt::format("{}", fmt::join(names, " ")));
    Learner learner(database, change,
                    {.create_systems = options.has("create-systems"),
                     .correct = options.has("correct"),
                     .accepts_corrected = options.has("accept")},
                    summary);
    Progress progress(invocation.err, "rows", [&] { return share_read(files.others); });
    LearnTarget target{database, change, learner, summary, refused, progress};
    for (InputFile &file : files.systems) {
        learn_systems_file(file, how.aliases, target);
    }
    for (InputFile &file : files.others) {
        learn_file(file, how, target, invocation.in);
    }
    summary.doubts = learner.doubts();
    const ReplicateWatch::Words outlying = learner.outlying_replicates();
    summary.remarks.insert(summary.remarks.begin(), outlying.remarks.begin(),
                           outlying.remarks.end());
    summary.doubts.insert(summary.doubts.end(), outlying.doubts.begin(), outlying.doubts.end());
    describe_new_compounds(database);
    remark_missing_runs(summary);
    if (refused != nullptr && refused->count() > 0) {
        summary.rows_refused = refused->count();
        const char *outcome =
            options.has("dry-run") ? "would be refused, and written to" : "refused: see";
        summary.remarks.push_back(
            fmt::format("{} {} {}", counted(refused->count(), "row"), outcome, refused->file()));
    }
}

} // namespace

int run_learn(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] learn [FILE...] [options]",
        "Adds to the library, all or nothing. FILE is\n"
        "  measured values:  compound,smiles,system,quantity,value and, if you like,\n"
        "                    cas,run,date,operator,instrument,source,uncertainty,note\n"
        "                    (quantity is Rf, k, RI, tR in min, or RRT or r, relative\n"
        "                    to the compound in column reference of the systems);\n"
        "                    smiles may be missing where all compounds are known, and\n"
        "                    quantity where the values stand in a column Rf, k, RI, tR,\n"
        "                    RRT or r, or with --quantity\n"
        "  structures:       compound,smiles and cas,synonyms; or .smi; or .sdf\n"
        "  response factors: compound,relative_to,system,response_factor; also\n"
        "                    date,source,note\n"
        "  a plate:          lane,label,spot,distance_mm,front_mm,role with --system\n"
        "                    (Rf instead of distances if these were not noted); its\n"
        "                    standards are learned: by the role, or by --standards\n"
        "  a chromatogram:   peak,tR,compound with --system, and --ladder for an index\n"
        "  runs of a column: column,compound,Rf,start_mL,end_mL and silica_g, or\n"
        "                    diameter_mm and bed_mm; also peak_mL,column_volume_mL,\n"
        "                    outside_mL,amount_mg,load_mL,run,date,source,note\n"
        "A file may be learned again: what the library holds is not stored twice.");
    add_learn_options(options);
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    if (!options.has("systems") && !options.has("file")) {
        throw bad_usage("no file", "a FILE to learn, or --systems FILE");
    }
    std::optional<RefusedRows> refused = refused_rows(options, options.texts("file"));
    LearnSummary summary;
    OpenFiles files{open_files(options.texts("systems"), invocation.in),
                    open_files(options.texts("file"), invocation.in)};
    const FileOptions how = file_options(options, invocation);
    library::Database database = open_library(invocation, library::Access::write);
    library::Transaction transaction(database);
    learn_all(options, how, invocation, files, database, refused ? &*refused : nullptr, summary);
    if (summary.values_added + summary.values_corrected == 0) {
        summary.doubts.clear(); // all of it is held already
    }
    const LearnOutcome outcome = !summary.doubts.empty() && !options.has("accept")
                                     ? LearnOutcome::held_back
                                 : options.has("dry-run") ? LearnOutcome::dry_run
                                                          : LearnOutcome::stored;
    if (outcome == LearnOutcome::stored) {
        transaction.commit();
        invocation.has_changed = true;
    }
    if (refused && outcome == LearnOutcome::stored) {
        refused->publish();
    }
    present_learned(invocation, options, summary, outcome);
    if (outcome == LearnOutcome::stored) {
        keep_fits(database);
    }
    return summary.rows_refused > 0 || summary.is_partial || !summary.doubts.empty()
               ? kNeedsAttention
               : kDone;
}

} // namespace cospot
