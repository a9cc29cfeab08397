#include "desk/verb_call.h"

#include "desk/sheet_store.h"
#include "shared/error.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

namespace cospot::desk {

namespace {

constexpr std::size_t kMostArguments = 500;

/// What a page may ask for, and whether its arguments are files of the sheet.
struct AllowedVerb {
    std::string_view name;
    bool takes_files = false;
};
constexpr std::array kVerbs{
    AllowedVerb{"advise", true},   AllowedVerb{"audit", false},   AllowedVerb{"column", true},
    AllowedVerb{"distil", true},   AllowedVerb{"export", false},  AllowedVerb{"history", false},
    AllowedVerb{"identify", true}, AllowedVerb{"init", false},    AllowedVerb{"learn", true},
    AllowedVerb{"list", false},    AllowedVerb{"peaks", true},    AllowedVerb{"photo", true},
    AllowedVerb{"pool", true},     AllowedVerb{"predict", false}, AllowedVerb{"prove", false},
    AllowedVerb{"purity", true},   AllowedVerb{"rename", false},  AllowedVerb{"resolve", true},
    AllowedVerb{"retire", false},  AllowedVerb{"show", false},
};

/// Options whose value is the name of a file of the sheet.
constexpr std::array<std::string_view, 14> kFileOptions{
    "also",  "blank",   "blank-ladder",  "effort",        "ladder",       "minus", "prior",
    "rules", "systems", "second-column", "second-ladder", "second-photo", "plate", "output"};

/// Options whose value is a text or the name of a file.
constexpr std::array<std::string_view, 3> kTextOrFileOptions{"compounds", "confirmed", "expected"};

/// Options that write files of their own, or that the program sets.
constexpr std::array<std::string_view, 5> kBarredOptions{"library", "report", "refused", "replace",
                                                         "help"};

template <std::size_t N>
bool holds(const std::array<std::string_view, N> &names, std::string_view name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

InputError bad_call(std::string found, std::string expected) {
    return InputError({"request", 0, ""}, std::move(found), std::move(expected));
}

std::string text_of(const Json &json, std::string_view what) {
    if (!json.is_string()) {
        throw bad_call(fmt::format("{} that is no text", what), "text");
    }
    auto text = json.get<std::string>();
    if (text.find('\0') != std::string::npos) {
        throw bad_call(fmt::format("{} with a character 0", what), "text");
    }
    return text;
}

void check_file_name(const std::string &name, std::string_view what) {
    if (!is_file_name(name)) {
        throw bad_call(fmt::format("{} {}", what, in_quotes(name)),
                       "the name of a file of the sheet");
    }
}

/// A text that a verb may also take for a file, which then has to be one of the sheet. (SMILES and
/// names hold slashes, but do not begin with one.)
void check_no_path(const std::string &text, std::string_view what) {
    if (text.starts_with('/') || text.starts_with('.') || text.find("../") != std::string::npos ||
        text == "-") {
        throw bad_call(fmt::format("{} {}", what, in_quotes(text)),
                       "a name, or a file of the sheet");
    }
}

void check_value(const std::string &option, const std::string &value) {
    if (holds(kFileOptions, option)) {
        check_file_name(value, "--" + option);
    } else if (holds(kTextOrFileOptions, option)) {
        check_no_path(value, "--" + option);
    }
}

bool is_option_name(std::string_view name) {
    return !name.empty() && name.front() != '-' &&
           std::all_of(name.begin(), name.end(),
                       [](char c) { return c == '-' || (c >= 'a' && c <= 'z'); });
}

void add_option(std::vector<std::string> &arguments, const std::string &name, const Json &value) {
    if (!is_option_name(name) || holds(kBarredOptions, name)) {
        throw bad_call("the option " + in_quotes(name), "an option that a page may set");
    }
    if (value.is_boolean()) {
        if (value.get<bool>()) {
            arguments.push_back("--" + name);
        }
        return;
    }
    if (value.is_array()) {
        for (const Json &one : value) {
            add_option(arguments, name, one);
        }
        return;
    }
    const std::string text = text_of(value, "--" + name);
    check_value(name, text);
    arguments.push_back(fmt::format("--{}={}", name, text));
}

const AllowedVerb &allowed_verb(const Json &asked) {
    const std::string name = text_of(asked.value("verb", Json()), "a verb");
    const auto *const verb = std::find_if(kVerbs.begin(), kVerbs.end(),
                                          [&](const AllowedVerb &one) { return one.name == name; });
    if (verb == kVerbs.end()) {
        throw bad_call("the verb " + in_quotes(name), "a verb that a page may call");
    }
    return *verb;
}

AnswerForm form_of(const Json &asked) {
    const std::string form = text_of(asked.value("form", Json("json")), "a form");
    if (form == "json") {
        return AnswerForm::json;
    }
    if (form == "html") {
        return AnswerForm::html;
    }
    if (form == "page") {
        return AnswerForm::page;
    }
    throw bad_call("the form " + in_quotes(form), "json, html or page");
}

} // namespace

VerbCall verb_call(const Json &asked) {
    if (!asked.is_object()) {
        throw bad_call("no object", "an object with verb, arguments and options");
    }
    const AllowedVerb &verb = allowed_verb(asked);
    VerbCall call{.arguments = {std::string(verb.name)}, .form = form_of(asked)};
    const Json options = asked.value("options", Json::object());
    const Json arguments = asked.value("arguments", Json::array());
    if (!options.is_object() || !arguments.is_array()) {
        throw bad_call("options or arguments of another kind", "an object and an array");
    }
    for (const auto &[name, value] : options.items()) {
        add_option(call.arguments, name, value);
    }
    call.arguments.emplace_back("--");
    for (const Json &argument : arguments) {
        const std::string text = text_of(argument, "an argument");
        if (verb.takes_files) {
            check_file_name(text, "the argument");
        } else {
            check_no_path(text, "the argument");
        }
        call.arguments.push_back(text);
    }
    if (arguments.empty()) {
        call.arguments.pop_back();
    }
    if (call.arguments.size() > kMostArguments) {
        throw bad_call(counted(call.arguments.size(), "argument"),
                       fmt::format("at most {}", kMostArguments));
    }
    return call;
}

} // namespace cospot::desk
