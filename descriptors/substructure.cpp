#include "descriptors/substructure.h"

#include "descriptors/molecule.h"
#include "descriptors/origin.h"
#include "shared/text.h"

#include <GraphMol/GraphMol.h>
#include <GraphMol/SmilesParse/SmilesParse.h>
#include <GraphMol/Substruct/SubstructMatch.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <memory>
#include <system_error>

#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

namespace cospot::descriptors {

namespace {

constexpr std::size_t longest_pattern = 2000;

/// Why the text is not worth parsing, or empty.
std::string fault_before_parsing_pattern(std::string_view smarts) {
    if (smarts.empty()) {
        return "nothing is there";
    }
    if (smarts.size() > longest_pattern) {
        return fmt::format("it has {} characters, more than {}", smarts.size(), longest_pattern);
    }
    const auto printable = [](char c) { return c > ' ' && c <= '~'; };
    const auto odd = std::find_if_not(smarts.begin(), smarts.end(), printable);
    if (odd != smarts.end()) {
        return fmt::format("no SMARTS character at character {}", odd - smarts.begin() + 1);
    }
    if (const std::size_t bar = smarts.find('|'); bar != std::string_view::npos) {
        return fmt::format("an extension begins at character {}", bar + 1);
    }
    if (smarts.find(">>") != std::string_view::npos) {
        return "a reaction";
    }
    return {};
}

std::unique_ptr<RDKit::RWMol> pattern_of(const Origin &origin, std::string_view smarts) {
    if (const std::string fault = fault_before_parsing_pattern(smarts); !fault.empty()) {
        refuse(origin, fault);
    }
    RDKit::SmartsParserParams parameters;
    parameters.allowCXSMILES = false;
    parameters.parseName = false;
    parameters.mergeHs = true;
    std::unique_ptr<RDKit::RWMol> pattern(RDKit::SmartsToMol(std::string(smarts), parameters));
    if (pattern == nullptr || pattern->getNumAtoms() == 0) {
        refuse(origin, "the order of atoms and bonds is not that of SMARTS");
    }
    return pattern;
}

bool holds(std::string_view smiles, const RDKit::ROMol &pattern) {
    RDKit::SubstructMatchParameters parameters;
    parameters.useChirality = true;
    parameters.maxMatches = 1;
    const auto molecule = molecule_of_smiles(smiles);
    return !RDKit::SubstructMatch(*molecule, pattern, parameters).empty();
}

constexpr char kYes = 'y';
constexpr char kNo = 'n';
constexpr char kFault = 'f';

/// What the worker process does: one letter a structure.
[[noreturn]] void search_and_end(int out, const RDKit::ROMol &pattern,
                                 const std::vector<std::string> &smiles, std::size_t first) {
    for (std::size_t i = first; i < smiles.size(); ++i) {
        char answer = kFault;
        try {
            answer = holds(smiles[i], pattern) ? kYes : kNo;
        } catch (...) { // the program itself asks again, and says why
        }
        if (write(out, &answer, 1) != 1) {
            break;
        }
    }
    _exit(0);
}

/// A process that searches from one structure on.
class Worker {
public:
    Worker(const RDKit::ROMol &pattern, const std::vector<std::string> &smiles, std::size_t first) {
        std::array<int, 2> ends{};
        if (pipe(ends.data()) != 0) {
            throw std::system_error(errno, std::generic_category(), "a pipe");
        }
        process_ = fork();
        if (process_ == 0) {
            close(ends[0]);
            search_and_end(ends[1], pattern, smiles, first);
        }
        close(ends[1]);
        answers_ = ends[0];
        if (process_ < 0) {
            close(answers_);
            throw std::system_error(errno, std::generic_category(), "a process");
        }
    }
    ~Worker() {
        kill(process_, SIGKILL);
        waitpid(process_, nullptr, 0);
        close(answers_);
    }
    Worker(const Worker &) = delete;
    Worker &operator=(const Worker &) = delete;

    /// The next answers, at least one; none where one takes too long or the worker ended.
    [[nodiscard]] std::string next() const {
        pollfd asked{answers_, POLLIN, 0};
        if (poll(&asked, 1, static_cast<int>(kSearchPatience_s * 1000.0)) <= 0) {
            return {};
        }
        std::string answers(4096, '\0');
        const ssize_t count = read(answers_, answers.data(), answers.size());
        answers.resize(count > 0 ? static_cast<std::size_t>(count) : 0);
        return answers;
    }

private:
    pid_t process_ = -1;
    int answers_ = -1;
};

} // namespace

std::vector<bool> substructure_matches(std::string_view smarts,
                                       const std::vector<std::string> &smiles,
                                       std::vector<std::size_t> &undecided) {
    const Origin origin{in_quotes(smarts), "a SMARTS pattern"};
    const auto pattern = guarded(origin, [&] { return pattern_of(origin, smarts); });
    std::vector<bool> result;
    result.reserve(smiles.size());
    while (result.size() < smiles.size()) {
        const Worker worker(*pattern, smiles, result.size());
        for (std::string answers = worker.next(); !answers.empty(); answers = worker.next()) {
            for (const char answer : answers) {
                const std::string &text = smiles[result.size()];
                result.push_back(answer == kFault ? guarded(smiles_origin(text),
                                                            [&] { return holds(text, *pattern); })
                                                  : answer == kYes);
            }
        }
        if (result.size() < smiles.size()) {
            undecided.push_back(result.size());
            result.push_back(false);
        }
    }
    return result;
}

} // namespace cospot::descriptors
