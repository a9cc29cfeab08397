#include "report/checksum.h"

#include "shared/error.h"

#include <sodium.h>

#include <array>
#include <fstream>
#include <vector>

namespace cospot {

namespace {

using Digest = std::array<unsigned char, crypto_hash_sha256_BYTES>;

/// A digest that is fed piece by piece.
class Sha256 {
public:
    Sha256() { crypto_hash_sha256_init(&state_); }
    void add(std::string_view piece) {
        // NOLINTNEXTLINE(cppcoreguidelines-pro-type-reinterpret-cast): the bytes of the text
        const auto *bytes = reinterpret_cast<const unsigned char *>(piece.data());
        crypto_hash_sha256_update(&state_, bytes, piece.size());
    }
    Digest finish() {
        Digest digest{};
        crypto_hash_sha256_final(&state_, digest.data());
        return digest;
    }

private:
    crypto_hash_sha256_state state_{};
};

Digest digest_of(std::string_view content) {
    Sha256 sum;
    sum.add(content);
    return sum.finish();
}

std::string hexadecimal(const Digest &digest) {
    std::array<char, 2 * crypto_hash_sha256_BYTES + 1> text{};
    return sodium_bin2hex(text.data(), text.size(), digest.data(), digest.size());
}

} // namespace

std::string sha256_hex(std::string_view content) {
    return hexadecimal(digest_of(content));
}

std::string sha256_of_file(const std::filesystem::path &file) {
    std::ifstream in(file, std::ios::binary);
    Sha256 sum;
    std::vector<char> block(1U << 16U);
    while (in.read(block.data(), static_cast<std::streamsize>(block.size())) || in.gcount() > 0) {
        sum.add({block.data(), static_cast<std::size_t>(in.gcount())});
    }
    if (!in.eof()) {
        throw InputError({file.string(), 0, ""}, "no file that can be read",
                         "an existing, readable file");
    }
    return hexadecimal(sum.finish());
}

std::string sha256_base64(std::string_view content) {
    const Digest digest = digest_of(content);
    constexpr int variant = sodium_base64_VARIANT_ORIGINAL;
    std::array<char, sodium_base64_ENCODED_LEN(crypto_hash_sha256_BYTES, variant)> text{};
    return sodium_bin2base64(text.data(), text.size(), digest.data(), digest.size(), variant);
}

} // namespace cospot
