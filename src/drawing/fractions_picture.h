#pragma once

#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// What was seen in a fraction.
enum class DrawnState { none, one, mixed };

/// A fraction that somebody looked at.
struct DrawnFraction {
    int number = 0;
    std::string key;   ///< of its row in the table
    std::string title; ///< plain text, what it shows in words
    DrawnState state = DrawnState::none;
    std::optional<double> signal{}; ///< of a detector
};

/// A component in one fraction.
struct DrawnBandCell {
    int fraction = 0;
    std::optional<double> height; ///< intensity as a share of the component's largest, 0 to 1
};

/// A component over the run.
struct DrawnComponent {
    std::string name; ///< e.g. "A  Rf 0.41"
    bool is_wanted = false;
    std::vector<DrawnBandCell> cells; ///< by fraction; never empty
};

/// Neighbouring fractions that belong together.
struct DrawnBracket {
    int first = 0;
    int last = 0;
    std::string label; ///< components, "A + B"
};

/// A run of a column as it is drawn.
struct DrawnRun {
    std::vector<DrawnFraction> fractions; ///< by number; never empty
    std::vector<DrawnComponent> components;
    std::vector<DrawnBracket> combine;
    std::vector<DrawnBracket> keep_apart;
    std::optional<double> threshold; ///< of the signal, where there is one
};

/// The run from left to right: the signal as a curve where there is one, the components above each
/// other, a cell a fraction (filled: one seen, hatched: several, outlined: none), a cell with a
/// dash for neighbours that nobody looked at, and brackets below. A long run is broken into several
/// pictures, one below the other.
[[nodiscard]] std::vector<std::string> fractions_pictures(const DrawnRun &run,
                                                          const std::string &title);

} // namespace cospot
