#pragma once

#include <bitset>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace RDKit {
class ROMol;
}

namespace cospot::descriptors {

/// The rows of an embedded table: tab-separated fields, a header line, lines that begin with '#'
/// left out. Throws std::logic_error where a row does not have `fields` fields: the table is the
/// project's own, tests read it.
[[nodiscard]] std::vector<std::vector<std::string>> table_rows(std::string_view text,
                                                               std::size_t fields);

/// The atomic numbers that occur in a molecule or that a pattern cannot do without.
using Elements = std::bitset<128>;

[[nodiscard]] Elements elements_of(const RDKit::ROMol &molecule);

/// A compiled SMARTS that can be matched fast. Not to be shared between threads.
class Pattern {
public:
    /// Throws std::logic_error where the SMARTS cannot be read.
    explicit Pattern(const std::string &smarts);
    Pattern(Pattern &&other) noexcept;
    Pattern &operator=(Pattern &&other) noexcept;
    ~Pattern();

    /// The sets of atoms that the pattern covers; `present` are the molecule's elements.
    [[nodiscard]] std::vector<std::vector<unsigned>> matches(const RDKit::ROMol &molecule,
                                                             const Elements &present) const;

private:
    std::unique_ptr<RDKit::ROMol> query_;
    Elements required_;
};

} // namespace cospot::descriptors
