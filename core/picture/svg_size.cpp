// Lengths, transforms and view boxes of SVG.
#include "core/picture/svg_size.h"
#include "core/picture/svg_scan.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

std::optional<SvgLength> readSvgLength(std::string_view text) {
    SvgScan scan(text);
    scan.skipBlanks();
    SvgLength length;
    if (!scan.number(length.value)) return std::nullopt;
    std::string_view unit = scan.rest();
    while (!unit.empty() && (unit.back() == ' ' || unit.back() == '\n' || unit.back() == '\t'))
        unit.remove_suffix(1);
    if (unit == "%") {
        length.percent = true;
        return length;
    }
    if (unit.empty() || unit == "px") return length;
    constexpr double inch = 96; // CSS 2.1, 4.3.2
    length.real = true;
    if (unit == "in")
        length.value *= inch;
    else if (unit == "mm")
        length.value *= inch / 25.4;
    else if (unit == "cm")
        length.value *= inch / 2.54;
    else if (unit == "pt")
        length.value *= inch / 72;
    else if (unit == "pc")
        length.value *= inch / 6;
    else if (unit == "Q" || unit == "q")
        length.value *= inch / 101.6;
    else
        return std::nullopt; // em, ex: no outline depends on a typeface
    return length;
}

std::optional<SvgBox> readViewBox(std::string_view text) {
    SvgScan scan(text);
    SvgBox box;
    scan.skipBlanks();
    for (double* value : {&box.x, &box.y, &box.width, &box.height}) {
        if (!scan.number(*value)) return std::nullopt;
        scan.skipComma();
    }
    if (!scan.atEnd() || !(box.width > 0) || !(box.height > 0)) return std::nullopt;
    return box;
}

Mat3 fitted(const SvgBox& box, const Vec2& size, std::string_view aspect) {
    double sx = size.x() / box.width, sy = size.y() / box.height;
    double alignX = 0.5, alignY = 0.5;
    if (aspect.find("none") == std::string_view::npos) {
        sx = sy = aspect.find("slice") == std::string_view::npos ? std::min(sx, sy) : std::max(sx, sy);
        alignX = aspect.find("xMin") != std::string_view::npos   ? 0
                 : aspect.find("xMax") != std::string_view::npos ? 1
                                                                 : 0.5;
        alignY = aspect.find("YMin") != std::string_view::npos   ? 0
                 : aspect.find("YMax") != std::string_view::npos ? 1
                                                                 : 0.5;
    }
    Mat3 m = Mat3::Identity();
    m(0, 0) = sx;
    m(1, 1) = sy;
    m(0, 2) = -box.x * sx + alignX * (size.x() - box.width * sx);
    m(1, 2) = -box.y * sy + alignY * (size.y() - box.height * sy);
    return m;
}

namespace {

Unexpected badTransform(std::size_t at) {
    return fail("svg-transform", "A transform cannot be read.", "letter " + std::to_string(at + 1),
                "Save the drawing again with its transforms applied.");
}

Mat3 affine(double a, double b, double c, double d, double e, double f) {
    Mat3 m;
    m << a, c, e, b, d, f, 0, 0, 1;
    return m;
}

/// One function of a transform list, or nothing when name and count of arguments do not belong together.
std::optional<Mat3> transformOf(std::string_view name, const std::vector<double>& v) {
    constexpr double degree = std::numbers::pi / 180;
    if (name == "matrix" && v.size() == 6) return affine(v[0], v[1], v[2], v[3], v[4], v[5]);
    if (name == "translate" && (v.size() == 1 || v.size() == 2))
        return affine(1, 0, 0, 1, v[0], v.size() == 2 ? v[1] : 0);
    if (name == "scale" && (v.size() == 1 || v.size() == 2))
        return affine(v[0], 0, 0, v.size() == 2 ? v[1] : v[0], 0, 0);
    if (name == "rotate" && (v.size() == 1 || v.size() == 3)) {
        const double c = std::cos(v[0] * degree), s = std::sin(v[0] * degree);
        const Mat3 turn = affine(c, s, -s, c, 0, 0);
        if (v.size() == 1) return turn;
        return Mat3(affine(1, 0, 0, 1, v[1], v[2]) * turn * affine(1, 0, 0, 1, -v[1], -v[2]));
    }
    if (name == "skewX" && v.size() == 1) return affine(1, 0, std::tan(v[0] * degree), 1, 0, 0);
    if (name == "skewY" && v.size() == 1) return affine(1, std::tan(v[0] * degree), 0, 1, 0, 0);
    return std::nullopt;
}

} // namespace

Expected<Mat3> readTransform(std::string_view text) {
    SvgScan scan(text);
    Mat3 all = Mat3::Identity();
    for (scan.skipBlanks(); !scan.atEnd(); scan.skipComma()) {
        const std::size_t from = scan.at();
        while ((scan.peek() >= 'a' && scan.peek() <= 'z') || scan.peek() == 'X' || scan.peek() == 'Y')
            scan.take();
        const std::string_view name = text.substr(from, scan.at() - from);
        scan.skipBlanks();
        if (scan.take() != '(') return badTransform(from);
        std::vector<double> values;
        scan.skipBlanks();
        while (scan.beginsNumber()) {
            double value = 0;
            if (!scan.number(value)) return badTransform(scan.at());
            values.push_back(value);
            scan.skipComma();
        }
        if (scan.take() != ')') return badTransform(from);
        const auto one = transformOf(name, values);
        if (!one) return badTransform(from);
        all = all * *one;
    }
    return all;
}

} // namespace slab
