#pragma once

#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// A band as it is expected to leave a column.
struct DrawnBand {
    std::string key; ///< of its row in the table
    std::string name;
    double centre_cv = 0.0; ///< column volumes, of the maximum
    double sigma_cv = 0.0;  ///< standard deviation, above 0
    bool is_target = false;
};

/// The column, as far as it is known.
struct DrawnColumn {
    std::optional<double> volume_ml;   ///< hold-up volume
    std::optional<double> fraction_ml; ///< size of a fraction
    double forerun_ml = 0.0;           ///< collected before fraction 1
};

/// A line across the picture where a fraction ends.
struct FractionTick {
    int number = 0;
    double end_ml = 0.0;
};

/// The fractions up to a volume whose numbers have room, where a mL is `pixels_per_ml` wide: 1 and
/// multiples of a round step. Numbers stand in the middle of their fraction.
[[nodiscard]] std::vector<FractionTick> fraction_ticks(const DrawnColumn &column, double last_ml,
                                                       double pixels_per_ml);

/// The expected run: a Gaussian curve a compound, all equally high, over column volumes, volume and
/// fractions (the last two where the column is known). `bands` must not be empty.
[[nodiscard]] std::string elution_picture(const std::vector<DrawnBand> &bands,
                                          const DrawnColumn &column, const std::string &title);

} // namespace cospot
