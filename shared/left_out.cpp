#include "shared/left_out.h"

#include "shared/text.h"

#include <fmt/format.h>

namespace cospot {

bool LeftOut::take(const std::string &name, const InputError &fault) {
    if (!is_partial_ || name.empty()) {
        return false;
    }
    faults_.try_emplace(name, fault.each().empty() ? fault.what() : fault.each().front().what());
    return true;
}

std::vector<std::string> notes_on(const TableReader &table, const LeftOut &left_out,
                                  const std::string &kind) {
    std::vector<std::string> notes = table.notes();
    const std::vector<std::string> warnings = left_out.notes(kind);
    notes.insert(notes.end(), warnings.begin(), warnings.end());
    return notes;
}

std::vector<std::string> LeftOut::notes(const std::string &kind) const {
    std::vector<std::string> notes;
    for (const auto &[name, fault] : faults_) {
        notes.push_back(fmt::format("! {} {} is left out: {}", kind, name, fault));
    }
    return notes;
}

void LeftOut::check_rest(bool is_any_left, const std::string &file, const std::string &kind) const {
    if (is_any_left || faults_.empty()) {
        return;
    }
    constexpr std::size_t most = 3;
    std::string which;
    std::size_t said = 0;
    for (const auto &[name, fault] : faults_) {
        which += said < most ? fmt::format("; {} {}: {}", kind, name, fault) : "";
        ++said;
    }
    throw InputError({file, 0, ""},
                     fmt::format("faulty rows in every {}, so that nothing is left{}{}", kind,
                                 which,
                                 said > most ? fmt::format("; and {} more", said - most) : ""),
                     fmt::format("one {} without faults, with --partial", kind));
}

} // namespace cospot
