#include "evidence/fitted_system.h"
#include "library/retire.h"
#include "library/sheets.h"
#include "options/command.h"
#include "options/open_library.h"
#include "options/options.h"
#include "report/presentation.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ostream.h>

#include <algorithm>
#include <cstdint>
#include <iterator>
#include <optional>
#include <ostream>
#include <string>
#include <vector>

namespace cospot {

namespace {

namespace po = boost::program_options;

constexpr const char *kOptionSystem = "system";
constexpr const char *kOptionCompound = "compound";
constexpr const char *kOptionSheet = "sheet";

using Numbers = std::vector<std::int64_t>; // that the user gives

std::vector<library::MeasurementId> values_of(const Numbers &numbers) {
    std::vector<library::MeasurementId> values;
    std::transform(numbers.begin(), numbers.end(), std::back_inserter(values),
                   [](std::int64_t number) { return library::MeasurementId(number); });
    return values;
}

Document retired_document(bool undo, const library::RetireSummary &summary) {
    Document document{.title = undo ? "Taken back" : "Retired"};
    document.blocks.emplace_back(Paragraph{
        fmt::format("{} {}; {} {} already.", counted(summary.changed, "value"),
                    undo ? (summary.changed == 1 ? "counts again" : "count again") : "retired",
                    summary.unchanged, undo ? "in use" : "retired")});
    return document;
}

void present_retired(const Invocation &invocation, const CommandOptions &options, bool undo,
                     const library::RetireSummary &summary) {
    present(
        invocation, options,
        [&] {
            return Json{{undo ? "taken_back" : "retired", summary.changed},
                        {"unchanged", summary.unchanged}};
        },
        [&] { return retired_document(undo, summary); });
}

int retire_by_id(const Invocation &invocation, const std::string &reason, bool undo,
                 const CommandOptions &options) {
    const auto ids = values_of(options.get<Numbers>("value"));
    library::Database database = open_library(invocation, library::Access::write);
    const auto summary = undo ? library::take_back_values(database, ids, reason)
                              : library::retire_values(database, ids, reason);
    invocation.has_changed |= summary.changed > 0;
    present_retired(invocation, options, undo, summary);
    keep_fits(database);
    return kDone;
}

/// Retires a system or a compound; `kind` says which.
int retire_by_name(const Invocation &invocation, const char *kind, const std::string &reason,
                   bool undo, const CommandOptions &options) {
    const bool is_system = std::string_view(kind) == kOptionSystem;
    const auto &name = options.get<std::string>(kind);
    library::Database database = open_library(invocation, library::Access::write);
    const std::optional<std::size_t> changed =
        is_system ? (undo ? library::take_back_system(database, name, reason)
                          : library::retire_system(database, name, reason))
                  : (undo ? library::take_back_compound(database, name, reason)
                          : library::retire_compound(database, name, reason));
    if (!changed) {
        fmt::print(invocation.err, "{} {} {} already\n", kind, printable(name),
                   undo ? "is in use" : "is retired");
    }
    invocation.has_changed |= changed.has_value();
    present_retired(invocation, options, undo, {changed.value_or(0), 0});
    keep_fits(database);
    return kDone;
}

/// The library forgets what the sheet calls its columns.
int retire_sheet(const Invocation &invocation, const std::string &reason,
                 const CommandOptions &options) {
    const auto &sheet = options.get<std::string>(kOptionSheet);
    library::Database database = open_library(invocation, library::Access::write);
    if (!library::forget_sheet(database, sheet, reason)) {
        const std::string known = library::listed_sheet_names(database);
        throw bad_option(kOptionSheet, in_quotes(sheet),
                         "a sheet that the library remembers" +
                             (known.empty() ? " (there is none)" : known));
    }
    invocation.has_changed = true;
    present(
        invocation, options,
        [&] {
            return Json{{"forgotten", sheet}};
        },
        [&] {
            return Document{.title = "Retired",
                            .blocks = {Paragraph{fmt::format(
                                "The library has forgotten what the sheet {} calls its columns; "
                                "the history keeps them.",
                                in_quotes(sheet))}}};
        });
    return kDone;
}

void check_usage(const CommandOptions &options) {
    const int ways = int{options.has("value")} + int{options.has(kOptionSystem)} +
                     int{options.has(kOptionCompound)} + int{options.has(kOptionSheet)};
    if (ways != 1) {
        throw bad_usage(ways > 1 ? "more than one of these" : "nothing to retire",
                        "one of --value ID..., --compound NAME, --system NAME or --sheet NAME");
    }
    if (options.has("undo") && options.has(kOptionSheet)) {
        throw bad_usage(
            "--undo with --sheet",
            "--map COLUMN=HEADER with --as NAME at the next table, which tells it anew");
    }
    if (!options.has("reason") || trimmed(options.get<std::string>("reason")).empty()) {
        throw bad_usage("no reason", "--reason TEXT: what readers in ten years should know");
    }
}

} // namespace

int run_retire(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] retire WHAT --reason TEXT",
        "Withdraws values, or a compound or a system with all its values: they no longer\n"
        "count, a compound is no candidate any more, and all stay readable with who\n"
        "retired them, when and why. `cospot show NAME --all` tells the ids.\n"
        "WHAT is --value ID..., --compound NAME or --system NAME. With --sheet NAME the\n"
        "library forgets what --as NAME made it remember of your tables.");
    options.add()("value", po::value<Numbers>()->multitoken(),
                  "ids of values")("compound", po::value<std::string>(), "name of a compound")(
        "system", po::value<std::string>(),
        "name of a system")("sheet", po::value<std::string>(),
                            "name of a sheet that is remembered (cospot list sheets)")(
        "reason", po::value<std::string>(), "why; kept in the library")("undo",
                                                                        "let them count again");
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    check_usage(options);
    const std::string &reason = options.get<std::string>("reason");
    const bool undo = options.has("undo");
    if (options.has("value")) {
        return retire_by_id(invocation, reason, undo, options);
    }
    if (options.has(kOptionSheet)) {
        return retire_sheet(invocation, reason, options);
    }
    const char *kind = options.has(kOptionSystem) ? kOptionSystem : kOptionCompound;
    return retire_by_name(invocation, kind, reason, undo, options);
}

} // namespace cospot
