#include "readers/column_alias.h"

#include "shared/text.h"

#include <memory>

namespace cospot {

ColumnAlias parse_column_alias(std::string_view text, const Where &where) {
    const std::size_t equals = text.find('=');
    if (equals == std::string_view::npos || equals == 0 || equals + 1 == text.size()) {
        throw InputError(where, in_quotes(text), "COLUMN=HEADER, e.g. compound=Name");
    }
    return {std::string(text.substr(0, equals)), std::string(text.substr(equals + 1)),
            std::make_shared<bool>(false)};
}

} // namespace cospot
