#pragma once
// Marks on pictures, and pictures placed.
#include "core/picture/place.h"
#include <algorithm>
#include <cstdio>
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

} // namespace slab
