#include "options/command.h"

namespace cospot {

namespace {

/// An argument as a shell would need it.
std::string quoted_argument(const std::string &argument) {
    constexpr std::string_view plain =
        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-./=:,+@%";
    if (!argument.empty() && argument.find_first_not_of(plain) == std::string::npos) {
        return argument;
    }
    std::string text = "'";
    for (const char c : argument) {
        text += c == '\'' ? std::string("'\\''") : std::string(1, c);
    }
    return text + "'";
}

} // namespace

std::string command_text(std::string_view verb, const std::vector<std::string> &arguments) {
    std::string text(verb);
    for (const std::string &argument : arguments) {
        text += ' ' + quoted_argument(argument);
    }
    return text;
}

} // namespace cospot
