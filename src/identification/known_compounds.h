#pragma once

#include "evidence/library_evidence.h"
#include "library/database.h"

#include <cstddef>
#include <mutex>
#include <unordered_map>

namespace cospot {

/// The compounds of some evidence with their names and structures; each is read from the library
/// when it is first asked for. Several threads may ask at once, as long as none of them uses the
/// database otherwise. Evidence and database must outlive it.
class KnownCompounds {
public:
    KnownCompounds(const LibraryEvidence &evidence, library::Database &database)
        : evidence_(&evidence), database_(&database) {}

    /// By index in the evidence. The reference stays valid.
    [[nodiscard]] const ProposedStructure &at(std::size_t compound);

private:
    const LibraryEvidence *evidence_;
    library::Database *database_;
    std::mutex mutex_;
    std::unordered_map<std::size_t, ProposedStructure> read_; ///< of the library
};

} // namespace cospot
