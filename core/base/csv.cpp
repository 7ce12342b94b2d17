#include "core/base/csv.h"
#include <array>
#include <charconv>

namespace slab {

std::string csvField(const std::string& text) {
    if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"') out += '"';
        out += c;
    }
    return out + '"';
}

std::string csvNumber(double value, int decimals) {
    std::array<char, 64> digits{};
    const auto [end, error] = std::to_chars(digits.data(), digits.data() + digits.size(), value,
                                            std::chars_format::fixed, decimals);
    return error == std::errc() ? std::string(digits.data(), end) : std::string();
}

} // namespace slab
