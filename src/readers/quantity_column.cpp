#include "readers/quantity_column.h"

#include "shared/text.h"

namespace cospot {

Quantity read_quantity(const TableReader &table) {
    const std::string expected = "Rf, k, RI or tR";
    const std::string_view text = table.required_text("quantity", expected);
    if (const auto quantity = quantity_from_text(text)) {
        return *quantity;
    }
    throw InputError(table.where("quantity"), in_quotes(text), expected);
}

} // namespace cospot
