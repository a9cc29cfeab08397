#include "prove/hidden_systems.h"

#include "evidence/fitted_system.h"
#include "evidence/related_systems.h"
#include "shared/text.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <utility>

namespace cospot {

namespace {

using library::HeldValue;
using library::ProofQuestion;

constexpr std::size_t kFewestShared = 30;        ///< compounds of a system that others hold too
constexpr std::size_t kRoundsASystem = 3;        ///< with other compounds left out
constexpr std::size_t kMostTogether = 3;         ///< systems of one round
constexpr std::size_t kMostSystemQuestions = 80; ///< on a system, in a round

using Compounds = std::set<library::CompoundId>;

Compounds compounds_of(const SystemValues &system) {
    Compounds compounds;
    for (const HeldValue &value : system.held) {
        compounds.insert(value.compound);
    }
    return compounds;
}

/// Systems that may tell about each other, as indices, and which of them become new in turn.
struct Kind {
    std::vector<std::size_t> systems;
    std::vector<std::size_t> hidden;
};

/// On how many systems each compound was measured.
std::map<library::CompoundId, std::size_t>
values_of_compounds(const std::vector<SystemValues> &values,
                    const std::vector<std::size_t> &systems) {
    std::map<library::CompoundId, std::size_t> count;
    for (const std::size_t system : systems) {
        for (const library::CompoundId compound : compounds_of(values[system])) {
            ++count[compound];
        }
    }
    return count;
}

std::vector<Kind> kinds_of(const std::vector<SystemValues> &values) {
    std::map<SystemKind, std::vector<std::size_t>> by_kind;
    for (std::size_t s = 0; s < values.size(); ++s) {
        by_kind[kind_of(values[s].modelled)].push_back(s);
    }
    std::vector<Kind> kinds;
    for (auto &[common, systems] : by_kind) {
        if (are_too_many_to_compare(values, systems)) {
            continue;
        }
        const auto count = values_of_compounds(values, systems);
        Kind kind{std::move(systems), {}};
        for (const std::size_t system : kind.systems) {
            const Compounds own = compounds_of(values[system]);
            const auto shared =
                std::count_if(own.begin(), own.end(),
                              [&](library::CompoundId compound) { return count.at(compound) > 1; });
            if (static_cast<std::size_t>(shared) >= kFewestShared) {
                kind.hidden.push_back(system);
            }
        }
        if (!kind.hidden.empty()) {
            std::sort(kind.hidden.begin(), kind.hidden.end(), [&](std::size_t a, std::size_t b) {
                constexpr std::uint64_t of_systems = 4;
                const auto key = [&](std::size_t system) {
                    const auto name = number_of(values[system].modelled.system.name);
                    return std::pair(shuffled(static_cast<std::int64_t>(name), of_systems), system);
                };
                return key(a) < key(b);
            });
            kinds.push_back(std::move(kind));
        }
    }
    return kinds;
}

/// The systems that become new in a round, and those of their kind.
struct Round {
    std::vector<std::size_t> hidden;
    std::vector<std::size_t> others;
};

Round chosen(const std::vector<Kind> &kinds, std::size_t round) {
    const Kind &kind = kinds[round % kinds.size()];
    const std::size_t turn = round / kinds.size();
    const std::size_t together = std::clamp<std::size_t>(kind.hidden.size() / 3, 1, kMostTogether);
    Round result;
    for (std::size_t i = 0; i < together; ++i) {
        result.hidden.push_back(kind.hidden[(turn * together + i) % kind.hidden.size()]);
    }
    for (const std::size_t system : kind.systems) {
        if (std::find(result.hidden.begin(), result.hidden.end(), system) == result.hidden.end()) {
            result.others.push_back(system);
        }
    }
    return result;
}

/// The compounds that are left out on the new systems, in an order without pattern: those that
/// others hold too, but for the few that were measured on the new systems already.
std::vector<library::CompoundId> left_out(const std::vector<SystemValues> &values,
                                          const Round &systems, std::size_t round) {
    Compounds elsewhere;
    for (const auto &[compound, count] : values_of_compounds(values, systems.others)) {
        elsewhere.insert(compound);
    }
    std::vector<std::pair<std::size_t, library::CompoundId>> order;
    for (const auto &[compound, count] : values_of_compounds(values, systems.hidden)) {
        if (elsewhere.contains(compound)) {
            order.emplace_back(shuffled(library::as_number(compound), 100 + round), compound);
        }
    }
    std::sort(order.begin(), order.end());
    constexpr std::array<std::size_t, 4> few{1U << 30U, 20, 50, 12};
    const std::size_t kept = std::min(order.size() / 3, few.at(round % few.size()));
    std::vector<library::CompoundId> compounds;
    for (std::size_t i = kept; i < order.size(); ++i) {
        compounds.push_back(order[i].second);
    }
    return compounds;
}

/// The fitted systems without absent compounds, and without those that are left out.
std::vector<FittedSystem> fitted(const std::vector<SystemValues> &values,
                                 const std::vector<std::size_t> &systems, const Compounds &without,
                                 std::size_t round) {
    std::vector<FittedSystem> result;
    for (const std::size_t system : systems) {
        std::vector<HeldValue> kept;
        for (const HeldValue &value : values[system].held) {
            if (!is_absent(value.compound, round) && !without.contains(value.compound)) {
                kept.push_back(value);
            }
        }
        const ModelledSystem &modelled = values[system].modelled;
        result.push_back({modelled, fit_held(modelled.system.technique, modelled.quantity, kept)});
    }
    return result;
}

/// The first value of each compound on each new system, which the evidence numbers in order.
std::map<library::CompoundId, std::vector<Asked>>
first_values(const std::vector<SystemValues> &values, const std::vector<std::size_t> &hidden) {
    std::map<library::CompoundId, std::vector<Asked>> first;
    for (std::size_t s = 0; s < hidden.size(); ++s) {
        for (const HeldValue &value : values[hidden[s]].held) {
            std::vector<Asked> &own = first[value.compound];
            if (own.empty() || own.back().system != s) {
                own.push_back({s, value, ProofQuestion::new_system});
            }
        }
    }
    return first;
}

/// What is asked about the compounds, taken in their order: their values on each new system, until
/// enough was asked there, and those of a compound on several of them together.
std::vector<std::vector<Asked>>
chosen_questions(Part part, const std::vector<library::CompoundId> &compounds,
                 const std::map<library::CompoundId, std::vector<Asked>> &first,
                 std::size_t systems) {
    std::vector<std::vector<Asked>> chosen;
    std::vector<std::size_t> count(systems, 0);
    std::vector<std::size_t> candidates(systems, 0);
    for (const library::CompoundId compound : compounds) {
        const std::vector<Asked> &own = first.at(compound);
        bool is_asked = false;
        for (const Asked &one : own) {
            if (count[one.system] < kMostSystemQuestions &&
                candidates[one.system] < kMostCandidates / systems) {
                chosen.push_back({one});
                ++count[one.system];
                candidates[one.system] += candidates_near(part, one);
                is_asked = true;
            }
        }
        for (std::size_t size = 2; is_asked && size <= own.size(); ++size) {
            chosen.emplace_back(own.begin(), own.begin() + static_cast<std::ptrdiff_t>(size));
        }
    }
    return chosen;
}

} // namespace

std::size_t hidden_rounds(const std::vector<SystemValues> &values) {
    std::size_t systems = 0;
    for (const Kind &kind : kinds_of(values)) {
        systems += kind.hidden.size();
    }
    return std::min(kHiddenRounds, kRoundsASystem * systems);
}

std::vector<JudgedQuestion> judge_hidden_systems(const std::vector<SystemValues> &values,
                                                 std::size_t round) {
    const Round systems = chosen(kinds_of(values), round);
    const std::vector<library::CompoundId> order = left_out(values, systems, round);
    const Compounds without(order.begin(), order.end());
    std::vector<FittedSystem> hidden = fitted(values, systems.hidden, without, round);
    std::vector<FittedSystem> others = fitted(values, systems.others, {}, round);
    std::vector<library::CompoundId> compounds = all_compounds(hidden, others);
    const LibraryEvidence evidence =
        evidence_from(std::move(hidden), std::move(others), std::move(compounds));
    const Part part{round, &evidence};
    const std::vector<std::vector<Asked>> asked =
        chosen_questions(part, order, first_values(values, systems.hidden), systems.hidden.size());
    std::vector<JudgedQuestion> questions =
        asked_in_parallel(asked.size(), [&](std::size_t i, std::vector<JudgedQuestion> &answered) {
            if (asked[i].size() == 1) {
                ask_run(part, asked[i], answered);
            } else {
                ask_panel(part, asked[i], answered);
            }
        });
    std::erase_if(questions, [](const JudgedQuestion &one) {
        return one.question != ProofQuestion::new_system;
    });
    return questions;
}

} // namespace cospot
