#include "core/picture/crop.h"
#include "core/picture/placer.h"
#include <algorithm>
#include <cmath>

namespace slab {

Placer::Placer(const Picture& picture, int index, const Scope& scope, std::vector<Finding>& findings)
    : PictureReader(picture, index, scope, findings) {
    m_out.name = picture.name;
    m_out.file = picture.file;
    m_out.view = picture.view;
    m_out.index = index;
    m_out.space = picture.space;
    m_out.hidden = picture.hidden;
}

PlacedPicture Placer::place(const PictureFile* file) {
    look(file);
    m_out.opacity = within(m_p.opacity, "opacity", usualOpacity, 1);
    m_click = m_out.fix.click = within(m_p.click_error, "click_error", usualClick, mostClick);
    m_at = m_out.at = Vec2(length(m_p.x, "x"), length(m_p.y, "y"));
    if (!isBlank(m_p.turn))
        m_turn = number(m_p.turn, "turn", Kind::angle);
    else if (hasLevel())
        m_turn = 0;
    crop();
    if (!m_p.corners.empty())
        rectify();
    else if (hasCalibration())
        calibrate();
    else
        askForSize();
    if (m_out.scale == Scale::none) provisional();
    show();
    lookBehind();
    marks();
    return std::move(m_out);
}

double Placer::within(const Text& text, const std::string& field, double usual, double most) {
    if (isBlank(text)) return usual;
    m_sound = true;
    const double value = number(text, field, Kind::number);
    if (!m_sound) return usual;
    const bool opacity = field == "opacity";
    if (opacity ? value >= 0 && value <= most : value > 0 && value <= most) return value;
    if (opacity)
        report("picture-opacity", "its opacity does not lie between 0 and 1.", field,
               "Type a number from 0 to 1.");
    else
        report("picture-click-error", "the error of a marked point is not above zero; 1 pixel is used.",
               field, "Type how many pixels a marked point may be off, for example 1.");
    return opacity ? std::clamp(value, 0.0, most) : usual;
}

double Placer::errorOf(const PicturePoint& point, const std::string& field, double usual) {
    return within(point.click_error, field + "/click_error", usual, mostClick);
}

void Placer::look(const PictureFile* file) {
    if (!m_p.file.empty() &&
        (m_p.file.front() == '/' || m_p.file.front() == '\\' || m_p.file.find(":\\") == 1))
        report("picture-absolute", "its file is named by its place on one computer only.", "file",
               "Put the file beside the document and choose it there.");
    if (!file) return;
    using Found = PictureFile::State;
    if (file->state == Found::missing) {
        m_out.state = PlacedPicture::State::missing;
        report("picture-missing", "there is no file " + m_p.file + ".", "file",
               "Put it back where it was, beside the document, or press Choose the file… in the picture's "
               "strip.");
    } else if (file->state == Found::unreadable) {
        m_out.state = PlacedPicture::State::unreadable;
        Error e = file->trouble;
        e.where = "file";
        report(e);
    } else {
        m_out.state = PlacedPicture::State::present;
        m_out.width = file->header.width;
        m_out.height = file->header.height;
        if (m_p.hash.empty() || m_p.hash == file->hash) return;
        m_out.state = PlacedPicture::State::changed;
        report("picture-changed", "the file " + m_p.file + " is not the one that was marked.", "hash",
               "Check that its marks still sit where they should and press Accept the changed file in its "
               "strip, or "
               "put the old one back.");
    }
}

void Placer::crop() {
    m_out.crop = {Vec2::Zero(), Vec2(m_out.width, m_out.height)};
    if (m_p.crop_corners.empty())
        cropToBox();
    else
        cropToCorners();
    if (m_part.empty()) m_part = ringOf(m_out.crop);
}

void Placer::nothingLeft(const char* field) {
    report("picture-crop", "nothing is left of it inside its crop; all of it is shown.", field,
           "Give a crop that lies inside the picture.");
}

void Placer::cropToCorners() {
    m_sound = true;
    Ring ring;
    for (std::size_t i = 0; i < m_p.crop_corners.size(); ++i)
        ring.push_back(pixel(m_p.crop_corners[i], "crop_corners/" + std::to_string(i)));
    if (!m_sound) return;
    if (m_out.width > 0) ring = clipped(ring, m_out.crop);
    if (ring.size() < 3 || std::abs(signedArea(ring)) < 1) return nothingLeft("crop_corners");
    m_out.crop = bounds(ring);
    m_part = std::move(ring);
}

void Placer::cropToBox() {
    m_sound = true;
    const Vec2 from(number(m_p.crop_x, "crop_x", Kind::number), number(m_p.crop_y, "crop_y", Kind::number));
    Vec2 to(m_out.width, m_out.height);
    if (!isBlank(m_p.crop_width)) to.x() = from.x() + number(m_p.crop_width, "crop_width", Kind::number);
    if (!isBlank(m_p.crop_height)) to.y() = from.y() + number(m_p.crop_height, "crop_height", Kind::number);
    if (!m_sound) return;
    Box2 box{from.cwiseMax(0.0), to};
    if (m_out.width > 0) box.max = box.max.cwiseMin(m_out.crop.max);
    const bool unknown = m_out.width == 0 && (isBlank(m_p.crop_width) || isBlank(m_p.crop_height));
    if (unknown) return;
    if (box.size().minCoeff() > 0)
        m_out.crop = box;
    else
        nothingLeft("crop_x");
}

PlacedPicture placePicture(const Picture& picture, int index, const Scope& scope, const PictureFile* file,
                           std::vector<Finding>& findings) {
    return Placer(picture, index, scope, findings).place(file);
}

} // namespace slab
