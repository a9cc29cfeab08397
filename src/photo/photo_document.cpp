#include "photo/photo_document.h"

#include "document/caution.h"
#include "document/cells.h"
#include "drawing/plate_photo_picture.h"
#include "images/jpeg_writing.h"
#include "images/resizing.h"
#include "integration/photographed_rows.h"
#include "photo/photo_words.h"
#include "plate_photo/plate_lines.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <utility>

namespace cospot {

namespace {

constexpr int kLongestSide = 1400; ///< of the pictures that a page keeps, in pixels
constexpr int kQuality = 80;       ///< of their JPEG

std::string label_of(const PhotoSettings &settings, std::size_t lane) {
    const NamedLane *named = name_of_lane(settings, lane);
    return named == nullptr ? "" : named->name + (named->is_standard ? " (standard)" : "");
}

/// "7 spots in 3 lanes of plate.jpg (254 nm); start 12.0 mm and front 83.1 mm above the lower
/// edge."
std::string summary_of(const PhotographedPlate &plate) {
    const plate_photo::FoundPlate &found = plate.first.found;
    std::string lights = words_for(found.light);
    if (plate.second) {
        lights += " and " + words_for(plate.second->found.light);
    }
    std::string text = fmt::format("{} in {} of {} ({})", counted(plate.spots.size(), "spot"),
                                   counted(found.lanes.size(), "lane"), plate.first.file, lights);
    const auto place = [](const plate_photo::PlateLine &line) {
        return fmt::format("{:.1f} mm ({})", line.middle_mm, line.given ? "given" : "seen");
    };
    text += found.start ? "; start " + place(*found.start) : "; no start line";
    text += found.front ? ", front " + place(*found.front) : ", no front";
    return text + (found.start || found.front ? ", above the lower edge." : ".");
}

std::string yes_or_no(const std::optional<bool> &is) {
    return !is ? "" : *is ? "yes" : "no";
}

Table spot_table(const PhotographedPlate &plate, const PhotoSettings &settings) {
    Table table{.label = "Spots",
                .columns = {{"Spot", true},
                            {"On the lane"},
                            {"Rf", true},
                            {"± u", true},
                            {"mm", true},
                            {"Extent, mm", true},
                            {"Intensity, %", true},
                            {"Remarks"}},
                .is_sortable = true};
    for (const PhotographedSpot &spot : plate.spots) {
        std::vector<std::string> remarks = flags_of(spot);
        if (spot.uv254) {
            remarks.emplace_back(*spot.uv254 ? "seen at 254 nm" : "not seen at 254 nm");
        }
        if (spot.stained) {
            remarks.emplace_back(*spot.stained ? "stained" : "not stained");
        }
        Row row{{Cell{key_of(spot)}, Cell{label_of(settings, spot.lane)},
                 spot.rf ? number_cell(spot.rf->value, 3) : Cell{},
                 spot.rf ? number_cell(spot.rf->standard_uncertainty, 3) : Cell{},
                 number_cell(plate.first.found.start ? spot.distance_mm : spot.found.y_mm, 1),
                 Cell{fmt::format("{:.1f} to {:.1f}", spot.found.low_mm, spot.found.high_mm),
                      spot.found.low_mm},
                 number_cell(spot.found.intensity, 0),
                 Cell{fmt::format("{}", fmt::join(remarks, ", "))}}};
        row.mark = key_of(spot);
        table.rows.push_back(std::move(row));
    }
    return table;
}

std::vector<double> heights_of(const std::optional<plate_photo::PlateLine> &line, double width_mm) {
    constexpr int steps = 16;
    std::vector<double> heights;
    for (int i = 0; line && i <= steps; ++i) {
        heights.push_back(plate_photo::height_at(*line, width_mm * i / steps, width_mm));
    }
    return heights;
}

Figure flat_figure(const PhotographedPlate &plate, const PhotoOfPlate &photo) {
    const plate_photo::PlateSize size = photo.flat.size;
    PlateOverlay overlay{size.width_mm, size.height_mm,
                         heights_of(photo.found.start, size.width_mm),
                         heights_of(photo.found.front, size.width_mm)};
    for (const plate_photo::FoundLane &lane : photo.found.lanes) {
        overlay.lanes_mm.push_back(lane.x_mm);
    }
    for (const PhotographedSpot &spot : plate.spots) {
        const std::string rf = spot.rf ? fmt::format(", Rf {:.2f}", spot.rf->value) : std::string();
        overlay.spots.push_back({key_of(spot),
                                 fmt::format("lane {}, spot {}{}", spot.lane, spot.spot, rf),
                                 spot.found.x_mm, spot.found.y_mm, spot.found.low_mm,
                                 spot.found.high_mm, spot.found.width_mm});
    }
    const std::string jpeg =
        images::jpeg_of(images::reduced(photo.flat.image, kLongestSide), kQuality);
    return {plate_photo_picture(jpeg, overlay, "Plate in " + photo.file),
            fmt::format("The plate in {}, straightened ({}). Rings: spots, by lane and number; the "
                        "bar in a ring is the height that counts.",
                        photo.file, words_for(photo.found.light))};
}

Figure whole_figure(const PhotoOfPlate &photo) {
    const images::Image &image = photo.picture.image;
    std::vector<PhotoPlace> corners;
    for (const plate_photo::Place &corner : photo.outline.corners) {
        corners.push_back({corner.x, corner.y});
    }
    return {outlined_photo(images::jpeg_of(images::reduced(image, kLongestSide), kQuality),
                           image.width, image.height, corners, "Photo " + photo.file),
            fmt::format("{} as it was taken, with the plate's outline ({}). Its SHA-256 stands "
                        "at the end of this page.",
                        photo.file,
                        photo.are_corners_given ? "corners as given" : "corners as found")};
}

/// The table that `identify` reads.
DataTable data_of(const PhotographedPlate &plate, const PhotoSettings &settings) {
    DataTable data{{"lane", "label", "spot", "distance_mm", "front_mm", "uncertainty", "role",
                    "uv254", "stain", "stained", "intensity", "remarks"}};
    const std::vector<PlateSpot> rows = plate_rows(plate, settings);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const PlateSpot &row = rows[i];
        const StainTest stain = row.further.stains.empty() ? StainTest{} : row.further.stains[0];
        data.rows.push_back({row.lane, row.label, row.spot, row.distance_mm, datum_of(row.front_mm),
                             datum_of(row.uncertainty),
                             std::string(row.role == RowRole::standard ? "standard" : "sample"),
                             yes_or_no(row.further.uv254), stain.stain,
                             stain.stain.empty() ? "" : yes_or_no(stain.stained),
                             plate.spots[i].found.intensity,
                             fmt::format("{}", fmt::join(flags_of(plate.spots[i]), ", "))});
    }
    return data;
}

std::vector<std::string> what_it_means() {
    return {"± u: standard uncertainty of R_F, from the size of the spot and its tail, the noise, "
            "start, front and the geometry of the photo; identify uses it.",
            "Intensities are relative, of one lane in one photo: no densitometry, and no amounts.",
            "Nothing is taken for sure from a picture: look whether the rings sit on the spots. "
            "--corners, --start-mm, --front-mm, --lanes and --spots correct what does not.",
            "Caution: ultraviolet lamps harm eyes and skin: goggles, gloves, or a closed cabinet. "
            "The rules of your laboratory come first."};
}

} // namespace

Document photo_document(const PhotographedPlate &plate, const PhotoSettings &settings) {
    Document document{.title = "Plate in " + plate.first.file};
    if (plate.first.found.start) { // else no distance has a beginning
        document.data = data_of(plate, settings);
    }
    document.blocks.emplace_back(Paragraph{summary_of(plate), Paragraph::Role::verdict});
    document.blocks.emplace_back(flat_figure(plate, plate.first));
    if (plate.second) {
        document.blocks.emplace_back(flat_figure(plate, *plate.second));
    }
    document.blocks.emplace_back(Section{"Spot by spot", "", {}, {spot_table(plate, settings)}});
    document.blocks.emplace_back(Section{"The photo", "", {}, {whole_figure(plate.first)}});
    if (plate.second) {
        document.blocks.emplace_back(whole_figure(*plate.second));
    }
    document.notes = what_it_means();
    return document;
}

} // namespace cospot
