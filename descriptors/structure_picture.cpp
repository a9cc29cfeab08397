#include "descriptors/structure_picture.h"

#include "descriptors/drawing.h"
#include "descriptors/molecule.h"
#include "descriptors/origin.h"

#include <GraphMol/GraphMol.h>
#include <GraphMol/MolDraw2D/MolDraw2DSVG.h>
#include <GraphMol/MolDraw2D/MolDraw2DUtils.h>
#include <fmt/format.h>

#include <regex>

namespace cospot::descriptors {

namespace {

constexpr int kLargest = 2000;

/// RDKit writes a document with its own size, comments and colours; a page wants the paths only.
std::string paths_of(const std::string &document) {
    const std::size_t header = document.find("<!-- END OF HEADER -->");
    const std::size_t begin = header == std::string::npos
                                  ? document.find('>', document.find("<svg")) + 1
                                  : document.find('\n', header) + 1;
    return document.substr(begin, document.rfind("</svg>") - begin);
}

void replace_all(std::string &text, std::string_view from, std::string_view to) {
    for (std::size_t at = text.find(from); at != std::string::npos;
         at = text.find(from, at + to.size())) {
        text.replace(at, from.size(), to);
    }
}

/// The properties of each style='NAME:VALUE;...' as attributes, which also show in pages that allow
/// no styles but their own.
std::string with_attributes(const std::string &paths) {
    static const std::regex style("style='([^']*)'");
    static const std::regex property("([a-z-]+):([^;]+);?");
    std::string text;
    auto rest = paths.cbegin();
    for (std::sregex_iterator one(paths.begin(), paths.end(), style), end; one != end; ++one) {
        text.append(rest, paths.cbegin() + one->position());
        const std::string properties = (*one)[1];
        text += std::regex_replace(properties, property, "$1='$2' ");
        rest = paths.cbegin() + one->position() + one->length();
    }
    return text.append(rest, paths.cend());
}

std::string drawn(RDKit::RWMol &molecule, int width, int height) {
    draw(molecule);
    RDKit::MolDraw2DSVG drawer(width, height);
    RDKit::MolDrawOptions &options = drawer.drawOptions();
    options.clearBackground = false;
    options.bondLineWidth = 1;
    options.fixedBondLength = 26;
    options.padding = 0.06;
    RDKit::assignBWPalette(options.atomColourPalette);
    RDKit::MolDraw2DUtils::prepareAndDrawMolecule(drawer, molecule);
    drawer.finishDrawing();
    std::string paths = paths_of(drawer.getDrawingText());
    replace_all(paths, "#000000", "currentColor");
    return with_attributes(paths);
}

} // namespace

std::string structure_svg(std::string_view smiles, int width, int height) {
    if (width < 1 || height < 1 || width > kLargest || height > kLargest) {
        throw InputError({}, fmt::format("a picture of {} by {} pixels", width, height),
                         fmt::format("1 to {} each way", kLargest));
    }
    return guarded(smiles_origin(smiles), [&] {
        const auto molecule = molecule_of_smiles(smiles);
        return fmt::format(R"(<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {} {}">)", width,
                           height) +
               drawn(*molecule, width, height) + "</svg>";
    });
}

} // namespace cospot::descriptors
