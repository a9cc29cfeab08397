// The estimates against measured boiling points of an open collection that the model was not fitted
// to: pansanel, read from Debian's package chemical-structures-data (CML with three-dimensional
// structures and boiling points in degrees Celsius). Two in five of its compounds, common liquids,
// are among those that the model was fitted to all the same.
#include "descriptors/boiling_point.h"
#include "descriptors/structure.h"
#include "shared/error.h"
#include "shared/number.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <map>
#include <optional>
#include <regex>
#include <string>
#include <vector>

namespace cospot::descriptors {
namespace {

constexpr const char *folder = "/usr/share/chemical-structures";

std::string attribute(const std::string &element, const std::string &name) {
    const std::string start = " " + name + "=\"";
    const std::size_t found = element.find(start);
    if (found == std::string::npos) {
        return "";
    }
    const std::size_t begin = found + start.size();
    return element.substr(begin, element.find('"', begin) - begin);
}

std::vector<std::string> elements(const std::string &cml, const std::string &name) {
    const std::regex pattern("<" + name + " [^>]*>");
    std::vector<std::string> found;
    for (std::sregex_iterator at(cml.begin(), cml.end(), pattern), end; at != end; ++at) {
        found.push_back(at->str());
    }
    return found;
}

/// Degrees Celsius as K, or nothing where there is none or only a limit ("> 300").
std::optional<double> boiling_point_in(const std::string &cml) {
    std::smatch match;
    if (!std::regex_search(cml, match, std::regex("dictRef=\"cml:bp\" [^>]*>([^<]*)</scalar>"))) {
        return {};
    }
    const std::optional<double> celsius = number_from_text(match[1].str());
    return celsius ? std::optional(*celsius + 273.15) : std::nullopt;
}

/// The structure as a mol block (CTfile, V2000), for the module's own reader.
std::string mol_block_of(const std::string &cml) {
    const std::vector<std::string> atoms = elements(cml, "atom");
    const std::vector<std::string> bonds = elements(cml, "bond");
    std::string block = fmt::format("\n\n\n{:3}{:3}  0  0  0  0  0  0  0  0999 V2000\n",
                                    atoms.size(), bonds.size());
    std::map<std::string, std::size_t> number_of;
    std::string charges;
    for (const std::string &atom : atoms) {
        number_of[attribute(atom, "id")] = number_of.size() + 1;
        block += fmt::format("{:>10.9}{:>10.9}{:>10.9} {:3} 0  0  0  0  0  0  0  0  0  0  0  0\n",
                             attribute(atom, "x3"), attribute(atom, "y3"), attribute(atom, "z3"),
                             attribute(atom, "elementType"));
        if (const std::string charge = attribute(atom, "formalCharge"); !charge.empty()) {
            charges += fmt::format("M  CHG  1 {:3} {:>3}\n", number_of.size(), charge);
        }
    }
    for (const std::string &bond : bonds) {
        const std::string ends = attribute(bond, "atomRefs2");
        const std::size_t blank = ends.find(' ');
        block += fmt::format("{:3}{:3}{:>3}  0\n", number_of.at(ends.substr(0, blank)),
                             number_of.at(ends.substr(blank + 1)), attribute(bond, "order"));
    }
    return block + charges + "M  END\n";
}

struct Errors {
    std::vector<double> kelvin;
    [[nodiscard]] double mean() const {
        double sum = 0.0;
        for (const double error : kelvin) {
            sum += error;
        }
        return sum / static_cast<double>(kelvin.size());
    }
};

struct Comparison {
    Errors joback; ///< these two on the same compounds: those that both can do
    Errors model;
    int estimated = 0; ///< by the model
    int within_two_standard_errors = 0;
};

void compare(const std::string &cml, Comparison &comparison) {
    const std::optional<double> measured = boiling_point_in(cml);
    if (!measured) {
        return;
    }
    const std::string smiles = read_mol_block(mol_block_of(cml)).smiles;
    const BoilingPointEstimates estimates = boiling_points(smiles);
    if (!estimates.model.kelvin) {
        return;
    }
    const double error = std::abs(*estimates.model.kelvin - *measured);
    ++comparison.estimated;
    const bool is_near = error < 2.0 * estimates.model.standard_error_kelvin.value();
    comparison.within_two_standard_errors += is_near ? 1 : 0;
    if (!is_near) {
        std::cout << smiles << ": measured " << *measured << " K, model " << *estimates.model.kelvin
                  << " K\n";
    }
    if (estimates.joback.kelvin) {
        comparison.joback.kelvin.push_back(std::abs(*estimates.joback.kelvin - *measured));
        comparison.model.kelvin.push_back(error);
    }
}

TEST(BoilingPointOutside, StandardErrorsHoldOnAnIndependentCollection) {
    if (!std::filesystem::is_directory(folder)) {
        GTEST_SKIP() << "the Debian package chemical-structures-data is not installed";
    }
    Comparison comparison;
    int unreadable = 0;
    for (const auto &entry : std::filesystem::recursive_directory_iterator(folder)) {
        if (entry.path().extension() == ".cml") {
            std::ifstream file(entry.path());
            try {
                compare(std::string(std::istreambuf_iterator<char>(file), {}), comparison);
            } catch (const InputError &error) { // nitro groups drawn without charges
                std::cout << entry.path().filename() << ": " << error.what() << '\n';
                ++unreadable;
            }
        }
    }
    std::cout << comparison.model.kelvin.size() << " compounds: Joback " << comparison.joback.mean()
              << " K, model " << comparison.model.mean()
              << " K; within two standard errors: " << comparison.within_two_standard_errors
              << " of " << comparison.estimated << '\n';
    EXPECT_LT(unreadable, 10);
    EXPECT_GT(comparison.model.kelvin.size(), 250U);
    EXPECT_LT(comparison.model.mean(), 0.6 * comparison.joback.mean());
    EXPECT_GT(comparison.within_two_standard_errors, 0.9 * comparison.estimated);
}

} // namespace
} // namespace cospot::descriptors
