#include "traces/astm_values.h"

#include "shared/number.h"
#include "shared/text.h"
#include "traces/stored_text.h"
#include "traces/trace_points.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace cospot {

namespace {

constexpr std::size_t kMostRows = 100'000;        // of a table of peaks
constexpr std::size_t kMostTextBytes = 4U << 20U; // of all its rows

/// What is written where nothing was: the greatest that the default fill values of float and double
/// can be told from (netcdf2011, NC_FILL_FLOAT, from memory).
constexpr double kFillValue = 9.9692099683868690e+36;
constexpr double kNull = -9999.0;

bool is_fill_value(double value) {
    return std::abs(value - kFillValue) < 1e-6 * kFillValue;
}

/// The number that a text of a file spells; nothing for an empty one.
std::optional<double> number_in_text(const std::string &bytes, const std::string &file,
                                     const std::string &name) {
    const std::string text = stored_text(bytes);
    return text.empty() ? std::nullopt
                        : unless_null(parse_number(text, {file, 0, name}, "a number"));
}

double scaling_of(const NetcdfVariable &variable, std::string_view name, double otherwise) {
    const NetcdfAttribute *attribute = variable.attribute(name);
    return attribute == nullptr || attribute->numbers.empty() ? otherwise
                                                              : attribute->numbers.front();
}

} // namespace

std::optional<double> unless_null(double value) {
    return std::isfinite(value) && value != kNull && !is_fill_value(value) ? std::optional(value)
                                                                           : std::nullopt;
}

std::string AstmValues::text(const std::string &name) {
    for (const std::string &each : {name, name + "s"}) {
        if (const NetcdfAttribute *attribute = netcdf_->attribute(each)) {
            return stored_text(attribute->text);
        }
        const std::vector<std::string> column = text_column(each);
        if (!column.empty()) {
            return column.front();
        }
    }
    return "";
}

std::optional<double> AstmValues::number(const std::string &name) {
    const auto values = column(name);
    if (!values.empty()) {
        return values.front();
    }
    const NetcdfAttribute *attribute = netcdf_->attribute(name);
    if (attribute == nullptr) {
        return std::nullopt;
    }
    return attribute->numbers.empty() ? number_in_text(attribute->text, file(), name)
                                      : unless_null(attribute->numbers.front());
}

std::vector<std::optional<double>> AstmValues::column(const std::string &name) {
    std::vector<std::optional<double>> values;
    const NetcdfVariable *variable = netcdf_->variable(name);
    if (variable == nullptr) {
        return values;
    }
    if (variable->type == NetcdfType::text) {
        for (const std::string &bytes : netcdf_->texts(*variable, kMostTextBytes)) {
            values.push_back(number_in_text(bytes, file(), name));
        }
        return values;
    }
    for (const double value : netcdf_->numbers(*variable, kMostRows)) {
        values.push_back(unless_null(value));
    }
    return values;
}

std::vector<std::string> AstmValues::text_column(const std::string &name) {
    std::vector<std::string> texts;
    const NetcdfVariable *variable = netcdf_->variable(name);
    if (variable != nullptr && variable->type == NetcdfType::text) {
        texts = netcdf_->texts(*variable, kMostTextBytes);
        std::transform(texts.begin(), texts.end(), texts.begin(), stored_text);
    }
    return texts;
}

std::vector<double> AstmValues::points(const NetcdfVariable &variable) {
    check_count(NetcdfClassic::count(variable), {file(), 0, printable(variable.name)});
    std::vector<double> values = netcdf_->numbers(variable, kMostTracePoints);
    const double factor = scaling_of(variable, "scale_factor", 1.0);
    const double offset = scaling_of(variable, "add_offset", 0.0);
    for (double &value : values) {
        value = is_fill_value(value) ? std::numeric_limits<double>::quiet_NaN()
                                     : offset + factor * value;
    }
    return values;
}

std::string AstmValues::text_of(const NetcdfVariable &variable, std::string_view name) {
    const NetcdfAttribute *attribute = variable.attribute(name);
    return attribute == nullptr ? "" : stored_text(attribute->text);
}

} // namespace cospot
