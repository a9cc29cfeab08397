#include "desk/page_files.h"

#include "desk/page_texts.h"
#include "report/page_looks.h"

#include <algorithm>
#include <string>

namespace cospot::desk {

namespace {

constexpr std::string_view kScript = "text/javascript; charset=utf-8";
constexpr std::string_view kStyle = "text/css; charset=utf-8";

std::string_view type_of_page_file(std::string_view name) {
    if (name.ends_with(".js")) {
        return kScript;
    }
    return name.ends_with(".css") ? kStyle : "text/html; charset=utf-8";
}

} // namespace

std::optional<PageFile> page_file(std::string_view name) {
    if (name == "report.css") {
        return PageFile{page_style(), kStyle};
    }
    if (name == "report.js") {
        // A page of a report holds the script itself; here it is a module.
        static const std::string report_module =
            std::string(page_script()) + "export { enliven };\n";
        return PageFile{report_module, kScript};
    }
    const auto *const place = std::find_if(kPageTexts.begin(), kPageTexts.end(),
                                           [&](const auto &one) { return one.first == name; });
    return place == kPageTexts.end()
               ? std::nullopt
               : std::optional(PageFile{place->second, type_of_page_file(name)});
}

} // namespace cospot::desk
