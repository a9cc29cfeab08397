#pragma once

#include <filesystem>
#include <functional>
#include <iosfwd>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// Exit codes of the program.
inline constexpr int kDone = 0;
inline constexpr int kNeedsAttention = 1;
inline constexpr int kBadInput = 2;
inline constexpr int kProgramFault = 3;

/// What a command is called with.
struct Invocation {
    std::filesystem::path library;      ///< file of the library, which need not exist yet
    bool json = false;                  ///< JSON Lines instead of text
    bool html = false;                  ///< a part of a page instead of text
    std::vector<std::string> arguments; ///< behind the verb
    std::istream &in;
    std::ostream &out;                              ///< results
    std::ostream &err;                              ///< messages
    bool &has_changed;                              ///< set where the library was changed
    std::vector<std::function<void()>> &afterwards; ///< what is done once the verb has succeeded
    std::string_view verb{};                        ///< that it is called by
};

/// The call as one would type it again: verb and arguments, without the library.
[[nodiscard]] std::string command_text(std::string_view verb,
                                       const std::vector<std::string> &arguments);

/// A verb of the command line. `run` returns the exit code and throws InputError for bad input.
struct Command {
    const char *verb;
    const char *summary;
    int (*run)(const Invocation &invocation);
};

/// All verbs, in the order in which the help lists them.
[[nodiscard]] const std::vector<Command> &command_table();

int run_advise(const Invocation &invocation);
int run_init(const Invocation &invocation);
int run_learn(const Invocation &invocation);
int run_history(const Invocation &invocation);
int run_identify(const Invocation &invocation);
int run_export(const Invocation &invocation);
int run_list(const Invocation &invocation);
int run_column(const Invocation &invocation);
int run_peaks(const Invocation &invocation);
int run_photo(const Invocation &invocation);
int run_pool(const Invocation &invocation);
int run_predict(const Invocation &invocation);
int run_prove(const Invocation &invocation);
int run_purity(const Invocation &invocation);
int run_resolve(const Invocation &invocation);
int run_desk(const Invocation &invocation);
int run_distil(const Invocation &invocation);
int run_show(const Invocation &invocation);
int run_audit(const Invocation &invocation);
int run_rename(const Invocation &invocation);
int run_retire(const Invocation &invocation);
int run_merge(const Invocation &invocation);
int run_backup(const Invocation &invocation);

} // namespace cospot
