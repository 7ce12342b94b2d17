// What is marked on a picture that has its place: where it lies, how sure that is, how far before the plane.
#include "core/picture/crop.h"
#include "core/picture/placer.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

/// An error that was not typed, of a depth or a camera's distance that was.
constexpr double usualShare = 1.0 / 20;

} // namespace

/// The crop's part before the horizon, and its outline in the elevation.
void Placer::show() {
    if (m_out.scale != Scale::rectangle) m_near = (m_out.crop.min + m_out.crop.max) / 2;
    // w grows away from the horizon and is linear in the pixels.
    Vec3 near = m_out.fix.map.row(2).transpose();
    near.z() -= leastDepth * near.dot(m_near.homogeneous());
    const Ring all = ringOf({Vec2::Zero(), Vec2(m_out.width, m_out.height)});
    m_out.whole = clipped(all.empty() ? m_part : all, near);
    m_out.shown = clipped(m_part, near);
    for (const Vec2& p : m_out.shown) m_out.outline.push_back(toPlane(m_out.fix, p));
}

PlacedPoint Placer::point(const std::string& name, const Vec2& at, double click) const {
    return {name, at, toPlane(m_out.fix, at), errorAt(m_out.own, at, true, click)};
}

void Placer::beyond(const std::string& what, const std::string& field) {
    report("picture-horizon", what + " lies at or beyond the horizon of the rectangle's plane.", field,
           "Mark only what lies in that plane, near the rectangle.");
}

/// Depth before the plane, where it is typed.
PictureDepth Placer::depthOf(const Text& depth, const Text& error, const std::string& field) {
    PictureDepth out;
    const std::string place = field.empty() ? "" : field + "/";
    m_sound = true;
    out.before.value = length(depth, place + "depth");
    out.before.error = isBlank(error) ? usualShare * std::abs(out.before.value)
                                      : std::abs(length(error, place + "depth_error"));
    if (!m_sound) return {};
    if (out.before.value <= (1 - leastClear) * m_out.camera.distance) return out;
    report("picture-depth", "what is measured would lie at the camera or behind it.", place + "depth",
           "Type how far it lies before the sheet, less than the camera is away.");
    return {};
}

/// How far the camera was, and how far before the plane things lie that are measured.
void Placer::lookBehind() {
    if (m_out.scale == Scale::none) return;
    PictureCamera& camera = m_out.camera;
    m_sound = true;
    if (const double typed = length(m_p.camera, "camera"); m_sound && typed > 0) {
        double error =
            isBlank(m_p.camera_error) ? usualShare * typed : length(m_p.camera_error, "camera_error");
        if (!m_sound) error = usualShare * typed;
        camera = {PictureCamera::Source::typed, typed, {}, error * error};
    } else if (!isBlank(m_p.camera) && m_sound) {
        report("picture-depth", "the camera's distance is not above zero.", "camera",
               "Type how far the camera stood from the sheet, or leave it empty.");
    }
    if (camera.source == PictureCamera::Source::none && m_out.width > 0) {
        const Vec2 at = toPlane(m_out.fix, m_near);
        const Vec2 across = toPlane(m_out.fix, m_near + Vec2::UnitX()) - at,
                   down = toPlane(m_out.fix, m_near + Vec2::UnitY()) - at;
        camera = usualCamera(Vec2(m_out.width, m_out.height), std::sqrt(std::abs(cross2(across, down))));
    }
    m_out.depth = depthOf(m_p.depth, m_p.depth_error, {});
    m_out.depth.shared = true;
}

void Placer::marks() {
    for (std::size_t i = 0; i < m_p.features.size(); ++i) {
        const std::string field = "features/" + std::to_string(i);
        m_sound = true;
        const Vec2 at = pixel(m_p.features[i], field);
        if (!m_sound) continue;
        if (isBeforeHorizon(m_out.fix, at, m_near))
            m_out.features.push_back(
                point(m_p.features[i].name, at, errorOf(m_p.features[i], field, m_click)));
        else
            beyond("the point " + m_p.features[i].name, field);
    }
    bool deep = false;
    for (std::size_t i = 0; i < m_p.lines.size(); ++i) line(static_cast<int>(i));
    for (const PlacedLine& l : m_out.lines) deep = deep || l.depth.matters();
    if (!deep || m_out.camera.source == PictureCamera::Source::typed ||
        m_out.camera.source == PictureCamera::Source::corners)
        return;
    const bool known = m_out.camera.source == PictureCamera::Source::lens;
    report("picture-camera",
           "how far the camera stood cannot be told from what is marked" +
               (known ? ", so a usual lens is taken, " + printFine(m_out.camera.distance, m_units) + " ± " +
                            printFine(m_out.camera.error(m_click), m_units) + " away."
                      : std::string(", so nothing is corrected for its depth.")),
           "camera", "Type how far the camera stood from the sheet.");
}

EndErrors Placer::endErrors(const PictureLine& l, const std::string& field) {
    const double from = within(l.click_error, field + "/click_error", 0, mostClick);
    return {from, within(l.end_error, field + "/end_error", from, mostClick)};
}

void Placer::line(int index) {
    const PictureLine& l = m_p.lines[static_cast<std::size_t>(index)];
    const std::string field = "lines/" + std::to_string(index);
    PlacedLine out;
    out.index = index;
    out.name = l.name;
    out.size = l.size;
    m_sound = true;
    out.fromPixel =
        Vec2(number(l.x1, field + "/x1", Kind::number), number(l.y1, field + "/y1", Kind::number));
    out.toPixel = Vec2(number(l.x2, field + "/x2", Kind::number), number(l.y2, field + "/y2", Kind::number));
    if (!m_sound) return;
    if (!isBeforeHorizon(m_out.fix, out.fromPixel, m_near) ||
        !isBeforeHorizon(m_out.fix, out.toPixel, m_near))
        return beyond("the line " + l.name, field);
    if (m_out.scale == Scale::none) out.size.clear(); // a provisional size measures nothing
    out.from = toPlane(m_out.fix, out.fromPixel);
    out.to = toPlane(m_out.fix, out.toPixel);
    out.click = endErrors(l, field);
    const bool own = !isBlank(l.depth) || !isBlank(l.depth_error);
    out.depth = own ? depthOf(isBlank(l.depth) ? m_p.depth : l.depth, l.depth_error, field) : m_out.depth;
    out.flat = measure(m_out.fix, out.fromPixel, out.toPixel, out.click);
    out.length = measuredOf(lineSlopes(m_out, out), m_out.fix.click);
    m_out.lines.push_back(std::move(out));
}

const PlacedLine* PlacedPicture::line(int index) const {
    const auto it = std::find_if(lines.begin(), lines.end(), [&](const auto& l) { return l.index == index; });
    return it == lines.end() ? nullptr : &*it;
}

LengthSlopes lineSlopes(const PlacedPicture& picture, const PlacedLine& line) {
    return atDepth(lengthSlopes(picture.fix, line.fromPixel, line.toPixel, line.click), picture.camera,
                   line.depth, picture.fix.click);
}

} // namespace slab
