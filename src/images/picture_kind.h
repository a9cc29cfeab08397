#pragma once

#include "shared/error.h"

#include <optional>
#include <string>
#include <string_view>

namespace cospot::images {

/// Kinds of picture files that are told apart. JPEG and PNG are read, the others are refused by
/// name.
enum class PictureKind {
    jpeg,
    png,
    heif, ///< as phones write it, called HEIC as well
    avif,
    webp,
    tiff,
    camera_raw, ///< what does not begin as TIFF does; many raw files do
    gif,
    bmp,
};

inline constexpr std::size_t kFirstPictureBytes = 64;

/// The kind of a picture file, from its content alone; kFirstPictureBytes are enough. Empty for all
/// else, documents and films among them. Signatures from memory: ITU-T T.81 annex B (JPEG), W3C PNG
/// section 5.2, ISO/IEC 14496-12 and 23008-12 (HEIF, AVIF), RFC 9649 (WebP), TIFF 6.0 section 2,
/// GIF89a section 17; BMP and raw files as in common use.
[[nodiscard]] std::optional<PictureKind> picture_kind(std::string_view first_bytes);

/// Whether a file is a picture, also of a kind that is refused. Never for tables and traces.
[[nodiscard]] bool is_picture(std::string_view first_bytes);

/// What to tell the user of a file of any kind but JPEG and PNG, or of none.
[[nodiscard]] InputError unread_picture(std::optional<PictureKind> kind, const std::string &file);

} // namespace cospot::images
