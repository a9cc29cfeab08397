#include "report/checksum.h"

#include "shared/error.h"

#include "../../library/temporary_library.h"

#include <gtest/gtest.h>

#include <fstream>

namespace cospot {
namespace {

// fips180, appendix B.1 and B.2, and the empty message, from memory; recomputed with sha256sum of
// GNU coreutils.
constexpr const char *kAbc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
constexpr const char *kTwoBlocks =
    "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1";
constexpr const char *kEmpty = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855";

TEST(Checksum, AgreesWithPublishedVectors) {
    EXPECT_EQ(sha256_hex("abc"), kAbc);
    EXPECT_EQ(sha256_hex("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"), kTwoBlocks);
    EXPECT_EQ(sha256_hex(""), kEmpty);
}

// fips180, appendix B.3, as above: one million times "a"; more than one block of reading.
TEST(Checksum, OfAFileIsThatOfItsContent) {
    const library::TemporaryFolder folder;
    std::ofstream(folder / "a.txt", std::ios::binary) << std::string(1000000, 'a');
    EXPECT_EQ(sha256_of_file(folder / "a.txt"),
              "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
    EXPECT_THROW((void)sha256_of_file(folder / "absent.txt"), InputError);
}

TEST(Checksum, InBase64SaysTheSame) {
    EXPECT_EQ(sha256_base64("abc"), "ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=");
}

} // namespace
} // namespace cospot
