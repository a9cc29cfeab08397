#include "desk/page_files.h"

#include "desk/page_texts.h"
#include "report/page_looks.h"

#include <algorithm>
#include <array>
#include <string>

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
    // A page of a report holds the script itself; here it is a module.
    static const std::string report_module = std::string(page_script()) + "export { enliven };\n";
    static const std::array files{
        NamedFile{"desk.html", {kDeskPage, kHtml}},
        NamedFile{"desk.css", {kDeskStyle, kStyle}},
        NamedFile{"report.css", {page_style(), kStyle}},
        NamedFile{"report.js", {report_module, kScript}},
        NamedFile{"add_compound.js", {kAddCompoundScript, kScript}},
        NamedFile{"answer.js", {kAnswerScript, kScript}},
        NamedFile{"api.js", {kApiScript, kScript}},
        NamedFile{"candidates.js", {kCandidatesScript, kScript}},
        NamedFile{"column.js", {kColumnScript, kScript}},
        NamedFile{"compound_card.js", {kCompoundCardScript, kScript}},
        NamedFile{"contradictions.js", {kContradictionsScript, kScript}},
        NamedFile{"corrections.js", {kCorrectionsScript, kScript}},
        NamedFile{"desk.js", {kDeskScript, kScript}},
        NamedFile{"dom.js", {kDomScript, kScript}},
        NamedFile{"library.js", {kLibraryScript, kScript}},
        NamedFile{"library_checks.js", {kLibraryChecksScript, kScript}},
        NamedFile{"library_search.js", {kLibrarySearchScript, kScript}},
        NamedFile{"library_words.js", {kLibraryWordsScript, kScript}},
        NamedFile{"many.js", {kManyScript, kScript}},
        NamedFile{"photo.js", {kPhotoScript, kScript}},
        NamedFile{"plate.js", {kPlateScript, kScript}},
        NamedFile{"plate_drawing.js", {kPlateDrawingScript, kScript}},
        NamedFile{"plate_model.js", {kPlateModelScript, kScript}},
        NamedFile{"purity.js", {kPurityScript, kScript}},
        NamedFile{"run.js", {kRunScript, kScript}},
        NamedFile{"sheet.js", {kSheetScript, kScript}},
        NamedFile{"start.js", {kStartScript, kScript}},
        NamedFile{"structure_preview.js", {kStructurePreviewScript, kScript}},
        NamedFile{"system_card.js", {kSystemCardScript, kScript}},
        NamedFile{"system_line.js", {kSystemLineScript, kScript}},
        NamedFile{"systems.js", {kSystemsScript, kScript}},
        NamedFile{"table.js", {kTableScript, kScript}},
        NamedFile{"value_choice.js", {kValueChoiceScript, kScript}},
        NamedFile{"value_lines.js", {kValueLinesScript, kScript}},
    };
    const auto *const place = std::find_if(files.begin(), files.end(),
                                           [&](const NamedFile &one) { return one.name == name; });
    return place == files.end() ? std::nullopt : std::optional(place->file);
}

} // namespace cospot::desk
