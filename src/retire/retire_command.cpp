#include "evidence/fitted_system.h"
#include "library/retire.h"
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

int retire_by_system(const Invocation &invocation, const std::string &name,
                     const std::string &reason, bool undo, const CommandOptions &options) {
    library::Database database = open_library(invocation, library::Access::write);
    const std::optional<std::size_t> changed =
        undo ? library::take_back_system(database, name, reason)
             : library::retire_system(database, name, reason);
    if (!changed) {
        fmt::print(invocation.err, "system {} {} already\n", printable(name),
                   undo ? "is in use" : "is retired");
    }
    invocation.has_changed |= changed.has_value();
    present_retired(invocation, options, undo, {changed.value_or(0), 0});
    keep_fits(database);
    return kDone;
}

void check_usage(const CommandOptions &options) {
    if (options.has("value") == options.has("system")) {
        throw bad_usage(options.has("value") ? "both --value and --system" : "nothing to retire",
                        "either --value ID... or --system NAME");
    }
    if (!options.has("reason") || trimmed(options.get<std::string>("reason")).empty()) {
        throw bad_usage("no reason", "--reason TEXT: what readers in ten years should know");
    }
}

} // namespace

int run_retire(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] retire (--value ID... | --system NAME) --reason TEXT",
        "Withdraws values, or a system with all its values: they no longer count, and stay\n"
        "readable with who retired them, when and why. `cospot show NAME --all` tells the ids.");
    options.add()("value", po::value<Numbers>()->multitoken(),
                  "ids of values")("system", po::value<std::string>(), "name of a system")(
        "reason", po::value<std::string>(), "why; kept in the library")("undo",
                                                                        "let them count again");
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    check_usage(options);
    const std::string &reason = options.get<std::string>("reason");
    const bool undo = options.has("undo");
    return options.has("value") ? retire_by_id(invocation, reason, undo, options)
                                : retire_by_system(invocation, options.get<std::string>("system"),
                                                   reason, undo, options);
}

} // namespace cospot
