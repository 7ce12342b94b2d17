#pragma once
#include <array>
#include <cstdint>
#include <string>
#include <string_view>

namespace slab {

/// Fingerprint of a file's bytes: SHA-256.
/// @source  NIST FIPS 180-4, sections 4.1.2, 4.2.2, 5.3.3 and 6.2
class Sha256 {
public:
    void add(std::string_view bytes);
    /// 64 hexadecimal digits, lower case. Ends the sum.
    [[nodiscard]] std::string hex();

private:
    std::array<std::uint32_t, 8> m_state = initial();
    std::string m_rest; ///< less than a block
    std::uint64_t m_bytes = 0;

    static std::array<std::uint32_t, 8> initial();
    void block(std::string_view bytes);
};

[[nodiscard]] std::string sha256(std::string_view bytes);

} // namespace slab
