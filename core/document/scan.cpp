// Looks through the bytes before JSON is built, so that size, nesting, encoding, doubled keys and cut-off
// files are refused with a line and a column, and nothing can overflow the stack.
#include "core/document/json.h"
#include "core/units/number.h"
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <unordered_set>

namespace slab::detail {
namespace {

constexpr std::size_t kLongestText = std::size_t{64} << 20;
constexpr std::size_t kMostValues = 4'000'000;
constexpr std::size_t kDeepest = 64;

std::string place(std::string_view text, std::size_t at) {
    at = std::min(at, text.size());
    std::size_t line = 1, column = 1;
    for (std::size_t i = 0; i < at; ++i) {
        if (text[i] == '\n') {
            ++line;
            column = 1;
        } else if ((static_cast<unsigned char>(text[i]) & 0xC0U) != 0x80U) {
            ++column;
        }
    }
    return "line " + std::to_string(line) + " column " + std::to_string(column);
}

/// First byte of the quoted text, word or number that holds byte `at`.
std::size_t tokenStart(std::string_view text, std::size_t at) {
    const auto inWord = [&](std::size_t i) {
        const char c = text[i];
        return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '.' ||
               c == '-' || c == '+';
    };
    for (std::size_t i = 0; i < text.size() && i <= at;) {
        const std::size_t start = i++;
        if (text[start] == '"') {
            for (; i < text.size() && text[i] != '"'; ++i)
                if (text[i] == '\\') ++i;
            ++i;
        } else if (inWord(start)) {
            while (i < text.size() && inWord(i)) ++i;
        }
        if (at < i) return start;
    }
    return at;
}

/// Bytes of the UTF-8 letter at `i`; 0 if it is none (RFC 3629: no overlong forms, no surrogates, up to
/// U+10FFFF).
std::size_t letterAt(std::string_view t, std::size_t i) {
    const auto byte = [&](std::size_t k) { return k < t.size() ? static_cast<unsigned char>(t[k]) : 0U; };
    const auto tail = [&](std::size_t k) { return (byte(k) & 0xC0U) == 0x80U; };
    const unsigned a = byte(i), b = byte(i + 1);
    if (a < 0x80U) return 1;
    if (a >= 0xC2U && a <= 0xDFU) return tail(i + 1) ? 2 : 0;
    if (a >= 0xE0U && a <= 0xEFU) {
        if ((a == 0xE0U && b < 0xA0U) || (a == 0xEDU && b > 0x9FU)) return 0;
        return tail(i + 1) && tail(i + 2) ? 3 : 0;
    }
    if (a >= 0xF0U && a <= 0xF4U) {
        if ((a == 0xF0U && b < 0x90U) || (a == 0xF4U && b > 0x8FU)) return 0;
        return tail(i + 1) && tail(i + 2) && tail(i + 3) ? 4 : 0;
    }
    return 0;
}

class Scan {
public:
    explicit Scan(std::string_view text) : m_text(text) {}
    Expected<void> run() {
        for (m_at = 0; m_at < m_text.size();)
            if (auto step = one(); !step) return step;
        if (m_open.empty()) return {};
        return fail("truncated", "The file ends in the middle: a bracket is never closed.",
                    place(m_text, m_text.size()), "open the backup beside it (the name with ~ behind it)");
    }

private:
    struct Level {
        char bracket;
        std::unordered_set<std::string> keys;
    };
    std::string_view m_text;
    std::size_t m_at = 0, m_values = 0;
    std::vector<Level> m_open;

