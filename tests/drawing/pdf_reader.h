#pragma once
// Just enough of a PDF reader for the tests: page boxes, and the straight lines of each page's content, in
// points.
#include "core/geometry/vec.h"
#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <cstdlib>
#include <string>
#include <vector>
#include <zlib.h>

namespace slab::hand {

inline std::string inflated(const std::string& packed) {
    z_stream stream{};
    if (inflateInit(&stream) != Z_OK) return {};
    std::string out, piece(65536, '\0');
    stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(packed.data()));
    stream.avail_in = static_cast<uInt>(packed.size());
    int state = Z_OK;
    while (state == Z_OK) {
        stream.next_out = reinterpret_cast<Bytef*>(piece.data());
        stream.avail_out = static_cast<uInt>(piece.size());
        state = inflate(&stream, Z_NO_FLUSH);
        out.append(piece, 0, piece.size() - stream.avail_out);
    }
    inflateEnd(&stream);
    return state == Z_STREAM_END ? out : std::string{};
}

struct PdfLine {
    Vec2 a = Vec2::Zero(), b = Vec2::Zero(); ///< points, y up from the page's lower left
    double width = 1;                        ///< pen, points
    [[nodiscard]] double length() const { return (b - a).norm(); }
};
struct PdfPage {
    std::array<double, 4> box{};
    std::vector<PdfLine> lines;
};

/// Follows cm, q, Q, w, m, l, h, re; every straight piece of a path is a line.
inline std::vector<PdfLine> linesOf(const std::string& content) {
    using Matrix = std::array<double, 6>;
    struct State {
        Matrix m{1, 0, 0, 1, 0, 0};
        double width = 1;
    };
    std::vector<State> stack(1);
    std::vector<double> numbers;
    std::vector<PdfLine> lines;
    std::size_t painted = 0; // lines of paths that were stroked or filled
    Vec2 start = Vec2::Zero(), at = Vec2::Zero();
    const auto mapped = [&](double x, double y) {
        const Matrix& m = stack.back().m;
        return Vec2(m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]);
    };
    const auto lineTo = [&](const Vec2& p) {
        lines.push_back({at, p, stack.back().width});
        at = p;
    };
    std::size_t i = 0;
    while (i < content.size()) {
        const char c = content[i];
        if (c == '(' || c == '<') { // text: not looked at
            const char close = c == '(' ? ')' : '>';
            for (++i; i < content.size() && content[i] != close; ++i)
                if (content[i] == '\\') ++i;
            ++i;
            continue;
        }
        if (std::isspace(static_cast<unsigned char>(c)) || c == '[' || c == ']') {
            ++i;
            continue;
        }
        std::size_t end = i;
        while (end < content.size() && !std::isspace(static_cast<unsigned char>(content[end])) &&
               std::string("[]()<").find(content[end]) == std::string::npos)
            ++end;
        const std::string word = content.substr(i, end - i);
        i = std::max(end, i + 1);
        char* stop = nullptr;
        const double number = std::strtod(word.c_str(), &stop);
        if (stop && *stop == 0 && !word.empty()) {
            numbers.push_back(number);
            continue;
        }
        const std::vector<double> n = numbers;
        numbers.clear();
        if (word == "q") stack.push_back(stack.back());
        if (word == "Q" && stack.size() > 1) stack.pop_back();
        if (word == "w" && !n.empty()) stack.back().width = n.back();
        if (word == "cm" && n.size() >= 6) {
            const Matrix a{n[0], n[1], n[2], n[3], n[4], n[5]}, b = stack.back().m;
            stack.back().m = {a[0] * b[0] + a[1] * b[2],        a[0] * b[1] + a[1] * b[3],
                              a[2] * b[0] + a[3] * b[2],        a[2] * b[1] + a[3] * b[3],
                              a[4] * b[0] + a[5] * b[2] + b[4], a[4] * b[1] + a[5] * b[3] + b[5]};
        }
        if (word == "n") lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(painted), lines.end()); // a clip
        if (word == "n" || word == "S" || word == "s" || word[0] == 'f' || word[0] == 'B') painted = lines.size();
        if (word == "m" && n.size() >= 2) start = at = mapped(n[0], n[1]);
        if (word == "l" && n.size() >= 2) lineTo(mapped(n[0], n[1]));
        if (word == "h") lineTo(start);
        if (word == "re" && n.size() >= 4) {
            start = at = mapped(n[0], n[1]);
            lineTo(mapped(n[0] + n[2], n[1]));
            lineTo(mapped(n[0] + n[2], n[1] + n[3]));
            lineTo(mapped(n[0], n[1] + n[3]));
            lineTo(start);
        }
    }
    return lines;
}

/// Pages in file order. Cairo writes each page's content as one deflated stream before the page itself, fonts
/// after.
inline std::vector<PdfPage> readPdf(const std::string& bytes) {
    std::vector<PdfPage> pages;
    std::vector<std::string> contents;
    for (std::size_t at = bytes.find("stream\n"); at != std::string::npos;
         at = bytes.find("stream\n", at + 1)) {
        if (at >= 3 && bytes.compare(at - 3, 3, "end") == 0) continue;
        const std::size_t from = at + 7, to = bytes.find("endstream", from);
        if (to == std::string::npos) break;
        const std::string text = inflated(bytes.substr(from, to - from));
        if (text.rfind("1 0 0 -1 0 ", 0) == 0) contents.push_back(text);
    }
    for (std::size_t at = bytes.find("/MediaBox ["); at != std::string::npos;
         at = bytes.find("/MediaBox [", at + 1)) {
        PdfPage page;
        const char* from = bytes.c_str() + at + 11;
        for (double& side : page.box) {
            char* next = nullptr;
            side = std::strtod(from, &next);
            from = next;
        }
        if (pages.size() < contents.size()) page.lines = linesOf(contents[pages.size()]);
        pages.push_back(page);
    }
    return pages;
}

} // namespace slab::hand
