#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace cospot {

/// What learning added to the library, and what the user should look at.
struct LearnSummary {
    std::size_t systems_added = 0;
    std::size_t systems_known = 0;
    std::size_t compounds_added = 0;
    std::size_t synonyms_added = 0;
    std::size_t synonyms_known = 0;
    std::size_t values_added = 0;
    std::size_t values_known = 0; ///< already held: same compound, run, quantity, value, source
    std::size_t added_without_run = 0; ///< of the added ones: neither run nor date is stated
    std::size_t known_without_run = 0; ///< of those already held
    std::size_t runs_without_date = 0; ///< of the added values, that have a name
    std::size_t values_corrected = 0;
    std::size_t responses_added = 0; ///< response factors
    std::size_t responses_known = 0;
    std::size_t columns_added = 0; ///< of the laboratory's own
    std::size_t bands_added = 0;   ///< that left them
    std::size_t bands_known = 0;
    std::size_t rows_refused = 0;
    bool is_partial = false; ///< lanes, runs or plates were left out
    std::vector<std::string> remarks;
    std::vector<std::string> doubts; ///< labels or values that seem wrong, a sentence each
};

} // namespace cospot
