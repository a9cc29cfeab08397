#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace cospot::fractions {

/// One spot of a fraction on a plate.
struct Spot {
    double rf = 0.0;                 ///< R_F, 0 to 1
    std::optional<double> intensity; ///< from 0, in any unit that is the same through the run
};

/// What one lane of one plate shows of a fraction. No spots: nothing was seen in it.
struct Lane {
    int fraction = 0; ///< number of the fraction, from 1
    std::string plate;
    std::string lane;
    std::vector<Spot> spots; ///< in any order
};

/// A spot of a standard that ran beside the fractions, so that plates can be compared by it.
struct StandardSpot {
    std::string plate;
    std::string label; ///< what it is; empty where the plates have one standard only
    double rf = 0.0;   ///< R_F, 0 to 1
};

/// A fraction that somebody looked at.
struct Fraction {
    int number = 0;                  ///< from 1
    std::vector<std::string> plates; ///< on which it was spotted
    std::vector<Spot> spots;         ///< of all its lanes, the highest R_F first
    std::optional<double> signal;    ///< of a detector, in any unit
    std::optional<double> mass_mg;
    std::optional<double> volume_ml;
};

/// What a component shows in one fraction.
struct BandSpot {
    std::size_t fraction = 0;        ///< index of the fraction in the run
    std::optional<double> rf;        ///< none where a detector saw it
    std::optional<double> intensity; ///< never to be compared between components
};

/// A band over neighbouring fractions. What runs alike in this system is one component here,
/// however many compounds it is.
struct Component {
    std::string name;            ///< A, B, ... in the order in which they leave the column
    std::vector<BandSpot> spots; ///< by fraction, one each; never empty
    std::optional<double> rf;    ///< mean
};

/// The fractions of one column and the components that were seen in them.
struct ColumnRun {
    std::vector<Fraction> fractions; ///< by number, each once
    std::vector<Component> components;
    bool is_trace = false; ///< seen by a detector, which cannot tell components apart
};

/// Fractions that follow each other, both ends included.
struct FractionRange {
    int first = 0;
    int last = 0;

    bool operator==(const FractionRange &) const = default;
};

/// The numbers (ascending) as ranges of neighbours.
[[nodiscard]] std::vector<FractionRange> ranges_of(const std::vector<int> &numbers);

/// Where on the column's run a component leaves: the mean number of its fractions, weighted by
/// intensity where each of its spots has one.
[[nodiscard]] double centre_of(const Component &component, const std::vector<Fraction> &fractions);

/// Orders components by where they leave, the higher R_F first where that is the same, and names
/// them A to Z, then AA, AB and so on.
void name_in_order(std::vector<Component> &components, const std::vector<Fraction> &fractions);

} // namespace cospot::fractions
