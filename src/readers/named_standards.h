#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// The labels that the user says to be standards, in texts as --standards gives them: one name, or
/// several between commas. A name that has a comma itself counts whole. `is_same_compound` may know
/// further names of the compounds.
class NamedStandards {
public:
    explicit NamedStandards(
        const std::vector<std::string> &texts,
        std::function<bool(const std::string &, const std::string &)> is_same_compound = {});

    /// Whether the label of a lane is one of them, or another name of its compound; its case is
    /// ignored.
    [[nodiscard]] bool holds(std::string_view label);

    /// Names that no label was, one a note.
    [[nodiscard]] std::vector<std::string> notes() const;

private:
    struct Name {
        std::string name;
        std::size_t text = 0; ///< index of the text that it stands in
        bool is_whole = false;
        bool is_seen = false;
    };

    [[nodiscard]] bool is_meant(const Name &name, std::string_view label) const;

    std::vector<Name> names_;
    std::function<bool(const std::string &, const std::string &)> is_same_compound_;
};

} // namespace cospot
