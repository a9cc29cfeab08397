#include "readers/instrument_number.h"

#include "shared/error.h"
#include "shared/number.h"

#include <cmath>

namespace cospot {

void check_of_instrument(const TableReader &table, const char *column,
                         const std::optional<double> &number) {
    if (number && std::abs(*number) > kLargestOfInstruments) {
        table.add_fault(
            {table.where(column), exact_text(*number),
             "a number as instruments give it, at most " + exact_text(kLargestOfInstruments)});
    }
}

} // namespace cospot
