// Photos of plates where plates are read. The photos are drawn (tests/src/plate_photo/), with the
// truth known.
#include "program_fixture.h"

#include "images/jpeg_writing.h"
#include "rendered_plate.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace cospot {
namespace {

/// An easy plate in white light, of which everything is seen.
class PhotoTest : public ProgramTest {
protected:
    PhotoTest()
        : plate_(rendering::rendered({.seed = kSeed,
                                      .difficulty = rendering::Difficulty::easy,
                                      .megapixels = 0.6,
                                      .light = plate_photo::Light::white})),
          photo_(file("plate.jpg", images::jpeg_of(plate_.image, 90))) {}

    /// What `photo` says of it, with start and front as a ruler reads them.
    std::vector<nlohmann::json> seen(std::vector<std::string> options = {}, int code = kDone) {
        std::vector<std::string> arguments{"--json", "photo", photo_};
        const auto given = lines();
        arguments.insert(arguments.end(), given.begin(), given.end());
        arguments.insert(arguments.end(), options.begin(), options.end());
        const Outcome outcome = cospot(arguments);
        EXPECT_EQ(outcome.code, code) << outcome.err;
        return outcome.lines();
    }

    [[nodiscard]] std::vector<std::string> lines() const {
        const rendering::Chromatogram &truth = plate_.truth;
        return {"--plate-mm", fmt::format("{}x{}", truth.size.width_mm, truth.size.height_mm),
                "--start-mm", fmt::format("{:.2f}", truth.start.line.middle_mm),
                "--front-mm", fmt::format("{:.2f}", truth.front.line.middle_mm)};
    }

    static constexpr std::uint64_t kSeed = 5;
    rendering::RenderedPlate plate_;
    std::string photo_;
};

TEST_F(PhotoTest, FindsTheSpotsOfADrawnPlate) {
    const auto objects = seen();
    std::size_t found = 0;
    for (const rendering::TrueSpot &spot : plate_.truth.spots) {
        found += static_cast<std::size_t>(
            std::any_of(objects.begin(), objects.end() - 1, [&](const nlohmann::json &one) {
                return one.at("lane") == std::to_string(spot.lane + 1) &&
                       std::abs(one.at("Rf").get<double>() - spot.rf) < 0.02;
            }));
    }
    EXPECT_EQ(found, plate_.truth.spots.size());
    EXPECT_EQ(objects.size(), plate_.truth.spots.size() + 1);
    EXPECT_EQ(objects.back().at("light"), "white light");
    EXPECT_FALSE(objects.back().at("are_corners_given"));
}

TEST_F(PhotoTest, TheTableItWritesIsReadLikeThePhoto) {
    (void)cospot({"init"});
    std::vector<std::string> photo{"photo",           photo_,       "--output",
                                   path("table.csv"), "--standard", "1=vanillin"};
    std::vector<std::string> identify{"--json", "identify", photo_, "--standard", "1=vanillin"};
    for (const std::string &option : lines()) {
        photo.push_back(option);
        identify.push_back(option);
    }
    ASSERT_EQ(cospot(photo).code, kDone);
    const auto from_photo = cospot(identify).lines();
    const auto from_table = cospot({"--json", "identify", path("table.csv")}).lines();
    ASSERT_FALSE(from_photo.empty());
    ASSERT_EQ(from_photo.size(), from_table.size());
    for (std::size_t i = 0; i < from_photo.size(); ++i) {
        const auto &a = from_photo[i].at("observations").at(0);
        const auto &b = from_table[i].at("observations").at(0);
        EXPECT_NEAR(a.at("value").get<double>(), b.at("value").get<double>(), 1e-9);
        EXPECT_NEAR(a.at("uncertainty").get<double>(), b.at("uncertainty").get<double>(), 1e-9);
    }
}

TEST_F(PhotoTest, TheUserIsObeyed) {
    const auto objects = seen({"--spots", "1:20,30", "--spots", "2:"});
    const auto count = [&](const std::string &lane) {
        return std::count_if(objects.begin(), objects.end() - 1,
                             [&](const auto &one) { return one.at("lane") == lane; });
    };
    EXPECT_EQ(count("1"), 2);
    EXPECT_EQ(count("2"), 0);
    EXPECT_EQ(seen({"--lanes", "10"}, kNeedsAttention).back().at("lanes_mm").size(), 1U);
}

TEST_F(PhotoTest, WhatIsNotSeenIsAskedForAndNeverInvented) {
    const std::string grey = file("grey.jpg", images::jpeg_of(images::black_image(300, 200), 80));
    const Outcome nothing = cospot({"photo", grey});
    EXPECT_EQ(nothing.code, kBadInput);
    EXPECT_NE(nothing.err.find("--corners"), std::string::npos) << nothing.err;
    const Outcome heic = cospot({"photo", file("a.jpg", std::string("\0\0\0\x18"
                                                                    "ftypheic\0\0\0\0mif1heic",
                                                                    24))});
    EXPECT_EQ(heic.code, kBadInput);
    EXPECT_NE(heic.err.find("JPEG"), std::string::npos) << heic.err;
    for (const std::vector<std::string> &options :
         std::vector<std::vector<std::string>>{{"--corners", "1,2 3,4"},
                                               {"--plate-mm", "50"},
                                               {"--light", "red"},
                                               {"--spots", "30"},
                                               {"--lane", "x=y"},
                                               {"--lane", "1=a", "--standard", "1=b"},
                                               {"--standard", "99=vanillin"},
                                               {"--start-mm", "500"},
                                               {"--stain", "ink"}}) {
        std::vector<std::string> arguments{"photo", photo_};
        arguments.insert(arguments.end(), options.begin(), options.end());
        const Outcome outcome = cospot(arguments);
        EXPECT_EQ(outcome.code, kBadInput) << options[1];
        EXPECT_NE(outcome.err.find("expected"), std::string::npos) << outcome.err;
    }
}

TEST_F(PhotoTest, ThePageShowsThePlateWithItsRings) {
    std::vector<std::string> arguments{"photo", photo_, "--report", path("photo.html")};
    for (const std::string &option : lines()) {
        arguments.push_back(option);
    }
    ASSERT_EQ(cospot(arguments).code, kDone);
    const std::string page = content("photo.html");
    EXPECT_NE(page.find("data:image/jpeg;base64,"), std::string::npos);
    EXPECT_NE(page.find("data-key=\"1.1\""), std::string::npos);
    EXPECT_LT(page.size(), 3U << 20U);
}

TEST_F(PhotoTest, FractionsAndAColumnArePlannedFromAPhoto) {
    std::vector<std::string> pool{"--json", "pool", photo_};
    std::vector<std::string> column{
        "--json", "column", photo_, "--sample-lane", "1", "--eluent", "hexane:ethyl acetate 4:1"};
    for (const std::string &option : lines()) {
        pool.push_back(option);
        column.push_back(option);
    }
    EXPECT_NE(cospot(pool).code, kBadInput) << cospot(pool).err;
    EXPECT_NE(cospot(column).code, kBadInput) << cospot(column).err;
    column[4] = "99";
    EXPECT_EQ(cospot(column).code, kBadInput);
}

TEST_F(PhotoTest, TwoPhotosOfOnePlateTellWhatStains) {
    const auto objects = seen({"--second-photo", photo_, "--stain", "potassium permanganate"});
    ASSERT_GT(objects.size(), 1U);
    for (auto one = objects.begin(); one != objects.end() - 1; ++one) {
        EXPECT_EQ(one->at("stained"), true);
    }
}

} // namespace
} // namespace cospot
