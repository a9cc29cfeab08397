#include "document/structure_gallery.h"

#include "document/html.h"
#include "structures/structure_service.h"

#include <fmt/format.h>

#include <set>

namespace cospot {

namespace {

constexpr int kStructureGalleryWidth = 210;
constexpr int kStructureGalleryHeight = 150;

std::string card(const ShownCompound &compound) {
    return fmt::format(
        "<li><figure class=\"structure\" aria-label=\"structure of {}\">{}<figcaption>{}{}"
        "</figcaption></figure></li>\n",
        html::escaped(compound.name),
        structure_service().structure_svg(compound.smiles, kStructureGalleryWidth,
                                          kStructureGalleryHeight),
        html::escaped(compound.name),
        compound.note.empty() ? "" : "<br><small>" + html::escaped(compound.note) + "</small>");
}

} // namespace

std::string structure_gallery(const std::vector<ShownCompound> &compounds) {
    std::set<std::string> shown;
    std::string cards;
    for (const ShownCompound &compound : compounds) {
        if (!compound.smiles.empty() && shown.insert(compound.smiles).second) {
            cards += card(compound);
        }
    }
    return cards.empty() ? cards : "<ul class=\"gallery\">\n" + cards + "</ul>\n";
}

} // namespace cospot
