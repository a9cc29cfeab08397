#include "history/history_document.h"
#include "history/history_json.h"
#include "library/names.h"
#include "library/near_names.h"
#include "options/command.h"
#include "options/open_library.h"
#include "options/options.h"
#include "report/presentation.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <optional>
#include <string>

namespace cospot {

namespace {

namespace po = boost::program_options;

constexpr int kMostChanges = 1'000'000;

/// What a call of `history` asks for.
struct HistoryOptions {
    std::optional<std::string> name; ///< of a compound or a system
    std::optional<std::string> run;
    bool is_system = false; ///< the name is a system's, where a compound has it too
    std::size_t top = 0;
};

HistoryOptions history_options_of(const CommandOptions &options) {
    const int top = options.get<int>("top");
    if (top < 1 || top > kMostChanges) {
        throw bad_option("top", std::to_string(top), fmt::format("1 to {} changes", kMostChanges));
    }
    HistoryOptions asked{.name = {},
                         .run = options.text("run"),
                         .is_system = options.has("system"),
                         .top = static_cast<std::size_t>(top)};
    if (options.has("subject")) {
        asked.name = options.texts("subject").front();
    }
    if (asked.is_system && !asked.name) {
        throw bad_usage("--system without a name", "the NAME of the system");
    }
    return asked;
}

/// Narrows the question to what the name stands for; returns what the library calls it.
std::string ask_about(library::Database &database, const std::string &name, bool is_system,
                      library::HistoryQuestion &question) {
    const Where where{"command line", 0, ""};
    const auto system = library::find_system(database, name);
    const auto compound = is_system ? std::nullopt : compound_if_named(database, name, where);
    if (system && compound) {
        throw bad_usage(fmt::format("{}, both a system and the compound {}", in_quotes(name),
                                    exact_words(*compound)),
                        "--system for the system, or the InChIKey of the compound");
    }
    if (!system && !compound) {
        throw bad_usage(in_quotes(name), "a compound or a system of the library (cospot list)" +
                                             did_you_mean(database, name, NameOf::any));
    }
    if (system) {
        question.system = system->id;
        return system->name;
    }
    question.compound = compound->id;
    return compound->name;
}

HistoryResult read_history(library::Database &database, const HistoryOptions &asked) {
    library::HistoryQuestion question{
        .compound = {}, .system = {}, .run = asked.run, .top = asked.top};
    std::string subject;
    if (asked.name) {
        subject = ask_about(database, *asked.name, asked.is_system, question);
    }
    if (asked.run) {
        if (!library::is_run(database, *asked.run)) {
            throw bad_option("run", in_quotes(*asked.run),
                             "the name of a run of the library (cospot show NAME tells them)");
        }
        subject += (subject.empty() ? "run " : " in run ") + *asked.run;
    }
    return {subject.empty() ? "the library" : subject, library::history_of(database, question)};
}

} // namespace

int run_history(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] history [NAME] [options]",
        "Says who changed what and when, by which command, the newest first: of the compound\n"
        "or the system NAME, of a run, or of the whole library.");
    options.add()("run", po::value<std::string>(), "changes of the values of this run only")(
        "system", "NAME is a system, where a compound has that name too")(
        "top", po::value<int>()->default_value(50), "most changes listed");
    add_report_option(options);
    options.positional("subject", 1, "compound or system");
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    const HistoryOptions asked = history_options_of(options);
    Presentation presentation(invocation, options);
    library::Database database = open_library(invocation, library::Access::read);
    const HistoryResult found = read_history(database, asked);
    for (const library::HistoryEntry &entry : found.history.entries) {
        presentation.add(history_json(entry));
    }
    std::vector<std::string> notes;
    if (invocation.json && found.history.more > 0) {
        notes.push_back(fmt::format("{} more, older ones; --top lists them",
                                    counted(found.history.more, "change")));
    }
    presentation.finish(
        notes, [&] { return history_document(found); },
        [&] { return trace_of("history", invocation, {}); });
    return kDone;
}

} // namespace cospot
