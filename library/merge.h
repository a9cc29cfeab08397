#pragma once

#include "library/compounds.h"
#include "library/database.h"

#include <cstddef>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace cospot::library {

/// Something that two libraries say differently, and what became of it.
struct MergeFinding {
    std::string kind;    ///< name, structure, registry number, system, ladder or state
    std::string subject; ///< the name, compound, system or run in question
    std::string here;    ///< what this library says
    std::string there;   ///< what the other one says
    std::string outcome; ///< what was done
};

/// What a merge added, and what the user should look at.
struct MergeSummary {
    std::size_t compounds_added = 0;
    std::size_t compounds_known = 0;
    std::size_t names_added = 0; ///< further names of known compounds
    std::size_t systems_added = 0;
    std::size_t systems_known = 0;
    std::size_t systems_renamed = 0; ///< of the added ones: in conflict, stored under a new name
    std::size_t systems_refused = 0;
    std::size_t values_added = 0;
    std::size_t values_known = 0;    ///< already held: same compound, run, quantity, value, source
    std::size_t values_refused = 0;  ///< on refused systems
    std::size_t responses_added = 0; ///< response factors
    std::size_t columns_added = 0;   ///< of the laboratory's own
    std::size_t bands_added = 0;     ///< that left them
    std::vector<MergeFinding> findings;
    std::vector<std::string> remarks; ///< worth knowing, nothing to be done
};

struct MergeOptions {
    /// Store a system that contradicts ours of the same name as "NAME (from OTHER)", instead of
    /// refusing its values.
    bool rename_conflicts = false;
    /// Is told now and then how many of how many values are done, from 0 on.
    std::function<void(std::size_t done, std::size_t all)> progress{};
    /// Is shown the compounds that are new here, and throws where one is not what it says.
    std::function<void(const std::vector<Compound> &compounds)> check_structures{};
};

/// Takes all that the library in the file `other` holds into this one, in one transaction:
/// compounds by InChIKey, systems by name, runs by name, date, operator and instrument; values that
/// both hold once. Retired and superseded values keep that state, with who retired them and why.
/// What this library says stays where the two differ, and the difference is reported.
/// `other` is only read; one of an older format is upgraded as a temporary copy. Throws InputError
/// where `other` is no library, was written by a newer program, or is this library itself.
MergeSummary merge_library(Database &database, const std::filesystem::path &other,
                           const MergeOptions &options);

} // namespace cospot::library
