#include "core/picture/crop.h"
#include "core/picture/typed.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

/// A rectangle along the pixels, to within what a hand can do.
std::optional<Box2> rectangleOf(const Ring& ring) {
    constexpr double straight = 0.05; // px
    if (ring.size() != 4) return {};
    for (std::size_t i = 0; i < 4; ++i) {
        const Vec2 side = (ring[(i + 1) % 4] - ring[i]).cwiseAbs();
        if (side.minCoeff() > straight) return {};
    }
    return bounds(ring);
}

Ring inPlane(const PlacedPicture& picture, const Ring& pixels) {
    Ring ring;
    for (const Vec2& p : pixels) ring.push_back(toPlane(picture.fix, p));
    return ring;
}

} // namespace

Ring ringOf(const Box2& box) {
    if (!(box.size().minCoeff() > 0)) return {};
    return {box.min, {box.max.x(), box.min.y()}, box.max, {box.min.x(), box.max.y()}};
}

Ring clipped(const Ring& ring, const Vec3& line) {
    Ring out;
    const auto depth = [&](const Vec2& p) { return line.dot(p.homogeneous()); };
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2 &p = ring[i], &q = ring[(i + 1) % ring.size()];
        if (depth(p) >= 0) out.push_back(p);
        if ((depth(p) >= 0) != (depth(q) >= 0))
            out.push_back(p + (q - p) * (depth(p) / (depth(p) - depth(q))));
    }
    return out;
}

Ring clipped(Ring ring, const Box2& box) {
    for (int axis = 0; axis < 2; ++axis) {
        Vec3 low = Vec3::Zero(), high = Vec3::Zero();
        low[axis] = 1;
        low.z() = -box.min[axis];
        high[axis] = -1;
        high.z() = box.max[axis];
        ring = clipped(clipped(ring, low), high);
    }
    return ring;
}

Ring wholeOutline(const PlacedPicture& picture) {
    return inPlane(picture, picture.whole);
}

Ring pixelsIn(const PlacedPicture& picture, const Box2& box) {
    Ring all = wholeOutline(picture);
    if (all.empty()) // nothing is known of its file: it reaches as far as the box
        all = ringOf(box);
    Ring kept;
    for (const Vec2& p : clipped(std::move(all), box)) {
        const Vec2 pixel = toPixel(picture.fix, p);
        if (kept.empty() || (pixel - kept.back()).norm() > 1e-6) kept.push_back(pixel);
    }
    while (kept.size() > 1 && (kept.front() - kept.back()).norm() <= 1e-6) kept.pop_back();
    if (kept.size() < 3 || std::abs(signedArea(kept)) < 1) return {};
    return kept;
}

Ring asWritten(const Ring& pixels) {
    const auto box = rectangleOf(pixels);
    if (!box) {
        Ring written;
        for (const Vec2& p : pixels) written.emplace_back((p * 100).array().round() / 100); // as pixelText
        return written;
    }
    const Vec2 a = box->min.array().round(), b = box->max.array().round().max(a.array() + 1);
    return ringOf({a, b});
}

void showOnly(Picture& picture, const Ring& pixels) {
    picture.crop_x.clear(), picture.crop_y.clear();
    picture.crop_width.clear(), picture.crop_height.clear();
    picture.crop_corners.clear();
    if (rectangleOf(pixels)) {
        const Box2 box = bounds(asWritten(pixels));
        picture.crop_x = pixelText(box.min.x());
        picture.crop_y = pixelText(box.min.y());
        picture.crop_width = pixelText(box.size().x());
        picture.crop_height = pixelText(box.size().y());
        return;
    }
    for (const Vec2& p : pixels) picture.crop_corners.push_back({{}, pixelText(p.x()), pixelText(p.y()), {}});
}

Edit cropTo(const PlacedPicture& picture, const Box2& box, std::string gesture) {
    Edit edit{"Crop picture", std::move(gesture), {}};
    const auto index = static_cast<std::size_t>(std::max(picture.index, 0));
    edit.apply = [index, name = picture.name,
                  pixels = pixelsIn(picture, box)](const Project& p) -> Expected<Project> {
        if (index >= p.pictures.size())
            return fail("no-such-place", "There is no such picture.", "/pictures/" + std::to_string(index));
        if (pixels.empty())
            return fail("picture-crop", "The box does not lie on the picture.", name,
                        "Draw it over what is to stay.");
        Project next = p;
        showOnly(next.pictures[index], pixels);
        return next;
    };
    return edit;
}

} // namespace slab
