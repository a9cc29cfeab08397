#include "options/options.h"

#include "document/style.h"
#include "shared/number.h"
#include "shared/table_number.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <ostream>
#include <sstream>
#include <utility>

namespace cospot {

namespace po = boost::program_options;

namespace {

/// The text wrapped to the screen beside a label.
std::string beside(const std::string &label, const std::string &text) {
    std::string block = wrapped(text, label.size());
    return block.replace(0, label.size(), label);
}

/// A description wrapped to the screen. Lines that begin with blanks are rows of a table, and go on
/// under their second column; all others run on.
std::string description_text(const std::string &description) {
    std::string text;
    std::string paragraph;
    const auto end_paragraph = [&] {
        text += paragraph.empty() ? "" : wrapped(paragraph, 0);
        paragraph.clear();
    };
    std::istringstream lines(description);
    for (std::string line; std::getline(lines, line);) {
        const std::size_t begin = line.find_first_not_of(' ');
        if (begin == 0) {
            paragraph += (paragraph.empty() ? "" : " ") + line;
            continue;
        }
        end_paragraph();
        const std::size_t gap = line.find("  ", begin);
        const std::size_t column = gap < line.size() ? line.find_first_not_of(' ', gap) : begin;
        text += beside(line.substr(0, column), line.substr(column));
    }
    end_paragraph();
    return text;
}

template <typename Number> bool takes(const po::option_description *option) {
    return option != nullptr &&
           dynamic_cast<const po::typed_value<Number> *>(option->semantic().get()) != nullptr;
}

/// Numbers may have a decimal comma, as tables may. "1,000" is left as it is, and refused: it may
/// be meant as a thousand.
void read_decimal_commas(po::parsed_options &parsed, const po::options_description &options) {
    for (po::option &one : parsed.options) {
        if (!takes<double>(options.find_nothrow(one.string_key, false))) {
            continue;
        }
        for (std::string &value : one.value) {
            const std::size_t comma = value.find(',');
            const bool may_be_thousands =
                comma != std::string::npos && value.size() - comma == 4 && value.front() != '0';
            const auto written = written_number(value);
            if (written && written->decimal == ',' && !written->has_groups && !may_be_thousands) {
                value[comma] = '.';
            }
        }
    }
}

/// A value that its option cannot take, or an option given twice or without its value.
InputError misread_value(po::validation_error &error, const po::options_description &options) {
    const std::string name = error.get_option_name(); // with its dashes
    const po::option_description *option =
        options.find_nothrow(name.substr(name.find_first_not_of('-')), false);
    if (error.kind() != po::validation_error::invalid_option_value) {
        return bad_usage(error.what(), name + " once, with one value");
    }
    error.m_error_template = "%value%";
    const std::string value = error.what();
    return bad_usage(name + " " + in_quotes(value), takes<double>(option) ? name + " with a number"
                                                    : takes<std::string>(option)
                                                        ? name + " with a text"
                                                        : name + " with a whole number");
}

} // namespace

Where at_option(const std::string &name) {
    return {"command line, --" + name, 0, ""};
}

InputError bad_option(const std::string &name, std::string found, std::string expected) {
    return {at_option(name), std::move(found), std::move(expected)};
}

CommandOptions::CommandOptions(std::string usage, std::string description)
    : usage_(std::move(usage)), description_(std::move(description)), visible_("Options", 79, 40) {
    visible_.add_options()("help,h", "this text");
}

po::options_description_easy_init CommandOptions::add() {
    return visible_.add_options();
}

void CommandOptions::positional(const char *name, int count, const char *help) {
    hidden_.add_options()(name, po::value<std::vector<std::string>>(), help);
    positional_.add(name, count);
}

bool CommandOptions::parse(const std::vector<std::string> &arguments, std::ostream &out) {
    using style = po::command_line_style::style_t;
    // No guessing of abbreviated names: a script must not break when an option is added.
    const int unguessed = style::unix_style & ~style::allow_guessing;
    po::options_description all;
    all.add(visible_).add(hidden_);
    try {
        po::parsed_options parsed = po::command_line_parser(arguments)
                                        .options(all)
                                        .positional(positional_)
                                        .style(unguessed)
                                        .run();
        read_decimal_commas(parsed, visible_);
        po::store(parsed, values_);
        if (values_.count("help") > 0) {
            out << beside("Usage: ", usage_) << '\n'
                << description_text(description_) << '\n'
                << visible_ << '\n';
            return false;
        }
        po::notify(values_);
    } catch (po::validation_error &error) {
        throw misread_value(error, visible_);
    } catch (const po::multiple_occurrences &error) {
        throw bad_usage(error.get_option_name() + " again", error.get_option_name() + " once");
    } catch (const po::invalid_command_line_syntax &error) {
        throw bad_usage(error.get_option_name() +
                            (error.kind() == po::invalid_syntax::missing_parameter
                                 ? " without a value"
                                 : ", which cannot be read"),
                        error.get_option_name() + " and its value (--help tells more)");
    } catch (const po::too_many_positional_options_error &) {
        throw bad_usage("more arguments than this verb takes", usage_);
    } catch (const po::error_with_no_option_name &error) {
        throw bad_usage(error.get_option_name() + ", which this verb does not have",
                        usage_ + " (--help lists its options)");
    } catch (const po::error &error) {
        throw bad_usage(error.what(), usage_ + " (--help tells more)");
    }
    return true;
}

std::optional<std::string> CommandOptions::text(const char *name) const {
    return has(name) ? std::optional(get<std::string>(name)) : std::nullopt;
}

std::vector<std::string> CommandOptions::texts(const char *name) const {
    return has(name) ? get<std::vector<std::string>>(name) : std::vector<std::string>{};
}

std::optional<double> CommandOptions::positive(const char *name, double most, double least) const {
    if (!has(name)) {
        return std::nullopt;
    }
    const double value = get<double>(name);
    if (!(value > 0.0 && value >= least && value <= most)) {
        throw bad_option(name, exact_text(value),
                         least > 0.0 ? fmt::format("a number from {:g} to {:g}", least, most)
                                     : fmt::format("a number above 0, at most {:g}", most));
    }
    return value;
}

} // namespace cospot
