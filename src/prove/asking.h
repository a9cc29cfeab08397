#pragma once

#include "evidence/library_evidence.h"
#include "library/measurements.h"
#include "library/proofs.h"
#include "model/matcher/recalibration.h"
#include "shared/parallel.h"
#include "shared/quantity.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <iterator>
#include <vector>

namespace cospot {

/// The values of one system and quantity.
struct SystemValues {
    ModelledSystem modelled;
    std::vector<library::HeldValue> held; ///< in the order of compounds
};

/// A value that is left out of the library and asked for.
struct Asked {
    std::size_t system = 0; ///< index of its model in the evidence
    library::HeldValue value;
    library::ProofQuestion question = library::ProofQuestion::run; ///< what was left out with it
};

/// A question to the library whose answer is known.
struct JudgedQuestion {
    std::size_t part = 0; ///< which part of the values it was left out with
    library::ProofQuestion question = library::ProofQuestion::run;
    std::size_t systems =
        1; ///< that the feature was seen on; the last number means so many or more
    matcher::JudgedRanking judged;
};

/// What a library without a part of its values says.
struct Part {
    std::size_t number = 0;
    const LibraryEvidence *evidence = nullptr;
};

/// The questions of one kind in a part have about so many candidates together at most: their
/// rankings are all kept.
inline constexpr std::size_t kMostCandidates = 40000;

/// A number below `count` that depends on `id` and `salt` without pattern.
[[nodiscard]] std::size_t mixed_below(std::size_t count, std::int64_t id, std::uint64_t salt);

/// A large number that depends on `id` and `salt` without pattern, to put things in an order.
[[nodiscard]] std::size_t shuffled(std::int64_t id, std::uint64_t salt);

/// Whether `identify` would not compare these systems (indices) with each other, for the number of
/// their values.
[[nodiscard]] bool are_too_many_to_compare(const std::vector<SystemValues> &values,
                                           const std::vector<std::size_t> &systems);

/// Whether a part leaves all values of the compound out: of every fifth one.
[[nodiscard]] bool is_absent(library::CompoundId compound, std::size_t part);

/// How many candidates lie near the value where the library says nothing about its run.
[[nodiscard]] std::size_t candidates_near(Part part, const Asked &asked);

/// Whether the answer can be judged: the compound is left out wholly, or the rest says something
/// about it on the system.
[[nodiscard]] bool is_answerable(Part part, const Asked &asked);

/// Calls `ask(i, questions)` for every i below `count` on all cores. The questions in the order
/// of i.
template <typename Ask>
[[nodiscard]] std::vector<JudgedQuestion> asked_in_parallel(std::size_t count, const Ask &ask) {
    std::vector<std::vector<JudgedQuestion>> answered(count);
    for_each_in_parallel(
        count, [&](std::size_t i) { ask(i, answered[i]); }, 1);
    std::vector<JudgedQuestion> all;
    for (std::vector<JudgedQuestion> &some : answered) {
        std::move(some.begin(), some.end(), std::back_inserter(all));
    }
    return all;
}

/// Asks for values of one lane, injection or day's series, at most one of each compound on a
/// system, jointly. The truth is the compound, or `unlisted` where the part leaves it out wholly; a
/// value of another compound of which the rest says nothing there is not judged. Where other
/// systems tell about most candidates, the question is that of a system of which little is
/// measured.
void ask_run(Part part, const std::vector<Asked> &run, std::vector<JudgedQuestion> &questions);

/// The same for one feature that was seen on several systems.
void ask_panel(Part part, const std::vector<Asked> &values, std::vector<JudgedQuestion> &questions);

} // namespace cospot
