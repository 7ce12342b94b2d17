#pragma once
#include <charconv>
#include <cmath>
#include <string_view>

namespace slab {

/// Numbers, flags and separators of SVG's attribute grammars.
/// @source  W3C SVG 1.1 8.3.9 and 7.6 (transform lists)
class SvgScan {
public:
    explicit SvgScan(std::string_view text) : m_text(text) {}
    [[nodiscard]] bool atEnd() const { return m_at >= m_text.size(); }
    [[nodiscard]] std::size_t at() const { return m_at; }
    [[nodiscard]] char peek() const { return atEnd() ? '\0' : m_text[m_at]; }
    char take() { return atEnd() ? '\0' : m_text[m_at++]; }
    [[nodiscard]] std::string_view rest() const { return m_text.substr(m_at); }
    void skip(std::size_t count) { m_at += count; }
    void skipBlanks() {
        while (!atEnd() && std::string_view(" \t\r\n\f").find(peek()) != std::string_view::npos) ++m_at;
    }
    /// Blanks, and one comma among them.
    void skipComma() {
        skipBlanks();
        if (peek() == ',') {
            ++m_at;
            skipBlanks();
        }
    }
    [[nodiscard]] bool beginsNumber() const {
        const char c = peek();
        return (c >= '0' && c <= '9') || c == '.' || c == '-' || c == '+';
    }
    /// One number: "0.6.5" is two, "100-200" too.
    bool number(double& value) {
        std::size_t from = m_at;
        const bool plus = peek() == '+';
        if (plus) ++from;
        std::size_t digits = from < m_text.size() && m_text[from] == '-' && !plus ? from + 1 : from;
        if (digits >= m_text.size()) return false;
        const char first = m_text[digits];
        if (!(first >= '0' && first <= '9') && first != '.') return false; // no "inf", no "nan"
        const auto done = std::from_chars(m_text.data() + from, m_text.data() + m_text.size(), value);
        if (done.ec != std::errc() || !std::isfinite(value)) return false;
        m_at = static_cast<std::size_t>(done.ptr - m_text.data());
        return true;
    }
    /// One letter, 0 or 1, which may stand right before what follows.
    bool flag(bool& value) {
        if (peek() != '0' && peek() != '1') return false;
        value = take() == '1';
        return true;
    }

private:
    std::string_view m_text;
    std::size_t m_at = 0;
};

} // namespace slab
