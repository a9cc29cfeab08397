#pragma once

#include "shared/error.h"

#include <boost/program_options.hpp>

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// An option as the place of a fault: "command line, --NAME".
[[nodiscard]] Where at_option(const std::string &name);

/// A fault of one option.
[[nodiscard]] InputError bad_option(const std::string &name, std::string found,
                                    std::string expected);

/// The options of one command, read the same way for all: named options, then positional ones.
class CommandOptions {
public:
    /// `usage` is one line, e.g. "cospot identify FILE [options]".
    CommandOptions(std::string usage, std::string description);

    [[nodiscard]] boost::program_options::options_description_easy_init add();
    /// Gathers the arguments that are no options under `name`, at most `count` (-1: any number).
    void positional(const char *name, int count, const char *help);

    /// Reads the arguments. Returns false when help was asked for; it is then on `out`.
    /// Throws InputError for unknown or malformed options.
    [[nodiscard]] bool parse(const std::vector<std::string> &arguments, std::ostream &out);

    [[nodiscard]] bool has(const char *name) const { return values_.count(name) > 0; }
    /// Whether the user gave it, rather than it having its default.
    [[nodiscard]] bool is_given(const char *name) const {
        return has(name) && !values_[name].defaulted();
    }
    template <typename T> [[nodiscard]] const T &get(const char *name) const {
        return values_[name].as<T>();
    }
    /// The text of an option that may be missing.
    [[nodiscard]] std::optional<std::string> text(const char *name) const;
    /// The texts of an option, or of positional arguments, that may be given again; none if
    /// missing.
    [[nodiscard]] std::vector<std::string> texts(const char *name) const;
    /// The number of an option that may be missing. Throws InputError unless it lies above 0 and
    /// from `least` to `most`.
    [[nodiscard]] std::optional<double> positive(const char *name, double most = 1e6,
                                                 double least = 0.0) const;

private:
    std::string usage_;
    std::string description_;
    boost::program_options::options_description visible_;
    boost::program_options::options_description hidden_;
    boost::program_options::positional_options_description positional_;
    boost::program_options::variables_map values_;
};

} // namespace cospot
