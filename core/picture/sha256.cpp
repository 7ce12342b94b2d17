#include "core/picture/sha256.h"
#include <bit>
#include <cstddef>

namespace slab {

namespace {

constexpr std::size_t blockSize = 64;

// FIPS 180-4, 4.2.2: fractional parts of the cube roots of the first 64 primes.
constexpr std::array<std::uint32_t, 64> roundConstants = {
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2};

std::uint32_t wordAt(std::string_view bytes, std::size_t at) {
    std::uint32_t word = 0;
    for (std::size_t i = 0; i < 4; ++i) word = (word << 8U) | static_cast<unsigned char>(bytes[at + i]);
    return word;
}

} // namespace

// FIPS 180-4, 5.3.3: fractional parts of the square roots of the first eight primes.
std::array<std::uint32_t, 8> Sha256::initial() {
    return {0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a, 0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19};
}

void Sha256::block(std::string_view bytes) {
    std::array<std::uint32_t, 64> w{};
    for (std::size_t t = 0; t < 16; ++t) w[t] = wordAt(bytes, 4 * t);
    for (std::size_t t = 16; t < 64; ++t) {
        const std::uint32_t s0 = std::rotr(w[t - 15], 7) ^ std::rotr(w[t - 15], 18) ^ (w[t - 15] >> 3U);
        const std::uint32_t s1 = std::rotr(w[t - 2], 17) ^ std::rotr(w[t - 2], 19) ^ (w[t - 2] >> 10U);
        w[t] = s1 + w[t - 7] + s0 + w[t - 16];
    }
    auto [a, b, c, d, e, f, g, h] = m_state;
    for (std::size_t t = 0; t < 64; ++t) {
        const std::uint32_t s1 = std::rotr(e, 6) ^ std::rotr(e, 11) ^ std::rotr(e, 25);
        const std::uint32_t t1 = h + s1 + ((e & f) ^ (~e & g)) + roundConstants[t] + w[t];
        const std::uint32_t s0 = std::rotr(a, 2) ^ std::rotr(a, 13) ^ std::rotr(a, 22);
        const std::uint32_t t2 = s0 + ((a & b) ^ (a & c) ^ (b & c));
        h = g;
        g = f;
        f = e;
        e = d + t1;
        d = c;
        c = b;
        b = a;
        a = t1 + t2;
    }
    const std::array<std::uint32_t, 8> more{a, b, c, d, e, f, g, h};
    for (std::size_t i = 0; i < 8; ++i) m_state[i] += more[i];
}

void Sha256::add(std::string_view bytes) {
    m_bytes += bytes.size();
    if (!m_rest.empty()) {
        const std::string_view head = bytes.substr(0, blockSize - m_rest.size());
        m_rest += head;
        bytes.remove_prefix(head.size());
        if (m_rest.size() < blockSize) return;
        block(m_rest);
        m_rest.clear();
    }
    for (; bytes.size() >= blockSize; bytes.remove_prefix(blockSize)) block(bytes);
    m_rest = bytes;
}

std::string Sha256::hex() {
    const std::uint64_t bits = m_bytes * 8;
    m_rest += '\x80';
    m_rest.resize((m_rest.size() + 8 + blockSize - 1) / blockSize * blockSize - 8, '\0');
    for (int shift = 56; shift >= 0; shift -= 8) m_rest += static_cast<char>((bits >> shift) & 0xffU);
    for (std::string_view rest = m_rest; !rest.empty(); rest.remove_prefix(blockSize)) block(rest);
    m_rest.clear();
    std::string text;
    for (std::uint32_t word : m_state)
        for (int shift = 28; shift >= 0; shift -= 4) text += "0123456789abcdef"[(word >> shift) & 0xfU];
    return text;
}

std::string sha256(std::string_view bytes) {
    Sha256 sum;
    sum.add(bytes);
    return sum.hex();
}

} // namespace slab
