#include "desk/page_files.h"

#include "desk/page_texts.h"
#include "report/page_looks.h"

#include <algorithm>
#include <array>

namespace cospot::desk {

namespace {

struct NamedFile {
    std::string_view name;
    PageFile file;
};

constexpr std::string_view kHtml = "text/html; charset=utf-8";
constexpr std::string_view kScript = "text/javascript; charset=utf-8";
constexpr std::string_view kStyle = "text/css; charset=utf-8";

} // namespace

std::optional<PageFile> page_file(std::string_view name) {
    static const std::array files{
        NamedFile{"desk.html", {kDeskPage, kHtml}},
        NamedFile{"desk.css", {kDeskStyle, kStyle}},
        NamedFile{"report.css", {page_style(), kStyle}},
        NamedFile{"report.js", {page_script(), kScript}},
        NamedFile{"api.js", {kApiScript, kScript}},
        NamedFile{"dom.js", {kDomScript, kScript}},
        NamedFile{"sheet.js", {kSheetScript, kScript}},
        NamedFile{"answer.js", {kAnswerScript, kScript}},
        NamedFile{"start.js", {kStartScript, kScript}},
        NamedFile{"systems.js", {kSystemsScript, kScript}},
        NamedFile{"pasted.js", {kPastedScript, kScript}},
        NamedFile{"table.js", {kTableScript, kScript}},
        NamedFile{"plate.js", {kPlateScript, kScript}},
        NamedFile{"plate_drawing.js", {kPlateDrawingScript, kScript}},
        NamedFile{"plate_model.js", {kPlateModelScript, kScript}},
        NamedFile{"run.js", {kRunScript, kScript}},
        NamedFile{"many.js", {kManyScript, kScript}},
        NamedFile{"purity.js", {kPurityScript, kScript}},
        NamedFile{"library.js", {kLibraryScript, kScript}},
        NamedFile{"column.js", {kColumnScript, kScript}},
        NamedFile{"desk.js", {kDeskScript, kScript}},
    };
    const auto *const place = std::find_if(files.begin(), files.end(),
                                           [&](const NamedFile &one) { return one.name == name; });
    return place == files.end() ? std::nullopt : std::optional(place->file);
}

} // namespace cospot::desk
