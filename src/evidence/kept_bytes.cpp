#include "evidence/kept_bytes.h"

#include <sodium.h>

namespace cospot {

Fingerprint fingerprint_of(std::string_view bytes) {
    Fingerprint fingerprint{};
    crypto_generichash(fingerprint.data(), fingerprint.size(),
                       reinterpret_cast<const unsigned char *>(bytes.data()), // NOLINT: bytes of it
                       bytes.size(), nullptr, 0);
    return fingerprint;
}

namespace {

Fingerprint seal_of(std::string_view origin, std::string_view content) {
    std::string both;
    put(both, kOrderOfBytes);
    put(both, fingerprint_of(origin));
    both += content;
    return fingerprint_of(both);
}

} // namespace

std::string sealed(std::string_view origin, std::string_view content) {
    std::string bytes;
    put(bytes, seal_of(origin, content));
    bytes += content;
    return bytes;
}

std::optional<std::string_view> unsealed(std::string_view origin, std::string_view bytes) {
    if (bytes.size() < sizeof(Fingerprint)) {
        return std::nullopt;
    }
    const auto seal = take<Fingerprint>(bytes);
    return seal == seal_of(origin, bytes) ? std::optional(bytes) : std::nullopt;
}

} // namespace cospot
