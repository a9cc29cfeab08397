#include "history/history_json.h"

#include "history/history_words.h"

#include <utility>

namespace cospot {

Json history_json(const library::HistoryEntry &entry) {
    Json changed = Json::array();
    for (const library::ChangedValue &value : entry.changed) {
        changed.push_back({{"compound", value.compound},
                           {"system", value.system},
                           {"quantity", to_text(value.quantity)},
                           {"run", value.run},
                           {"before", value.before},
                           {"after", value.after ? Json(*value.after) : Json(nullptr)}});
    }
    return {{"change", library::as_number(entry.id)},
            {"at", entry.change.at_utc},
            {"who", entry.change.who},
            {"verb", entry.action},
            {"command", entry.command.empty() ? Json(nullptr) : Json(entry.command)},
            {"detail", entry.change.detail},
            {"what", what_words(entry)},
            {"values", entry.values},
            {"corrected", entry.corrected},
            {"withdrawn", entry.withdrawn},
            {"changed", std::move(changed)},
            {"compounds", entry.compounds},
            {"names", entry.names},
            {"structures", entry.structures},
            {"systems", entry.systems},
            {"responses", entry.responses},
            {"bands", entry.bands},
            {"proofs", entry.proofs}};
}

} // namespace cospot
