#pragma once
// Shorthand for drawing on a layer in millimetres.
#include "core/drawing/drawing.h"
#include "core/drawing/text.h"

namespace slab {

/// A rectangle on paper, y up.
struct Area {
    double x = 0, y = 0, width = 0, height = 0; ///< of the lower left corner, mm
    [[nodiscard]] double right() const { return x + width; }
    [[nodiscard]] double top() const { return y + height; }
    [[nodiscard]] bool meets(const Area& other) const {
        return x < other.right() && other.x < right() && y < other.top() && other.y < top();
    }
    [[nodiscard]] Area grown(double by) const { return {x - by, y - by, width + 2 * by, height + 2 * by}; }
    bool operator==(const Area&) const = default;
};

struct LineStyle {
    double width = 0.18;
    Ink ink = Ink::line;
    Dash dash = Dash::solid;
};
struct WordStyle {
    double height = 2.6;
    Align align = Align::left;
    Ink ink = Ink::line;
    bool bold = false, figures = false;
    double turn = 0;
    [[nodiscard]] TextStyle text() const { return {height, bold, figures}; }
};

class Pen {
public:
    explicit Pen(Layer& layer) : m_layer(&layer) {}
    void line(const Vec2& from, const Vec2& to, const LineStyle& style = {}) const;
    void path(const Ring& points, bool closed, const LineStyle& style = {}) const;
    void box(const Area& area, const LineStyle& style = {}) const;
    void fill(const Ring& ring, Ink ink) const;
    void fill(const Area& area, Ink ink) const;
    void circle(const Vec2& centre, double radius, const LineStyle& style = {}) const;
    /// `at`: baseline.
    void words(const Vec2& at, std::string text, const WordStyle& style = {}) const;
    /// Set so that capitals stand centred on `at`.
    void wordsMiddle(const Vec2& at, std::string text, WordStyle style = {}) const;
    /// Filled arrow from `from` to its tip `to`.
    void arrow(const Vec2& from, const Vec2& to, double head, const LineStyle& style = {}) const;
    [[nodiscard]] Layer& layer() const { return *m_layer; }

private:
    Layer* m_layer;
};

[[nodiscard]] Ring ringOf(const Area& area);
/// Level box around a label as set, descenders included.
[[nodiscard]] Area labelArea(const Label& label);
/// Number without needless zeros: "12.7", "0.4", "25".
[[nodiscard]] std::string plain(double value, int decimals);

} // namespace slab
