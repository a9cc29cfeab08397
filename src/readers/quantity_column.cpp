#include "readers/quantity_column.h"

#include "shared/text.h"

namespace cospot {

Quantity read_quantity(const TableReader &table) {
    const std::string expected = "Rf, k, RI, tR, RRT or r";
    const std::string_view text = table.required_text("quantity", expected);
    if (const auto quantity = quantity_from_text(text)) {
        return *quantity;
    }
    const bool is_hundredfold = equal_ignoring_case(text, "hRf");
    table.add_fault({table.where("quantity"), in_quotes(text),
                     is_hundredfold ? "Rf, with the value divided by 100" : expected});
    return Quantity::k; // its limits are the widest: the value is no fault as well
}

} // namespace cospot
