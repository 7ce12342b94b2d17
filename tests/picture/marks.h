#pragma once
// Pictures marked by hand, and placed.
#include "core/picture/place.h"
#include "tests/picture/views.h"
#include <algorithm>
#include <gtest/gtest.h>

namespace slab {

inline std::string px(double value) {
    char text[64];
    std::snprintf(text, sizeof text, "%.17g", value);
    return text;
}
inline PicturePoint mark(const Vec2& at, const std::string& name = {}) {
    return {name, px(at.x()), px(at.y()), {}};
}
inline PictureLine lineOf(const Vec2& from, const Vec2& to, const std::string& size = {}) {
    return {"line", px(from.x()), px(from.y()), px(to.x()), px(to.y()), size, {}, {}};
}
inline PictureFile photo(double width = 3000, double height = 2000) {
    PictureFile f;
    f.name = "photo.jpg";
    f.state = PictureFile::State::present;
    f.hash = "ab";
    f.header = {"jpeg", width, height, 1};
    return f;
}
inline Picture drawing() {
    Picture p;
    p.name = "drawing";
    p.file = "photo.jpg";
    p.hash = "ab";
    p.from = mark({100, 500});
    p.to = mark({1100, 500});
    p.distance = "5 m";
    p.x = "-1 m";
    p.y = "200 mm";
    return p;
}
struct Placed {
    PlacedPicture picture;
    std::vector<Finding> findings;
    [[nodiscard]] bool tells(const std::string& code) const {
        return std::any_of(findings.begin(), findings.end(),
                           [&](const Finding& f) { return f.code == code; });
    }
};
inline Placed place(const Picture& p, double scale = 1, const PictureFile* file = nullptr) {
    Scope scope;
    scope.scale = scale;
    Placed out;
    out.picture = placePicture(p, 3, scope, file, out.findings);
    for (const Finding& f : out.findings) {
        EXPECT_FALSE(f.remedy.empty()) << f.code;
        EXPECT_EQ(f.about.at(0), "picture:" + p.name);
        EXPECT_NE(f.about.at(1).find("document:/pictures/3"), std::string::npos);
    }
    return out;
}

/// A photo of a sheet 2440 × 1220 leaned behind something, marked without error.
inline Picture leaned(const Mat3& view, bool clockwise = false, int first = 0) {
    Picture p;
    p.name = "photo";
    p.file = "photo.jpg";
    p.space = Space::build;
    p.rectangle_width = first % 2 == 0 ? "2440 mm" : "1220 mm";
    p.rectangle_height = first % 2 == 0 ? "1220 mm" : "2440 mm";
    const auto corners = rectangle(2440, 1220);
    for (int i = 0; i < 4; ++i) {
        const int at = ((clockwise ? first - i : first + i) + 8) % 4;
        p.corners.push_back(mark(seen(view, corners[static_cast<std::size_t>(at)])));
    }
    if (clockwise) std::swap(p.rectangle_width, p.rectangle_height);
    return p;
}

} // namespace slab
