#include "readers/named_standards.h"

#include "shared/text.h"

#include <algorithm>
#include <utility>

namespace cospot {

NamedStandards::NamedStandards(
    const std::vector<std::string> &texts,
    std::function<bool(const std::string &, const std::string &)> is_same_compound)
    : is_same_compound_(std::move(is_same_compound)) {
    for (std::size_t i = 0; i < texts.size(); ++i) {
        const std::string_view text = texts[i];
        if (text.find(',') != std::string_view::npos) {
            names_.push_back({std::string(trimmed(text)), i, true});
        }
        for (std::size_t at = 0; at <= text.size();) {
            const std::size_t end = std::min(text.find(',', at), text.size());
            names_.push_back({std::string(trimmed(text.substr(at, end - at))), i});
            at = end + 1;
        }
    }
}

bool NamedStandards::is_meant(const Name &name, std::string_view label) const {
    return !label.empty() && !name.name.empty() &&
           (equal_ignoring_case(name.name, label) ||
            (is_same_compound_ && is_same_compound_(name.name, std::string(label))));
}

bool NamedStandards::holds(std::string_view label) {
    bool is_named = false;
    for (Name &name : names_) {
        if (is_meant(name, label)) {
            name.is_seen = true;
            is_named = true;
        }
    }
    return is_named;
}

std::vector<std::string> NamedStandards::notes() const {
    std::vector<std::string> notes;
    for (const Name &name : names_) {
        const bool is_said_whole = std::any_of(names_.begin(), names_.end(), [&](const Name &one) {
            return one.text == name.text && one.is_whole && one.is_seen;
        });
        if (!name.is_seen && !name.is_whole && !name.name.empty() && !is_said_whole) {
            notes.push_back("--standards: no lane is labelled " + in_quotes(name.name));
        }
    }
    return notes;
}

} // namespace cospot
