#include "program/command_line.h"

#include "document/style.h"
#include "library/database.h"
#include "options/command.h"
#include "options/version.h"
#include "shared/error.h"
#include "shared/interruption.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <cstdlib>
#include <exception>
#include <istream>
#include <new>
#include <optional>
#include <ostream>
#include <sstream>
#include <system_error>

namespace cospot {

namespace {

constexpr std::string_view kUsage = "cospot [--library FILE] [--json] VERB ...";

struct GlobalOptions {
    std::optional<std::string> library;
    bool json = false;
    bool html = false;
    bool help = false;
    bool version = false;
    std::vector<std::string> rest;
};

/// Takes the options that every verb shares out of the arguments, wherever they stand.
GlobalOptions take_global_options(const std::vector<std::string> &arguments) {
    constexpr std::string_view assignment = "--library=";
    GlobalOptions options;
    for (std::size_t i = 0; i < arguments.size(); ++i) {
        const std::string &argument = arguments[i];
        if (argument == "--json") {
            options.json = true;
        } else if (argument == "--html") {
            options.html = true;
        } else if (argument.starts_with(assignment)) {
            options.library = argument.substr(assignment.size());
        } else if (argument == "--library") {
            if (++i == arguments.size()) {
                throw bad_usage("--library at the end", "a file name behind it");
            }
            options.library = arguments[i];
        } else if (options.rest.empty() && (argument == "--help" || argument == "-h")) {
            options.help = true;
        } else if (options.rest.empty() && argument == "--version") {
            options.version = true;
        } else {
            options.rest.push_back(argument);
        }
    }
    return options;
}

std::string library_file(const GlobalOptions &options) {
    if (options.library) {
        return *options.library;
    }
    const char *variable = std::getenv("COSPOT_LIBRARY"); // NOLINT(concurrency-mt-unsafe)
    return variable != nullptr && *variable != '\0' ? variable : "cospot.db";
}

void print_help(std::ostream &out) {
    out << "cospot says which compounds spots and peaks may be, and how sure that is, from\n"
           "retention measured on your own systems.\n\nUsage: "
        << kUsage << "\n\n";
    for (const Command &command : command_table()) {
        out << fmt::format("  {:<10} {}\n", command.verb, command.summary);
    }
    out << "\nThe library is the file after --library, else $COSPOT_LIBRARY, else cospot.db\n"
           "here. --json prints one JSON object a line, --html the results as a part of a\n"
           "page, for programs that show them. `cospot VERB --help` tells the options of a\n"
           "verb, --version that of the program.\n"
           "Exit codes: 0 done, 1 done but something needs attention, 2 bad input or usage,\n"
           "3 a fault of the program.\n"
           "Retention alone never proves identity.\n";
}

int dispatch(const GlobalOptions &options, std::istream &in, std::ostream &out, std::ostream &err,
             bool &has_changed, std::vector<std::function<void()>> &afterwards) {
    if (options.version) {
        out << "cospot " << kVersion << '\n';
        return kDone;
    }
    if (options.help) {
        print_help(out);
        return kDone;
    }
    if (options.rest.empty()) {
        print_help(err);
        return kBadInput;
    }
    const std::string &verb = options.rest.front();
    for (const Command &command : command_table()) {
        if (verb == command.verb) {
            return command.run({library_file(options),
                                options.json,
                                options.html,
                                {options.rest.begin() + 1, options.rest.end()},
                                in,
                                out,
                                err,
                                has_changed,
                                afterwards,
                                command.verb});
        }
    }
    std::string verbs;
    for (const Command &command : command_table()) {
        verbs += fmt::format("{}{}", verbs.empty() ? "" : ", ", command.verb);
    }
    throw bad_usage(in_quotes(verb), "a verb: " + verbs);
}

/// Results for a pipe or a file wait until the command is done and the library closed: whoever
/// reads a pipe may take their time (a pager), and whoever writes the library would wait for them.
class HeldBack {
public:
    explicit HeldBack(std::ostream &out) : out_(&out) {}
    ~HeldBack() { *out_ << results_.view(); }
    HeldBack(const HeldBack &) = delete;
    HeldBack &operator=(const HeldBack &) = delete;

    [[nodiscard]] std::ostream &stream() { return is_terminal(*out_) ? *out_ : results_; }

private:
    std::ostream *out_;
    std::ostringstream results_;
};

/// Whether the cause is what the user gave, or the machine: no room, no rights, no memory.
bool is_of_the_users_world(const std::exception &error) {
    return dynamic_cast<const InputError *>(&error) != nullptr ||
           dynamic_cast<const library::DatabaseError *>(&error) != nullptr ||
           dynamic_cast<const Interrupted *>(&error) != nullptr ||
           dynamic_cast<const std::system_error *>(&error) != nullptr ||
           dynamic_cast<const std::bad_alloc *>(&error) != nullptr;
}

} // namespace

int run_command_line(const std::vector<std::string> &arguments, std::istream &in, std::ostream &out,
                     std::ostream &err) {
    bool has_changed = false;
    int code = kDone;
    try {
        HeldBack held(out);
        std::vector<std::function<void()>> afterwards;
        code = dispatch(take_global_options(arguments), in, held.stream(), err, has_changed,
                        afterwards);
        for (const auto &work : afterwards) {
            work();
        }
    } catch (const Interrupted &error) {
        err << "cospot: "
            << (is_to_be_said() ? "interrupted; the change of the library is committed"
                                : error.what())
            << '\n';
        code = kBadInput;
    } catch (const std::exception &error) {
        code = report_failure(error, err);
    }
    out.flush();
    if (!out && code != kBadInput) {
        err << "cospot: the output could not be written"
            << (has_changed ? "; the change of the library is committed\n" : "\n");
        code = kBadInput;
    }
    err.flush();
    said();
    return code;
}

int report_failure(const std::exception &error, std::ostream &err) {
    const auto *input = dynamic_cast<const InputError *>(&error);
    if (input != nullptr && !input->each().empty()) {
        err << "cospot: " << input->heading() << '\n';
        for (const std::string &message : told_together(input->each())) {
            err << printable(message) << '\n';
        }
        return kBadInput;
    }
    err << "cospot: " << printable(error.what()) << '\n';
    if (is_of_the_users_world(error)) {
        return kBadInput;
    }
    err << "This is a fault of cospot " << kVersion << ", not of your input; "
        << (is_to_be_said() ? "the change of the library is committed" : "nothing was stored")
        << ".\nPlease send the command, the line above and, if you may, the input files to "
           "whoever\n"
           "looks after cospot for you.\n";
    return kProgramFault;
}

} // namespace cospot
