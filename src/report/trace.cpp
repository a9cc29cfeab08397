#include "report/trace.h"

#include "options/version.h"
#include "readers/input_file.h"
#include "report/checksum.h"
#include "shared/date.h"

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <system_error>

namespace cospot {

namespace {

Json json_of(const InputTrace &input) {
    return {{"name", input.name},
            {"sha256", input.sha256.empty() ? Json(nullptr) : Json(input.sha256)}};
}

} // namespace

std::vector<std::string> input_names(const CommandOptions &options,
                                     std::initializer_list<const char *> options_of_files,
                                     const char *option_of_names_or_files) {
    std::vector<std::string> names = options.texts("file");
    for (const char *option : options_of_files) {
        if (options.has(option)) {
            names.push_back(options.get<std::string>(option));
        }
    }
    if (option_of_names_or_files != nullptr) {
        const std::vector<std::string> values = options.texts(option_of_names_or_files);
        std::copy_if(values.begin(), values.end(), std::back_inserter(names), is_input);
    }
    return names;
}

TracedInputs::TracedInputs(const std::vector<std::string> &names, std::istream &standard_input)
    : standard_input_(&standard_input) {
    for (const std::string &name : names) {
        std::error_code error;
        if (name == "-") {
            InputFile input(name, standard_input);
            kept_.str(input.read_all());
            standard_input_ = &kept_;
            traces_.push_back({input.name(), sha256_hex(kept_.str())});
        } else if (std::filesystem::is_regular_file(name, error)) {
            traces_.push_back({name, sha256_of_file(name)});
        } else {
            traces_.push_back({name, ""});
        }
    }
}

ReportTrace trace_of(const std::string &verb, const Invocation &invocation,
                     const std::vector<InputTrace> &inputs, LibraryUse library) {
    return {.verb = verb,
            .arguments = invocation.arguments,
            .library = library == LibraryUse::none
                           ? std::nullopt
                           : std::optional(InputTrace{invocation.library.string(),
                                                      sha256_of_file(invocation.library)}),
            .version = kVersion,
            .date_utc = utc_now(),
            .inputs = inputs};
}

Json trace_json(const ReportTrace &trace) {
    Json inputs = Json::array();
    for (const InputTrace &input : trace.inputs) {
        inputs.push_back(json_of(input));
    }
    return {{"program", "cospot"},
            {"version", trace.version},
            {"date_utc", trace.date_utc},
            {"verb", trace.verb},
            {"arguments", trace.arguments},
            {"library", trace.library ? json_of(*trace.library) : Json(nullptr)},
            {"inputs", inputs}};
}

} // namespace cospot
