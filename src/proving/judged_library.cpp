#include "proving/judged_library.h"

#include "evidence/fitted_system.h"
#include "library/overview.h"
#include "matcher/run_registration.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace cospot {

namespace {

constexpr std::size_t kFewestSessions = 5;
constexpr std::size_t kMostQuestions = 250; ///< of a part
constexpr std::size_t kAbsent = 5;          ///< every so manieth compound is left out wholly
constexpr std::size_t kMostSystems = 3;     ///< of one question

/// A well-mixed number from another (the finaliser of SplitMix64, G. L. Steele et al. 2014, from
/// memory).
std::uint64_t mixed(std::uint64_t x) {
    x = (x ^ (x >> 30U)) * 0xbf58476d1ce4e5b9ULL;
    x = (x ^ (x >> 27U)) * 0x94d049bb133111ebULL;
    return x ^ (x >> 31U);
}

std::size_t mixed_below(std::size_t count, std::int64_t id, std::uint64_t salt) {
    return static_cast<std::size_t>(
        mixed(static_cast<std::uint64_t>(id) * 0x9e3779b97f4a7c15ULL + salt) % count);
}

/// Whether a part leaves the value out; `group` is what is left out together.
bool is_asked(std::int64_t group, std::size_t part) {
    constexpr std::uint64_t of_values = 2;
    return mixed_below(kProofParts, group, of_values) == part;
}

/// Whether a part leaves all values of the compound out.
bool is_absent(std::int64_t compound, std::size_t part) {
    constexpr std::uint64_t of_compounds = 1;
    return mixed_below(kAbsent, compound, of_compounds) == part % kAbsent;
}

/// A part, and what the rest of the library says.
struct Part {
    std::size_t number;
    const LibraryEvidence *evidence;
};

/// A value that is asked for.
struct Asked {
    std::size_t system; ///< index among the systems
    library::HeldValue value;
};

/// The library without one part, and that part.
struct Split {
    std::vector<SystemValues> kept;
    std::vector<Asked> asked;
};

bool has_sessions(const SystemValues &system) {
    std::set<std::int64_t> sessions;
    for (const library::HeldValue &value : system.held) {
        if (value.run_is_named) {
            sessions.insert(value.session);
        }
    }
    return sessions.size() >= kFewestSessions;
}

Split split(const std::vector<SystemValues> &all, std::size_t part) {
    Split result;
    for (std::size_t s = 0; s < all.size(); ++s) {
        SystemValues kept{all[s].modelled, {}};
        const bool by_session = has_sessions(all[s]);
        std::int64_t position = 0;
        for (const library::HeldValue &value : all[s].held) {
            ++position;
            const std::int64_t own = 1000000 * static_cast<std::int64_t>(s) + position;
            if (is_asked(by_session && value.run_is_named ? value.session : own, part)) {
                result.asked.push_back({s, value});
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

/// Compounds whose values were left out on several systems.
std::vector<std::vector<Asked>> panels_of(const std::vector<Asked> &asked) {
    std::map<std::int64_t, std::vector<Asked>> by_compound;
    for (const Asked &one : asked) {
        std::vector<Asked> &values = by_compound[one.value.compound];
        const bool is_new = std::none_of(values.begin(), values.end(), [&](const Asked &other) {
            return other.system == one.system;
        });
        if (is_new && values.size() < kMostSystems) {
            values.push_back(one);
        }
    }
    std::vector<std::vector<Asked>> panels;
    for (auto &[compound, values] : by_compound) {
        if (values.size() > 1 && panels.size() < kMostQuestions) {
            panels.push_back(std::move(values));
        }
    }
    return panels;
}

/// Adds the question unless the library cannot know the answer: a compound that was not left out
/// on purpose, but of which the rest says nothing on any observed system.
void add(Part part, bool several, std::span<const matcher::Observation> observations,
         matcher::Ranking ranking, std::int64_t compound, std::vector<JudgedQuestion> &questions) {
    JudgedQuestion question{part.number, several, {std::move(ranking), matcher::kUnlisted}};
    const std::ptrdiff_t index = index_of_compound(*part.evidence, compound);
    const bool is_held =
        index >= 0 && std::any_of(observations.begin(), observations.end(), [&](const auto &one) {
            return matcher::find_candidate(part.evidence->knowledge.systems[one.system],
                                           static_cast<std::size_t>(index)) != nullptr;
        });
    if (is_held) {
        question.judged.truth = static_cast<std::size_t>(index);
    }
    if (is_held || is_absent(compound, part.number)) {
        questions.push_back(std::move(question));
    }
}

void ask_run(Part part, const Run &run, std::vector<JudgedQuestion> &questions) {
    std::vector<matcher::SampleFeature> features;
    features.reserve(run.size());
    for (const Asked &one : run) {
        features.push_back({{{one.system, one.value.value, 0.0}}, {}});
    }
    const matcher::Knowledge &knowledge = part.evidence->knowledge;
    matcher::register_run(features, knowledge, part.evidence->nearby, {});
    matcher::SampleRanking rankings =
        matcher::rank_sample(features, knowledge, part.evidence->nearby, {});
    for (std::size_t i = 0; i < run.size(); ++i) {
        add(part, false, features[i].observations, std::move(rankings.features[i]),
            run[i].value.compound, questions);
    }
}

void ask_panel(Part part, const std::vector<Asked> &values,
               std::vector<JudgedQuestion> &questions) {
    std::vector<matcher::Observation> observations;
    observations.reserve(values.size());
    for (const Asked &one : values) {
        observations.push_back({one.system, one.value.value, 0.0, {}, {}, {}});
        matcher::settle(observations.back(), part.evidence->knowledge.systems[one.system]);
    }
    add(part, true, observations,
        matcher::rank_candidates(observations, part.evidence->knowledge, part.evidence->nearby, {}),
        values.front().value.compound, questions);
}

} // namespace

std::vector<SystemValues> values_to_judge(library::Database &database, Technique technique) {
    std::vector<SystemValues> all;
    for (const library::System &system : library::all_systems(database)) {
        if (system.technique == technique && !system.retired) {
            for (const Quantity quantity : library::quantities_on_system(database, system.id)) {
                all.push_back(
                    {{system, quantity}, library::values_on_system(database, system.id, quantity)});
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
    const LibraryEvidence evidence = evidence_from(std::move(fitted), {});
    for (const Run &run : runs_of(parts.asked)) {
        ask_run({part, &evidence}, run, questions);
    }
    for (const auto &panel : panels_of(parts.asked)) {
        ask_panel({part, &evidence}, panel, questions);
    }
    return questions;
}

} // namespace cospot
