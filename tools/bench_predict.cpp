// Measures how long retention from structure takes on a library of 5,000 invented values, the first
// time and with what the library keeps of it, against the same question to an empty library.
//   bench_predict COSPOT FOLDER
// COSPOT is the program to measure, FOLDER a scratch folder. Prints one JSON object.

#include "bench_process.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;
using cospot::bench::run;

constexpr std::size_t kCompounds = 700; ///< 500 of them in ten eluents: 5,000 values
constexpr std::size_t kUnmeasured = 200;
constexpr std::array kEthylAcetatePercent{5, 10, 15, 20, 25, 30, 40, 50, 60, 70};

/// A substituent and what it adds to R_M: invented.
struct Substituent {
    const char *smiles;
    double polarity;
};
constexpr std::array<Substituent, 16> kSubstituents{{{"C", -0.15},
                                                     {"CC", -0.2},
                                                     {"CCC", -0.25},
                                                     {"C(C)(C)C", -0.25},
                                                     {"O", 0.6},
                                                     {"OC", 0.15},
                                                     {"Cl", -0.05},
                                                     {"Br", -0.05},
                                                     {"F", 0.0},
                                                     {"N", 0.7},
                                                     {"C=O", 0.3},
                                                     {"C#N", 0.35},
                                                     {"C(=O)OC", 0.3},
                                                     {"[N+](=O)[O-]", 0.3},
                                                     {"NC(C)=O", 1.1},
                                                     {"C(F)(F)F", -0.15}}};

struct Compound {
    std::string smiles;
    double polarity;
};

/// Benzenes with three substituents, all different.
std::vector<Compound> compounds() {
    std::vector<Compound> made;
    for (std::size_t a = 0; a < kSubstituents.size(); ++a) {
        for (std::size_t b = a; b < kSubstituents.size(); ++b) {
            for (std::size_t c = b; c < kSubstituents.size() && made.size() < kCompounds; ++c) {
                made.push_back({fmt::format("{}c1cc({})cc({})c1", kSubstituents[a].smiles,
                                            kSubstituents[b].smiles, kSubstituents[c].smiles),
                                kSubstituents[a].polarity + kSubstituents[b].polarity +
                                    kSubstituents[c].polarity});
            }
        }
    }
    return made;
}

/// The first `kUnmeasured` were run on paper only, the others in all eluents.
void write_tables(const fs::path &folder) {
    std::ofstream systems(folder / "systems.csv");
    systems << "system,technique,stationary_phase,mobile_phase\npaper,paper,cellulose,water\n";
    for (const int percent : kEthylAcetatePercent) {
        systems << fmt::format("e{},tlc,silica gel,hexane:ethyl acetate {}:{}\n", percent,
                               100 - percent, percent);
    }
    std::ofstream values(folder / "values.csv");
    values << "compound,smiles,system,quantity,value,run\n";
    const std::vector<Compound> made = compounds();
    for (std::size_t i = 0; i < made.size(); ++i) {
        if (i < kUnmeasured) {
            values << fmt::format("c{},{},paper,Rf,0.5,r\n", i, made[i].smiles);
            continue;
        }
        for (const int percent : kEthylAcetatePercent) {
            const double own = 0.1 * std::sin(37.0 * static_cast<double>(i * 100) + percent);
            const double r_m = made[i].polarity - std::log10(percent / 25.0) + own;
            values << fmt::format("c{},{},e{},Rf,{:.3f},r{}\n", i, made[i].smiles, percent,
                                  1.0 / (1.0 + std::pow(10.0, r_m)), percent);
        }
    }
}

/// The names of the compounds that were on paper only.
std::string unmeasured() {
    std::string names;
    for (std::size_t i = 0; i < kUnmeasured; ++i) {
        names += fmt::format("{}c{}", names.empty() ? "" : ";", i);
    }
    return names;
}

double milliseconds(const std::string &cospot, const fs::path &library,
                    std::vector<std::string> arguments) {
    arguments.insert(arguments.begin(), {cospot, "--library", library.string()});
    return 1000.0 * run(arguments).seconds;
}

} // namespace

int main(int argc, char **argv) {
    if (argc != 3) {
        std::cerr << "usage: bench_predict COSPOT FOLDER\n";
        return 2;
    }
    try {
        const std::string cospot = argv[1];
        const fs::path folder = argv[2];
        const fs::path library = folder / "predicted.db";
        const fs::path empty = folder / "empty.db";
        write_tables(folder);
        milliseconds(cospot, empty, {"init"});
        milliseconds(cospot, library, {"init"});
        milliseconds(cospot, library,
                     {"learn", "--systems", (folder / "systems.csv").string(),
                      (folder / "values.csv").string()});
        const std::vector<std::string> predict{"predict", "Cc1ccc(OC)c(C(=O)OCC)c1"};
        const std::vector<std::string> column{"column", "--system", "e20", "--compounds",
                                              unmeasured()};
        const double first = milliseconds(cospot, library, predict);
        double bare = milliseconds(cospot, empty, predict);
        double after = milliseconds(cospot, library, predict);
        for (int i = 0; i < 4; ++i) {
            bare = std::min(bare, milliseconds(cospot, empty, predict));
            after = std::min(after, milliseconds(cospot, library, predict));
        }
        const double planned = milliseconds(cospot, library, column);
        fmt::print("{{\"predict_bare_ms\": {:.0f}, \"predict_first_ms\": {:.0f}, "
                   "\"predict_after_ms\": {:.0f}, \"ratio_predict_first\": {:.1f}, "
                   "\"ratio_predict_after\": {:.1f}, \"column_200_ms\": {:.0f}, "
                   "\"ratio_column\": {:.1f}}}\n",
                   bare, first, after, first / bare, after / bare, planned, planned / bare);
    } catch (const std::exception &error) {
        std::cerr << "bench_predict: " << error.what() << '\n';
        return 1;
    }
    return 0;
}
