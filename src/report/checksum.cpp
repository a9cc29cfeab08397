#include "report/checksum.h"

#include "shared/error.h"

#include <openssl/evp.h>

#include <array>
#include <fstream>
#include <memory>
#include <stdexcept>
#include <vector>

namespace cospot {

namespace {

constexpr std::size_t kDigestBytes = 32;
using Digest = std::array<unsigned char, kDigestBytes>;

/// A digest that is fed piece by piece.
class Sha256 {
public:
    Sha256() : context_(EVP_MD_CTX_new(), &EVP_MD_CTX_free) {
        check(context_ != nullptr && EVP_DigestInit_ex(context_.get(), EVP_sha256(), nullptr) == 1);
    }
    void add(std::string_view piece) {
        check(EVP_DigestUpdate(context_.get(), piece.data(), piece.size()) == 1);
    }
    Digest finish() {
        Digest digest{};
        check(EVP_DigestFinal_ex(context_.get(), digest.data(), nullptr) == 1);
        return digest;
    }

private:
    static void check(bool is_done) {
        if (!is_done) {
            throw std::runtime_error("no SHA-256 in the cryptographic library");
        }
    }
    std::unique_ptr<EVP_MD_CTX, decltype(&EVP_MD_CTX_free)> context_;
};

Digest digest_of(std::string_view content) {
    Sha256 sum;
    sum.add(content);
    return sum.finish();
}

std::string hexadecimal(const Digest &digest) {
    constexpr std::string_view digits = "0123456789abcdef";
    std::string text;
    for (const unsigned char byte : digest) {
        text += digits[byte >> 4U];
        text += digits[byte & 0xFU];
    }
    return text;
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
    constexpr std::size_t length = 4 * ((kDigestBytes + 2) / 3);
    std::array<unsigned char, length + 1> text{}; // a final 0 is written too
    EVP_EncodeBlock(text.data(), digest.data(), static_cast<int>(digest.size()));
    return {text.begin(), text.begin() + length};
}

} // namespace cospot
