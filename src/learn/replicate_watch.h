#pragma once

#include "library/database.h"
#include "shared/error.h"
#include "shared/quantity.h"

#include <map>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

namespace cospot {

/// Points at learned values that the library's other values of their compound contradict: a
/// mislabelled or mistyped replicate is mended most easily when it is learned.
class ReplicateWatch {
public:
    explicit ReplicateWatch(library::Database &database) : database_(&database) {}

    /// To be told of each value that was new to the library, once it is stored.
    void see(library::SystemId system, Quantity quantity, library::CompoundId compound,
             double value, const Where &where);

    /// One sentence a compound whose values do not belong together; of the values seen since the
    /// last call.
    struct Words {
        std::vector<std::string> remarks;
        std::vector<std::string> doubts; ///< so far apart that one of them must be wrong
    };
    [[nodiscard]] Words words();

private:
    struct Seen {
        double value = 0.0;
        Where where;
    };
    using System = std::pair<library::SystemId, Quantity>;
    /// The values seen, by compound.
    using Compounds = std::map<library::CompoundId, std::vector<Seen>>;

    void remark_on(const System &system, const Compounds &seen, Words &words);

    library::Database *database_;
    std::map<System, Compounds> seen_;
};

} // namespace cospot
