#include "core/picture/header.h"
#include "core/picture/svg_file.h"
#include <cstddef>
#include <cstdint>

namespace slab {

namespace {

using namespace std::string_view_literals;

Unexpected damaged(const char* kind) {
    return fail("picture-damaged", std::string("This ") + kind + " picture is damaged or cut short.", {},
                "Fetch or save the picture again.");
}

std::uint32_t number(std::string_view bytes, std::size_t at, std::size_t size, bool bigEndian = true) {
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < size; ++i)
        value = (value << 8U) | static_cast<unsigned char>(bytes[at + (bigEndian ? i : size - 1 - i)]);
    return value;
}

Expected<PictureHeader> png(std::string_view b) {
    if (b.size() < 33 || b.substr(12, 4) != "IHDR" || number(b, 8, 4) != 13) return damaged("PNG");
    PictureHeader h{"png", static_cast<double>(number(b, 16, 4)), static_cast<double>(number(b, 20, 4)), 1};
    if (h.width < 1 || h.height < 1 || h.width > 0x7fffffff || h.height > 0x7fffffff) return damaged("PNG");
    return h;
}

/// Orientation of an APP1 segment that holds Exif; 1 where it says nothing.
int exifOrientation(std::string_view segment) {
    constexpr std::size_t entry = 12;
    if (segment.substr(0, 6) != "Exif\0\0"sv) return 1;
    const std::string_view tiff = segment.substr(6);
    if (tiff.size() < 8) return 1;
    const bool big = tiff.substr(0, 2) == "MM";
    if (!big && tiff.substr(0, 2) != "II") return 1;
    const std::size_t first = number(tiff, 4, 4, big);
    if (first > tiff.size() || tiff.size() - first < 2) return 1;
    const std::size_t count = number(tiff, first, 2, big);
    for (std::size_t i = 0; i < count; ++i) {
        const std::size_t at = first + 2 + i * entry;
        if (at + entry > tiff.size()) break;
        if (number(tiff, at, 2, big) != 274) continue;
        const auto value = static_cast<int>(number(tiff, at + 8, 2, big));
        return value >= 1 && value <= 8 ? value : 1;
    }
    return 1;
}

/// Frame headers: SOF0 … SOF15 without DHT (C4), JPG (C8) and DAC (CC).
bool isFrame(unsigned marker) {
    return marker >= 0xc0 && marker <= 0xcf && marker != 0xc4 && marker != 0xc8 && marker != 0xcc;
}

Expected<PictureHeader> jpeg(std::string_view b) {
    PictureHeader h{"jpeg", 0, 0, 1};
    std::size_t at = 2;
    while (at + 4 <= b.size()) {
        if (number(b, at, 1) != 0xff) return damaged("JPEG");
        const unsigned marker = number(b, at + 1, 1);
        if (marker == 0xff) { // fill bytes
            ++at;
            continue;
        }
        if (marker == 0x01 || (marker >= 0xd0 && marker <= 0xd8)) { // markers that stand alone
            at += 2;
            continue;
        }
        const std::size_t length = number(b, at + 2, 2);
        if (length < 2 || at + 2 + length > b.size() || marker == 0xd9 || marker == 0xda) break;
        const std::string_view body = b.substr(at + 4, length - 2);
        if (marker == 0xe1 && h.orientation == 1) h.orientation = exifOrientation(body);
        if (isFrame(marker)) {
            if (body.size() < 5) break;
            h.height = number(body, 1, 2);
            h.width = number(body, 3, 2);
            if (h.orientation >= 5) std::swap(h.width, h.height);
            if (h.width < 1 || h.height < 1) break;
            return h;
        }
        at += 2 + length;
    }
    return damaged("JPEG");
}

} // namespace

Expected<PictureHeader> readPictureHeader(std::string_view bytes) {
    if (bytes.substr(0, 8) == "\x89PNG\r\n\x1a\n"sv) return png(bytes);
    if (bytes.substr(0, 3) == "\xff\xd8\xff"sv) return jpeg(bytes);
    if (looksLikeSvg(bytes)) {
        const auto size = readSvgSize(bytes);
        if (!size) return tl::make_unexpected(size.error());
        return PictureHeader{"svg", size->pixelWidth, size->pixelHeight, 1};
    }
    return fail("picture-format", "This is neither a PNG, nor a JPEG, nor an SVG picture.", {},
                "Save the picture as one of these.");
}

} // namespace slab