    Expected<void> one() {
        const char c = m_text[m_at];
        if (c == '"') return string();
        if (c == '{' || c == '[') {
            if (m_open.size() >= kDeepest)
                return fail("too-deep", "This is nested more than 64 deep.", place(m_text, m_at),
                            "this is not a Slabside document; open the backup beside it");
            m_open.push_back({c, {}});
        } else if (c == '}' || c == ']') {
            if (m_open.empty() || m_open.back().bracket != (c == '}' ? '{' : '['))
                return fail("not-json", std::string("The bracket ") + c + " closes nothing that was opened.",
                            place(m_text, m_at), "correct the brackets, or open the backup beside it");
            m_open.pop_back();
        } else if (c == ',' && ++m_values > kMostValues) {
            return fail("too-large", "The document holds more than 4 million values.", place(m_text, m_at),
                        "this is not a Slabside document");
        } else if ((c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z')) {
            return word();
        } else if (static_cast<unsigned char>(c) >= 0x80U) {
            if (letterAt(m_text, m_at) == 0) return encoding();
            return fail("not-json", "A letter stands outside of quotation marks.", place(m_text, m_at),
                        "put text into quotation marks");
        }
        ++m_at;
        return {};
    }

    [[nodiscard]] Unexpected encoding() const {
        return fail("bad-encoding", "This is not UTF-8 text.", place(m_text, m_at),
                    "save the file as UTF-8, or open the backup beside it");
    }

    Expected<void> word() {
        std::size_t end = m_at;
        while (end < m_text.size() &&
               ((m_text[end] >= 'A' && m_text[end] <= 'Z') || (m_text[end] >= 'a' && m_text[end] <= 'z')))
            ++end;
        const std::string_view found = m_text.substr(m_at, end - m_at);
        if (found == "NaN" || found == "nan" || found == "Infinity" || found == "inf")
            return fail("not-finite", std::string(found) + " is not a number.", place(m_text, m_at),
                        "write a number there");
        m_at = end;
        return {};
    }

    Expected<void> string() {
        const std::size_t start = m_at++;
        while (m_at < m_text.size() && m_text[m_at] != '"') {
            if (m_text[m_at] == '\\') {
                m_at += 2;
                continue;
            }
            const std::size_t bytes = letterAt(m_text, m_at);
            if (bytes == 0) return encoding();
            m_at += bytes;
        }
        if (m_at >= m_text.size())
            return fail("truncated", "The file ends in the middle: a quotation mark is never closed.",
                        place(m_text, start), "open the backup beside it (the name with ~ behind it)");
        const std::string_view quoted = m_text.substr(start, ++m_at - start);
        std::size_t next = m_at;
        while (next < m_text.size() &&
               (m_text[next] == ' ' || m_text[next] == '\t' || m_text[next] == '\n' || m_text[next] == '\r'))
            ++next;
        if (next < m_text.size() && m_text[next] == ':' && !m_open.empty()) return key(quoted, start);
        return {};
    }

    Expected<void> key(std::string_view quoted, std::size_t start) {
        std::string name(quoted.substr(1, quoted.size() - 2));
        if (name.find('\\') != std::string::npos) {
            const Json plain = Json::parse(quoted, nullptr, false);
            if (plain.is_string()) name = plain.get<std::string>();
        }
        if (m_open.back().keys.insert(name).second) return {};
        return fail("duplicate-key", "The field \"" + shortened(name) + "\" stands here twice.",
                    place(m_text, start), "remove or rename one of them");
    }
};

/// Place of the first number outside of texts that no double holds.
std::string hugeNumber(std::string_view text) {
    constexpr std::string_view inNumber = "+-.eE0123456789";
    bool quoted = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (quoted && text[i] == '\\') {
            ++i;
        } else if (text[i] == '"') {
            quoted = !quoted;
        } else if (!quoted && (text[i] == '-' || (text[i] >= '0' && text[i] <= '9'))) {
            const std::size_t end = std::min(text.find_first_not_of(inNumber, i), text.size());
            const std::string number(text.substr(i, end - i));
            if (std::isinf(std::strtod(number.c_str(), nullptr))) return place(text, i);
            i = end - 1;
        }
    }
    return {};
}

} // namespace

Expected<Json> parseDocument(std::string_view text) {
    if (text.size() > kLongestText)
        return fail("too-large", "The file is larger than 64 MiB.", {}, "this is not a Slabside document");
    if (text.starts_with("\xEF\xBB\xBF"))
        return fail("byte-order-mark", "The file begins with a byte order mark.", "line 1 column 1",
                    "save it as UTF-8 without one");
    if (text.find_first_not_of(" \t\r\n") == std::string_view::npos)
        return fail("not-json", "The file is empty.", "line 1 column 1", "open the backup beside it");
    if (auto scan = Scan(text).run(); !scan) return tl::make_unexpected(scan.error());
    try {
        return Json::parse(text);
    } catch (const Json::parse_error& e) {
        return fail("not-json", "This is not JSON: something else is expected here.",
                    place(text, tokenStart(text, e.byte > 0 ? e.byte - 1 : 0)),
                    "look for a missing comma, colon or quotation mark, or open the backup beside it");
    } catch (const Json::out_of_range&) {
        return fail("not-finite", "A number in the file is too large.", hugeNumber(text),
                    "write a smaller number");
    } catch (const std::exception& e) {
        return fail("not-json", std::string("The file could not be read: ") + e.what() + ".");
    }
}

} // namespace slab::detail
