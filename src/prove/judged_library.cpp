#include "prove/judged_library.h"

#include "evidence/fitted_system.h"
#include "library/overview.h"
#include "shared/text.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace cospot {

namespace {

using library::HeldValue;
using library::ProofQuestion;

constexpr std::size_t kFewest = 5;          ///< days or runs
constexpr std::size_t kMostQuestions = 250; ///< of a part
constexpr std::size_t kMostSystems = 4;     ///< of one question

/// Whether a part leaves the value out; `group` is what is left out together.
bool is_asked(std::int64_t group, std::size_t part) {
    constexpr std::uint64_t of_values = 2;
    return mixed_below(kProofParts, group, of_values) == part;
}

/// What is left out together on a system.
enum class LeftOut { day, run, value };

/// The library without one part, and that part.
struct Split {
    std::vector<SystemValues> kept;
    std::vector<Asked> asked;
};

LeftOut left_out_of(const SystemValues &system, std::size_t part) {
    std::set<std::int64_t> sessions;
    std::set<std::int64_t> days;
    std::set<std::int64_t> runs;
    for (const HeldValue &value : system.held) {
        if (value.run_is_named) {
            sessions.insert(value.session);
            runs.insert(value.run);
            if (is_dated(value)) {
                days.insert(value.session);
            }
        }
    }
    const bool has_days = sessions.size() >= kFewest && 2 * days.size() > sessions.size();
    const bool days_have_several = runs.size() > sessions.size();
    if (has_days && !(days_have_several && part % 2 == 1)) {
        return LeftOut::day;
    }
    return runs.size() >= kFewest ? LeftOut::run : LeftOut::value;
}

Split split(const std::vector<SystemValues> &all, std::size_t part) {
    Split result;
    for (std::size_t s = 0; s < all.size(); ++s) {
        SystemValues kept{all[s].modelled, {}};
        const LeftOut left_out = left_out_of(all[s], part);
        std::int64_t position = 0;
        for (const HeldValue &value : all[s].held) {
            ++position;
            std::int64_t group = 1000000 * static_cast<std::int64_t>(s) + position;
            if (value.run_is_named && left_out != LeftOut::value) {
                group = left_out == LeftOut::day ? value.session : value.run;
            }
            if (is_asked(group, part)) {
                const bool is_day = left_out == LeftOut::day && is_dated(value);
                result.asked.push_back(
                    {s, value, is_day ? ProofQuestion::day : ProofQuestion::run});
            } else if (!is_absent(value.compound, part)) {
                kept.held.push_back(value);
            }
        }
        result.kept.push_back(std::move(kept));
    }
    return result;
}

/// The values of one lane, injection or day's series: one of each compound on each system.
using Run = std::vector<Asked>;

/// The asked values by run; a value whose run nobody wrote down, and a replicate within a run, is a
/// run of its own. Of too many an even choice.
std::vector<Run> runs_of(const std::vector<Asked> &asked) {
    std::map<std::pair<std::size_t, std::int64_t>, Run> named;
    std::vector<Run> runs;
    for (const Asked &one : asked) {
        Run &run = named[{one.system, one.value.run}];
        const bool is_replicate = std::any_of(run.begin(), run.end(), [&](const Asked &other) {
            return other.value.compound == one.value.compound;
        });
        if (one.value.run_is_named && !is_replicate) {
            run.push_back(one);
        } else {
            runs.push_back({one});
        }
    }
    for (auto &[key, run] : named) {
        if (!run.empty()) {
            runs.push_back(std::move(run));
        }
    }
    const std::size_t step = 1 + asked.size() / kMostQuestions;
    std::vector<Run> chosen;
    for (std::size_t i = 0; i < runs.size(); i += step) {
        chosen.push_back(std::move(runs[i]));
    }
    return chosen;
}

/// Compounds whose values were left out on several systems, seen on two to four of them.
std::vector<std::vector<Asked>> panels_of(const std::vector<Asked> &asked,
                                          const std::vector<SystemValues> &all) {
    std::map<std::int64_t, std::vector<Asked>> by_compound;
    for (const Asked &one : asked) {
        std::vector<Asked> &values = by_compound[one.value.compound];
        const bool is_new = std::none_of(values.begin(), values.end(), [&](const Asked &other) {
            return all[other.system].modelled.system.id == all[one.system].modelled.system.id;
        });
        if (is_new) {
            values.push_back(one);
        }
    }
    std::vector<std::vector<Asked>> panels;
    for (auto &[compound, values] : by_compound) {
        if (values.size() > 1 && panels.size() < kMostQuestions) {
            constexpr std::uint64_t of_sizes = 3;
            const std::size_t sizes = std::min(values.size(), kMostSystems) - 1;
            values.resize(2 + mixed_below(sizes, compound, of_sizes));
            panels.push_back(std::move(values));
        }
    }
    return panels;
}

} // namespace

/// The value with compound and run numbered by their keys: what is left out goes by them, not by
/// what was learned first. A run is one of its system.
HeldValue numbered_by_keys(HeldValue value, std::uint64_t system_key) {
    const auto positive = [](std::uint64_t key) { return static_cast<std::int64_t>(key >> 1U); };
    value.compound = positive(value.compound_key);
    value.run = positive(value.run_key ^ (system_key << 7U));
    value.session = is_dated(value) ? value.session : value.run;
    return value;
}

std::vector<SystemValues> values_to_judge(library::Database &database, Technique technique) {
    std::vector<SystemValues> all;
    for (const library::System &system : library::all_systems(database)) {
        if (system.technique == technique && !system.retired) {
            for (const Quantity quantity : library::quantities_on_system(database, system.id)) {
                auto held = library::values_on_system(database, system.id, quantity);
                for (HeldValue &value : held) {
                    value = numbered_by_keys(value, number_of(system.name));
                }
                all.push_back({{system, quantity}, std::move(held)});
            }
        }
    }
    return all;
}

std::vector<JudgedQuestion> judge_part(const std::vector<SystemValues> &values, std::size_t part) {
    const Split parts = split(values, part);
    std::vector<JudgedQuestion> questions;
    if (parts.asked.empty()) {
        return questions;
    }
    std::vector<FittedSystem> fitted;
    for (const SystemValues &system : parts.kept) {
        fitted.push_back({system.modelled, fit_held(system.modelled.system.technique,
                                                    system.modelled.quantity, system.held)});
    }
    std::vector<std::int64_t> compounds = all_compounds(fitted, {});
    const LibraryEvidence evidence = evidence_from(std::move(fitted), {}, std::move(compounds));
    for (const Run &run : runs_of(parts.asked)) {
        ask_run({part, &evidence}, run, questions);
    }
    for (const auto &panel : panels_of(parts.asked, values)) {
        ask_panel({part, &evidence}, panel, questions);
    }
    return questions;
}

} // namespace cospot
