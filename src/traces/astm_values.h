#pragma once

#include "traces/netcdf_classic.h"
#include "traces/trace.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// Named values of a netCDF file as programs write them by ASTM E1947 and E2077: numbers stored as
/// text, scalars as variables or as attributes of the file, attribute names in the plural, texts
/// with NULs behind them, -9999 or the fill value where nothing is known.
class AstmValues {
public:
    explicit AstmValues(NetcdfClassic &netcdf) : netcdf_(&netcdf) {}

    /// An attribute of the file, or its plural, or a variable of one text; empty where there is
    /// none.
    [[nodiscard]] std::string text(const std::string &name);
    /// A variable of one value or an attribute of the file. Nothing where it is absent or null.
    /// Throws InputError for a text that is no number.
    [[nodiscard]] std::optional<double> number(const std::string &name);
    /// The values of a variable, nothing for a null; empty where there is no such variable. Throws
    /// InputError for more than 100,000.
    [[nodiscard]] std::vector<std::optional<double>> column(const std::string &name);
    /// As `column`, of texts; a variable of numbers gives no texts.
    [[nodiscard]] std::vector<std::string> text_column(const std::string &name);
    /// All values of a variable, unpacked with its `scale_factor` and `add_offset`, none of them
    /// taken for null but the fill value, which becomes NaN. Throws InputError for more points than
    /// a trace may have.
    [[nodiscard]] std::vector<double> points(const NetcdfVariable &variable);

    /// The text of an attribute of a variable; empty where there is none.
    [[nodiscard]] static std::string text_of(const NetcdfVariable &variable, std::string_view name);

    [[nodiscard]] NetcdfClassic &netcdf() noexcept { return *netcdf_; }
    [[nodiscard]] const std::string &file() const noexcept { return netcdf_->file(); }

private:
    NetcdfClassic *netcdf_;
};

/// The number where it stands for one: not -9999, not a fill value of netCDF, not infinite.
[[nodiscard]] std::optional<double> unless_null(double value);

} // namespace cospot
