#include "history/history_words.h"

#include "shared/quantity.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <tuple>
#include <utility>
#include <vector>

namespace cospot {

std::string what_words(const library::HistoryEntry &entry) {
    std::vector<std::string> added;
    for (const auto &[count, noun] : {std::pair{entry.values - entry.corrected, "value"},
                                      {entry.compounds, "compound"},
                                      {entry.systems, "system"},
                                      {entry.names, "further name"},
                                      {entry.responses, "response factor"},
                                      {entry.bands, "column band"},
                                      {entry.proofs, "proved question"}}) {
        if (count > 0) {
            added.push_back(counted(count, noun));
        }
    }
    std::vector<std::string> done;
    if (!added.empty()) {
        done.push_back(joined(added) + " added");
    }
    for (const auto &[count, noun, verb] : {std::tuple{entry.corrected, "value", "corrected"},
                                            {entry.structures, "structure", "corrected"},
                                            {entry.withdrawn, "value", "withdrawn"}}) {
        if (count > 0) {
            done.push_back(counted(count, noun) + ' ' + verb);
        }
    }
    return fmt::format("{}", fmt::join(done, "; "));
}

std::string changed_words(const library::HistoryEntry &entry) {
    std::string text;
    for (const library::ChangedValue &value : entry.changed) {
        text += fmt::format("{}{} on {}{}: {} {} {}", text.empty() ? "" : "; ", value.compound,
                            value.system, value.run.empty() ? "" : ", run " + value.run,
                            to_text(value.quantity), shown(value.quantity, value.before),
                            value.after ? "to " + shown(value.quantity, *value.after)
                                        : std::string("withdrawn"));
    }
    const auto all = static_cast<std::size_t>(entry.corrected + entry.withdrawn);
    return all > entry.changed.size() && !text.empty()
               ? fmt::format("{}; and {} more", text, all - entry.changed.size())
               : text;
}

std::string command_words(const library::HistoryEntry &entry) {
    return entry.command.empty() ? "not recorded" : "cospot " + entry.command;
}

} // namespace cospot
