#include "prove/judged_library.h"

#include "evidence/fitted_system.h"
#include "evidence/related_systems.h"
#include "library/overview.h"
#include "shared/parallel.h"
#include "shared/text.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <tuple>
#include <utility>

namespace cospot {

namespace {

using library::HeldValue;
using library::ProofQuestion;

constexpr std::size_t kFewest = 5;      ///< days or runs
constexpr std::size_t kMostSystems = 4; ///< of one question

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
    std::set<library::RunId> runs;
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

/// A number without pattern that depends on a part.
std::size_t shuffled_in(std::int64_t id, std::size_t part) {
    return shuffled(id, 1000 + part);
}

/// The systems of a part. `identify` compares the systems of a kind with each other unless they are
/// too large; of those it knows the observed ones only, so they are asked in turn, as many as one
/// question is about.
std::vector<std::size_t> systems_of(const std::vector<SystemValues> &all, std::size_t part) {
    std::map<SystemKind, std::vector<std::size_t>> kinds;
    for (std::size_t s = 0; s < all.size(); ++s) {
        kinds[kind_of(all[s].modelled)].push_back(s);
    }
    std::vector<std::size_t> chosen;
    for (auto &[kind, systems] : kinds) {
        if (are_too_many_to_compare(all, systems) && systems.size() > kMostSystems) {
            std::rotate(systems.begin(),
                        systems.begin() +
                            static_cast<std::ptrdiff_t>((part * kMostSystems) % systems.size()),
                        systems.end());
            systems.resize(kMostSystems);
        }
        chosen.insert(chosen.end(), systems.begin(), systems.end());
    }
    std::sort(chosen.begin(), chosen.end());
    return chosen;
}

Split split(const std::vector<SystemValues> &all, std::size_t part) {
    Split result;
    for (const std::size_t s : systems_of(all, part)) {
        SystemValues kept{all[s].modelled, {}};
        const LeftOut left_out = left_out_of(all[s], part);
        std::int64_t position = 0;
        for (const HeldValue &value : all[s].held) {
            ++position;
            std::int64_t group = 1000000 * static_cast<std::int64_t>(s) + position;
            if (value.run_is_named && left_out != LeftOut::value) {
                group = left_out == LeftOut::day ? value.session : library::as_number(value.run);
            }
            if (is_asked(group, part)) {
                const bool is_day = left_out == LeftOut::day && is_dated(value);
                result.asked.push_back(
                    {result.kept.size(), value, is_day ? ProofQuestion::day : ProofQuestion::run});
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

std::size_t candidates_of(Part part, const Run &run) {
    std::size_t candidates = 0;
    for (const Asked &one : run) {
        candidates += candidates_near(part, one);
    }
    return candidates;
}

/// The run, or pieces of it with features from all over it. Pieces are many, so that features whose
/// answer cannot be judged are left out.
std::vector<Run> pieces_of(Part part, Run run) {
    if (run.size() <= kPiece ||
        (run.size() <= kMostJoint && candidates_of(part, run) <= kMostJointCandidates)) {
        return {std::move(run)};
    }
    std::erase_if(run, [&](const Asked &one) { return !is_answerable(part, one); });
    std::vector<Run> pieces((run.size() + kPiece - 1) / kPiece);
    for (std::size_t i = 0; i < run.size(); ++i) {
        pieces[i % pieces.size()].push_back(run[i]);
    }
    return pieces;
}

/// The asked values by run; a value whose run nobody wrote down, and a replicate within a run, is a
/// run of its own.
std::vector<Run> runs_of(Part part, const std::vector<Asked> &asked) {
    std::map<std::pair<std::size_t, library::RunId>, Run> named;
    std::set<std::tuple<std::size_t, library::RunId, library::CompoundId>> seen;
    std::vector<Run> runs;
    for (const Asked &one : asked) {
        if (one.value.run_is_named &&
            seen.emplace(one.system, one.value.run, one.value.compound).second) {
            named[{one.system, one.value.run}].push_back(one);
        } else {
            runs.push_back({one});
        }
    }
    for (auto &[key, run] : named) {
        std::vector<Run> pieces = pieces_of(part, std::move(run));
        std::move(pieces.begin(), pieces.end(), std::back_inserter(runs));
    }
    return runs;
}

/// The runs in an order without pattern, of which every beginning holds the same share of each
/// system's runs.
std::vector<Run> spread_evenly(std::vector<Run> runs, std::size_t part) {
    std::map<std::size_t, std::vector<std::pair<std::size_t, std::size_t>>> of_systems;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const Asked &first = runs[i].front();
        const std::uint64_t both = 1000003U * static_cast<std::uint64_t>(first.value.run) +
                                   static_cast<std::uint64_t>(first.value.compound);
        const std::size_t key = shuffled_in(static_cast<std::int64_t>(both), part);
        of_systems[first.system].emplace_back(key, i);
    }
    std::vector<std::pair<double, std::size_t>> order;
    for (auto &[system, own] : of_systems) {
        constexpr std::size_t steps = 1000;
        std::sort(own.begin(), own.end());
        const double start =
            static_cast<double>(shuffled_in(static_cast<std::int64_t>(system), part) % steps) /
            steps;
        for (std::size_t i = 0; i < own.size(); ++i) {
            order.emplace_back((static_cast<double>(i) + start) / static_cast<double>(own.size()),
                               own[i].second);
        }
    }
    std::sort(order.begin(), order.end());
    std::vector<Run> result;
    for (const auto &[place, i] : order) {
        result.push_back(std::move(runs[i]));
    }
    return result;
}

/// What one part may ask.
class Budget {
public:
    [[nodiscard]] bool is_left() const {
        return questions_ < kMostQuestions && candidates_ < kMostCandidates;
    }
    void spend(std::size_t questions, std::size_t candidates) {
        questions_ += questions;
        candidates_ += candidates;
    }

private:
    std::size_t questions_ = 0;
    std::size_t candidates_ = 0;
};

std::vector<Run> chosen_runs(Part part, const std::vector<Asked> &asked) {
    std::vector<Run> chosen;
    Budget budget;
    for (Run &run : spread_evenly(runs_of(part, asked), part.number)) {
        if (!budget.is_left()) {
            break;
        }
        budget.spend(run.size(), candidates_of(part, run));
        chosen.push_back(std::move(run));
    }
    return chosen;
}

/// Compounds whose values were left out on several systems, seen on two to four of them.
std::vector<std::vector<Asked>> panels_of(const std::vector<Asked> &asked,
                                          const std::vector<SystemValues> &kept) {
    std::map<library::CompoundId, std::vector<Asked>> by_compound;
    for (const Asked &one : asked) {
        std::vector<Asked> &values = by_compound[one.value.compound];
        const bool is_new = std::none_of(values.begin(), values.end(), [&](const Asked &other) {
            return kept[other.system].modelled.system.id == kept[one.system].modelled.system.id;
        });
        if (is_new) {
            values.push_back(one);
        }
    }
    std::vector<std::vector<Asked>> panels;
    for (auto &[compound, values] : by_compound) {
        if (values.size() > 1) {
            constexpr std::uint64_t of_sizes = 3;
            const std::size_t sizes = std::min(values.size(), kMostSystems) - 1;
            const std::int64_t number = library::as_number(compound);
            const std::size_t start = shuffled_in(number, of_sizes) % values.size();
            std::rotate(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(start),
                        values.end());
            values.resize(2 + mixed_below(sizes, number, of_sizes));
            panels.push_back(std::move(values));
        }
    }
    return panels;
}

std::vector<std::vector<Asked>> chosen_panels(Part part, const std::vector<Asked> &asked,
                                              const std::vector<SystemValues> &kept) {
    std::vector<std::vector<Asked>> panels = panels_of(asked, kept);
    const auto place_of = [&](const std::vector<Asked> &panel) {
        return shuffled_in(library::as_number(panel.front().value.compound), part.number);
    };
    std::stable_sort(panels.begin(), panels.end(),
                     [&](const auto &a, const auto &b) { return place_of(a) < place_of(b); });
    Budget budget;
    std::size_t count = 0;
    for (; count < panels.size() && budget.is_left(); ++count) {
        std::size_t fewest = kMostCandidates;
        for (const Asked &one : panels[count]) {
            fewest = std::min(fewest, candidates_near(part, one));
        }
        budget.spend(1, fewest);
    }
    panels.resize(count);
    return panels;
}

/// The models of what is kept.
LibraryEvidence evidence_of(const std::vector<SystemValues> &kept) {
    std::vector<FittedSystem> fitted(kept.size());
    for_each_in_parallel(
        kept.size(),
        [&](std::size_t s) {
            const ModelledSystem &modelled = kept[s].modelled;
            fitted[s] = {modelled,
                         fit_held(modelled.system.technique, modelled.quantity, kept[s].held)};
        },
        1);
    std::vector<library::CompoundId> compounds = all_compounds(fitted, {});
    return evidence_from(std::move(fitted), {}, std::move(compounds));
}

/// The value with compound and run numbered by their keys: what is left out goes by them, not by
/// what was learned first. A run is one of its system.
HeldValue numbered_by_keys(HeldValue value, std::uint64_t system_key) {
    const auto positive = [](std::uint64_t key) { return static_cast<std::int64_t>(key >> 1U); };
    value.compound = library::CompoundId(positive(value.compound_key));
    value.run = library::RunId(positive(value.run_key ^ (system_key << 7U)));
    value.session = is_dated(value) ? value.session : library::as_number(value.run);
    return value;
}

} // namespace

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
    if (parts.asked.empty()) {
        return {};
    }
    const LibraryEvidence evidence = evidence_of(parts.kept);
    const Part without{part, &evidence};
    const std::vector<Run> runs = chosen_runs(without, parts.asked);
    const std::vector<std::vector<Asked>> panels = chosen_panels(without, parts.asked, parts.kept);
    return asked_in_parallel(runs.size() + panels.size(),
                             [&](std::size_t i, std::vector<JudgedQuestion> &questions) {
                                 if (i < runs.size()) {
                                     ask_run(without, runs[i], questions);
                                 } else {
                                     ask_panel(without, panels[i - runs.size()], questions);
                                 }
                             });
}

} // namespace cospot
