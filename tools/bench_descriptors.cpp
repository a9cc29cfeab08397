// Measures describe() against RDKit alone making the same calls, and describe() on two threads.
//   bench_descriptors SMILES.smi    (a structure a line, SMILES first)
// Prints one JSON object.
#include "descriptors/descriptors.h"

#include <GraphMol/Descriptors/MolDescriptors.h>
#include <GraphMol/GraphMol.h>
#include <GraphMol/SmilesParse/SmilesParse.h>
#include <GraphMol/Substruct/SubstructMatch.h>

#include <fmt/format.h>

#include <atomic>
#include <chrono>
#include <fstream>
#include <functional>
#include <iostream>
#include <memory>
#include <string>
#include <thread>
#include <vector>

namespace {

using cospot::descriptors::describe;

double seconds_of(const std::function<void()> &work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

/// Every call of RDKit that a description needs, one after the other.
double rdkit_alone(const std::string &smiles,
                   const std::vector<std::unique_ptr<RDKit::ROMol>> &patterns) {
    namespace d = RDKit::Descriptors;
    const std::unique_ptr<RDKit::ROMol> molecule(RDKit::SmilesToMol(smiles));
    double logp = 0.0;
    double refractivity = 0.0;
    d::calcCrippenDescriptors(*molecule, logp, refractivity);
    double sum = logp + refractivity + d::calcTPSA(*molecule) + d::calcLabuteASA(*molecule) +
                 d::calcLipinskiHBD(*molecule) + d::calcLipinskiHBA(*molecule) +
                 d::calcNumRotatableBonds(*molecule) + d::calcNumRings(*molecule) +
                 d::calcNumAromaticRings(*molecule) + d::calcFractionCSP3(*molecule) +
                 d::numAtomStereoCenters(*molecule) + d::calcChi0v(*molecule) +
                 d::calcChi1v(*molecule) + d::calcChi2v(*molecule) + d::calcChi3v(*molecule) +
                 d::calcKappa1(*molecule) + d::calcKappa2(*molecule) +
                 d::calcHallKierAlpha(*molecule) + d::calcPhi(*molecule);
    for (const auto &pattern : patterns) {
        sum += static_cast<double>(RDKit::SubstructMatch(*molecule, *pattern).size());
    }
    return sum;
}

double on_two_threads(const std::vector<std::string> &smiles) {
    return seconds_of([&] {
        std::atomic<std::size_t> next{0};
        const auto run = [&] {
            for (std::size_t i = next++; i < smiles.size(); i = next++) {
                (void)describe(smiles[i]);
            }
        };
        const std::jthread other(run);
        run();
    });
}

} // namespace

int main(int argc, char **argv) {
    if (argc != 2) {
        std::cerr << "usage: bench_descriptors SMILES.smi\n";
        return 2;
    }
    std::vector<std::string> smiles;
    std::ifstream in(argv[1]);
    for (std::string line; std::getline(in, line);) {
        smiles.push_back(line.substr(0, line.find(' ')));
    }
    std::vector<std::unique_ptr<RDKit::ROMol>> patterns;
    for (const auto &group : cospot::descriptors::functional_groups()) {
        patterns.emplace_back(RDKit::SmartsToMol(group.smarts));
    }
    (void)describe(smiles.front()); // tables are read once
    double checksum = 0.0;
    const double alone = seconds_of([&] {
        for (const std::string &text : smiles) {
            checksum += rdkit_alone(text, patterns);
        }
    });
    const double ours = seconds_of([&] {
        for (const std::string &text : smiles) {
            checksum += describe(text).crippen_logp;
        }
    });
    const double two = on_two_threads(smiles);
    fmt::print("{{\"structures\": {}, \"rdkit_alone_us\": {:.0f}, \"describe_us\": {:.0f}, "
               "\"ratio_describe\": {:.2f}, \"two_threads_gain\": {:.2f}, \"checksum\": {:.3g}}}\n",
               smiles.size(), 1e6 * alone / static_cast<double>(smiles.size()),
               1e6 * ours / static_cast<double>(smiles.size()), ours / alone, ours / two, checksum);
    return 0;
}
