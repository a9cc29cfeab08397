// Signatures of files, written out from their specifications (from memory).
#include "images/picture_kind.h"

#include "picture_checks.h"

#include <string>
#include <utility>
#include <vector>

namespace cospot::images {
namespace {

using namespace std::string_literals;

const std::vector<std::pair<PictureKind, std::string>> kBeginnings{
    {PictureKind::heif, "\0\0\0\x18"
                        "ftypheic\0\0\0\0mif1heic"s},
    {PictureKind::heif, "\0\0\0\x18"
                        "ftypmif1\0\0\0\0mif1heic"s},
    {PictureKind::avif, "\0\0\0\x1C"
                        "ftypmif1\0\0\0\0mif1avifmiaf"s},
    {PictureKind::webp, "RIFF\x24\0\0\0WEBPVP8 "s},
    {PictureKind::tiff, "II*\0\x08\0\0\0"s},
    {PictureKind::tiff, "MM\0*\0\0\0\x08"s},
    {PictureKind::tiff, "MM\0+\0\x08\0\0"s},
    {PictureKind::camera_raw, "\0\0\0\x18"
                              "ftypcrx \0\0\0\x01"
                              "crx isom"s},
    {PictureKind::camera_raw, "IIU\0\x18\0\0\0\x88\xE7"s},
    {PictureKind::gif, "GIF89a\x01\0\x01\0"s},
    {PictureKind::bmp, "BM\x3A\0\0\0\0\0\0\0\x36\0\0\0\x28\0\0\0\x01\0"s},
};

TEST(PictureKind, IsToldFromTheContent) {
    EXPECT_EQ(picture_kind("\xFF\xD8\xFF\xE0"), PictureKind::jpeg);
    EXPECT_EQ(picture_kind("\x89PNG\r\n\x1A\n"), PictureKind::png);
    for (const auto &[kind, bytes] : kBeginnings) {
        EXPECT_EQ(picture_kind(bytes), kind) << bytes;
        EXPECT_TRUE(is_picture(bytes));
    }
}

TEST(PictureKind, WhatIsNotReadIsRefusedByName) {
    const std::vector<std::string> names{"HEIF", "HEIF", "AVIF", "WebP",  "TIFF", "TIFF",
                                         "TIFF", "raw",  "raw",  "a GIF", "BMP"};
    for (std::size_t i = 0; i < names.size(); ++i) {
        EXPECT_NE(refusal(kBeginnings[i].second).find(names[i]), std::string::npos) << names[i];
    }
    EXPECT_EQ(refusal("lane,spot,Rf\n1,1,0.35\n"), "a file that is no picture");
    EXPECT_EQ(refusal(""), "an empty file");
    EXPECT_EQ(refusal(std::string((64U << 20U) + 1, 'a')), "a file of 67108865 bytes");
}

TEST(PictureKind, TablesTracesAndDocumentsAreNoPictures) {
    for (const std::string &bytes : std::vector<std::string>{
             "", "B", "BM", "BM,Rf\n1,0.35\n2,0.4\n,,,,,,", "II,Rf\n1,0.2\n", "MM\tRf\n",
             "GIF,Rf\n", "RIFF,Rf\n1,2\n", "%PDF-1.7\n", "CDF\x01\0\0\0\0"s, "##TITLE=plate\n",
             "<?xml version", "\x1F\x8B\x08\0"s, "\x89HDF\r\n\x1A\n", "PK\x03\x04"s,
             "IIRO,Rf,lane\n0.3,1\n",
             "\0\0\0\x14"
             "ftypqt  \0\0\0\0qt  "s,
             "\0\0\0\x18"
             "ftyp"s,
             "\xEF\xBB\xBFlane,Rf\n"}) {
        EXPECT_FALSE(is_picture(bytes)) << bytes;
    }
}

} // namespace
} // namespace cospot::images
