#include "core/drawing/pen.h"
#include <charconv>
#include <cmath>

namespace slab {

void Pen::line(const Vec2& from, const Vec2& to, const LineStyle& style) const {
    path({from, to}, false, style);
}

void Pen::path(const Ring& points, bool closed, const LineStyle& style) const {
    m_layer->strokes.push_back({points, closed, style.width, style.dash, style.ink});
}

void Pen::box(const Area& area, const LineStyle& style) const {
    path(ringOf(area), true, style);
}

void Pen::fill(const Ring& ring, Ink ink) const {
    m_layer->fills.push_back({{ring, {}}, ink, false});
}

void Pen::fill(const Area& area, Ink ink) const {
    fill(ringOf(area), ink);
}

void Pen::circle(const Vec2& centre, double radius, const LineStyle& style) const {
    m_layer->circles.push_back({centre, radius, style.width, style.dash, style.ink});
}

void Pen::words(const Vec2& at, std::string text, const WordStyle& style) const {
    m_layer->labels.push_back(
        {at, std::move(text), style.height, style.turn, style.align, style.ink, style.figures, style.bold});
}

void Pen::wordsMiddle(const Vec2& at, std::string text, WordStyle style) const {
    style.align = Align::centre;
    const double half = style.height / 2.8; // half of a capital
    words(at + half * Vec2(std::sin(style.turn), -std::cos(style.turn)), std::move(text), style);
}

void Pen::arrow(const Vec2& from, const Vec2& to, double head, const LineStyle& style) const {
    const Vec2 along = (to - from).normalized();
    const Vec2 side(-along.y(), along.x());
    line(from, to - 0.8 * head * along, style);
    fill(Ring{to, to - head * along + 0.38 * head * side, to - head * along - 0.38 * head * side}, style.ink);
}

Ring ringOf(const Area& area) {
    return {{area.x, area.y}, {area.right(), area.y}, {area.right(), area.top()}, {area.x, area.top()}};
}

Area labelArea(const Label& label) {
    const double width = textWidth(label.text, {label.height, label.bold, label.figures});
    const double back = label.align == Align::left ? 0 : label.align == Align::centre ? width / 2 : width;
    const Vec2 along(std::cos(label.turn), std::sin(label.turn)), across(-along.y(), along.x());
    const double rise = 0.75 * label.height, drop = 0.2 * label.height;
    Vec2 low(1e300, 1e300), high(-1e300, -1e300);
    for (double x : {-back, width - back})
        for (double y : {-drop, rise}) {
            const Vec2 p = label.at + along * x + across * y;
            low = low.cwiseMin(p);
            high = high.cwiseMax(p);
        }
    return {low.x(), low.y(), high.x() - low.x(), high.y() - low.y()};
}

std::string plain(double value, int decimals) {
    char buffer[64];
    const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed, decimals);
    std::string text(buffer, end.ptr);
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') text.pop_back();
    }
    return text == "-0" ? "0" : text;
}

} // namespace slab
