#pragma once

#include "output/json.h"
#include "report/html.h"

#include <fmt/format.h>

#include <string_view>

namespace cospot {

/// A number of a JSON object as a cell that sorts by it; null is an empty cell. `format` is that of
/// fmt, e.g. "{:.2f}".
inline html::Cell number_cell(const Json &value, std::string_view format) {
    if (value.is_null()) {
        return {};
    }
    return {fmt::format(fmt::runtime(format), value.get<double>()), value.get<double>()};
}

} // namespace cospot
