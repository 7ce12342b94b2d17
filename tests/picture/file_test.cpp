// Fingerprints and headers of picture files.
#include "core/picture/header.h"
#include "core/picture/sha256.h"
#include "tests/geometry/seed.h"
#include <cstdio>
#include <fstream>
#include <gtest/gtest.h>

namespace slab {
namespace {

using namespace std::string_literals;

// NIST, SHA-256 examples to FIPS 180-4 (one block, two blocks) and FIPS 180-2 appendix B.3 (a million letters
// a); the empty message is in NIST's short message test file (SHA256ShortMsg.rsp, Len = 0).
TEST(Sha256, GivesTheExamplesOfTheStandard) {
    EXPECT_EQ(sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    EXPECT_EQ(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
              "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    EXPECT_EQ(sha256(std::string(1000000, 'a')),
              "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
    EXPECT_EQ(sha256(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST(Sha256, DoesNotDependOnHowTheBytesCome) {
    auto random = seeded();
    for (int round = 0; round < 200; ++round) {
        std::string bytes;
        for (int i = below(random, 300); i > 0; --i) bytes += static_cast<char>(below(random, 256));
        Sha256 sum;
        for (std::string_view rest = bytes; !rest.empty();) {
            const auto count = static_cast<std::size_t>(1 + below(random, 90));
            sum.add(rest.substr(0, count));
            rest.remove_prefix(std::min(count, rest.size()));
        }
        EXPECT_EQ(sum.hex(), sha256(bytes));
    }
}

TEST(Sha256, AgreesWithTheSystemsOwn) {
    auto random = seeded(2);
    const std::string path = testing::TempDir() + "slabside-sha.bin";
    for (std::size_t size : {55U, 56U, 63U, 64U, 65U, 119U, 120U, 100000U}) { // about the padding's corners
        std::string bytes(size, '\0');
        for (char& c : bytes) c = static_cast<char>(below(random, 256));
        std::ofstream(path, std::ios::binary) << bytes;
        std::FILE* pipe = popen(("sha256sum '" + path + "'").c_str(), "r");
        char text[65] = {};
        ASSERT_EQ(std::fread(text, 1, 64, pipe), 64u);
        pclose(pipe);
        EXPECT_EQ(sha256(bytes), text) << size << " bytes";
    }
    std::remove(path.c_str());
}

std::string big(std::uint32_t value, int bytes) {
    std::string text;
    for (int i = bytes - 1; i >= 0; --i) text += static_cast<char>((value >> (8 * i)) & 0xffU);
    return text;
}
std::string png(std::uint32_t width, std::uint32_t height) {
    return "\x89PNG\r\n\x1a\n" + big(13, 4) + "IHDR" + big(width, 4) + big(height, 4) + "\x08\x02\0\0\0"s +
           big(0, 4);
}
/// A JPEG's markers up to its frame header: JFIF, Exif with an orientation (0 = none), tables, and the frame.
std::string jpeg(std::uint32_t width, std::uint32_t height, int orientation, char frame = '\xc0',
                 bool intel = false) {
    std::string text = "\xff\xd8\xff\xe0"s + big(16, 2) + "JFIF\0\1\1\0\0\1\0\1\0\0"s;
    if (orientation > 0) {
        std::string entry = "\1\x12\0\3\0\0\0\1\0"s + static_cast<char>(orientation) + "\0\0"s;
        std::string tiff = "MM\0*\0\0\0\x08\0\1"s + entry + "\0\0\0\0"s;
        if (intel) {
            entry = "\x12\1\3\0\1\0\0\0"s + static_cast<char>(orientation) + "\0\0\0"s;
            tiff = "II*\0\x08\0\0\0\1\0"s + entry + "\0\0\0\0"s;
        }
        const std::string body = "Exif\0\0"s + tiff;
        text += "\xff\xe1" + big(static_cast<std::uint32_t>(body.size() + 2), 2) + body;
    }
    text += "\xff\xdb" + big(67, 2) + std::string(65, '\1') + "\xff\xff"; // a table, and a fill byte
    text += frame + big(17, 2) + "\x08" + big(height, 2) + big(width, 2) + std::string(10, '\1');
    return text;
}

TEST(Header, TellsFormatAndSize) {
    const auto p = readPictureHeader(png(640, 480));
    ASSERT_TRUE(p) << p.error().message;
    EXPECT_EQ(*p, (PictureHeader{"png", 640, 480, 1}));
    for (char frame : {'\xc0', '\xc1', '\xc2', '\xcf'}) {
        const auto j = readPictureHeader(jpeg(4032, 3024, 0, frame));
        ASSERT_TRUE(j) << j.error().message;
        EXPECT_EQ(*j, (PictureHeader{"jpeg", 4032, 3024, 1}));
    }
    const auto s = readPictureHeader("<svg xmlns='http://www.w3.org/2000/svg' width='254mm' height='5in'/>");
    ASSERT_TRUE(s) << s.error().message;
    EXPECT_EQ(s->format, "svg");
    EXPECT_DOUBLE_EQ(s->width, 960); // 10 in of 96 px
    EXPECT_DOUBLE_EQ(s->height, 480);
}

TEST(Header, TurnsAPhotoAsItIsShown) {
    for (bool intel : {false, true})
        for (int o = 1; o <= 8; ++o) {
            const auto j = readPictureHeader(jpeg(4032, 3024, o, '\xc0', intel));
            ASSERT_TRUE(j) << j.error().message;
            EXPECT_EQ(j->orientation, o);
            EXPECT_EQ(j->width, o < 5 ? 4032 : 3024) << o; // 5 to 8 are turned by a quarter
            EXPECT_EQ(j->height, o < 5 ? 3024 : 4032);
        }
    EXPECT_EQ(readPictureHeader(jpeg(10, 20, 9))->orientation, 1);
}

TEST(Header, RefusesOtherFilesAndDamagedOnes) {
    EXPECT_EQ(readPictureHeader("GIF89a..............").error().code, "picture-format");
    EXPECT_EQ(readPictureHeader("").error().code, "picture-format");
    EXPECT_EQ(readPictureHeader("<svg width='3' ").error().code, "picture-damaged");
    EXPECT_EQ(readPictureHeader(png(0, 480)).error().code, "picture-damaged");
    EXPECT_EQ(readPictureHeader(jpeg(0, 480, 0)).error().code, "picture-damaged");
    EXPECT_FALSE(readPictureHeader("GIF89a").error().remedy.empty());
    // Cut anywhere, it is refused and never read beyond its end.
    for (const std::string& whole : {png(640, 480).substr(0, 33), jpeg(4032, 3024, 6)})
        for (std::size_t n = 3; n < whole.size() - 11; ++n) {
            const auto cut = readPictureHeader(std::string_view(whole).substr(0, n));
            EXPECT_FALSE(cut.has_value()) << n;
        }
    auto random = seeded(3);
    for (int round = 0; round < 20000 / slowdown; ++round) { // any bytes at all: an answer, never a crash
        std::string text = round % 2 == 0 ? png(640, 480) : jpeg(400, 300, 6, '\xc0', round % 4 == 1);
        for (int i = 0; i < 4; ++i)
            text[static_cast<std::size_t>(below(random, static_cast<int>(text.size())))] =
                static_cast<char>(below(random, 256));
        const auto header = readPictureHeader(text);
        if (header) {
            EXPECT_GT(header->width, 0);
            EXPECT_GT(header->height, 0);
        }
    }
}

} // namespace
} // namespace slab
