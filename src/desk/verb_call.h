#pragma once

#include "document/json.h"

#include <string>
#include <vector>

namespace cospot::desk {

/// How the answer of a verb is wanted.
enum class AnswerForm { json, html, page };

/// A verb that a page asks for.
struct VerbCall {
    std::vector<std::string> arguments; ///< of the program, from the verb on
    AnswerForm form = AnswerForm::json;
};

/// The call that a page asks for: {"verb", "arguments": [text or file...], "options": {name: true,
/// text or [text...]}, "form": "json", "html" or "page"}. Files are those of the sheet: no value
/// reaches another place of the computer. Throws InputError for a verb or an option that a page has
/// no use for, and for a file name with a path.
[[nodiscard]] VerbCall verb_call(const Json &asked);

} // namespace cospot::desk
