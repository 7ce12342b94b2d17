#include "core/picture/place.h"
#include "core/picture/crop.h"
#include "core/picture/doubt.h"
#include "core/picture/reader.h"
#include <algorithm>
#include <cmath>
#include <limits>

namespace slab {

namespace {

using Scale = PlacedPicture::Scale;

/// A picture without a known size is shown this long, mm on the subject.
constexpr double provisionalSize = 2000;
constexpr double usualOpacity = 0.6, usualClick = 1;

class Placer : private PictureReader {
public:
    Placer(const Picture& picture, int index, const Scope& scope, std::vector<Finding>& findings)
        : PictureReader(picture, index, scope, findings) {
        m_out.name = picture.name;
        m_out.file = picture.file;
        m_out.view = picture.view;
        m_out.index = index;
        m_out.space = picture.space;
        m_out.hidden = picture.hidden;
    }

    PlacedPicture place(const PictureFile* file) {
        look(file);
        m_out.opacity = within(m_p.opacity, "opacity", usualOpacity, 1);
        m_click = m_out.fix.click = within(m_p.click_error, "click_error", usualClick, 1e4);
        m_at = Vec2(length(m_p.x, "x"), length(m_p.y, "y"));
        if (!isBlank(m_p.turn)) m_turn = number(m_p.turn, "turn", Kind::angle);
        crop();
        if (!m_p.corners.empty())
            rectify();
        else if (hasCalibration())
            calibrate();
        else
            askForSize();
        if (m_out.scale == Scale::none) provisional();
        show();
        marks();
        return std::move(m_out);
    }

private:
    PlacedPicture m_out;
    double m_click = usualClick;
    Vec2 m_at = Vec2::Zero(), m_near = Vec2::Zero();
    Ring m_part; ///< px: corners of what is to be shown
    std::optional<double> m_turn;

    double within(const Text& text, const char* field, double usual, double most) {
        if (isBlank(text)) return usual;
        m_sound = true;
        const double value = number(text, field, Kind::number);
        if (!m_sound) return usual;
        const bool opacity = field == std::string("opacity");
        if (opacity ? value >= 0 && value <= most : value > 0 && value <= most) return value;
        if (opacity)
            report("picture-opacity", "its opacity does not lie between 0 and 1.", field,
                   "Type a number from 0 to 1.");
        else
            report("picture-click-error", "the error of a marked point is not above zero; 1 pixel is used.",
                   field, "Type how many pixels a marked point may be off, for example 1.");
        return opacity ? std::clamp(value, 0.0, most) : usual;
    }

    void look(const PictureFile* file) {
        if (!m_p.file.empty() &&
            (m_p.file.front() == '/' || m_p.file.front() == '\\' || m_p.file.find(":\\") == 1))
            report("picture-absolute", "its file is named by its place on one computer only.", "file",
                   "Put the file beside the document and choose it there.");
        if (!file) return;
        using Found = PictureFile::State;
        if (file->state == Found::missing) {
            m_out.state = PlacedPicture::State::missing;
            report("picture-missing", "there is no file " + m_p.file + ".", "file",
                   "Put it back where it was, beside the document, or choose the picture again.");
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
                   "Check that its marks still sit where they should and accept the new file, or put the old "
                   "one back.");
        }
    }

    void crop() {
        m_out.crop = {Vec2::Zero(), Vec2(m_out.width, m_out.height)};
        if (m_p.crop_corners.empty())
            cropToBox();
        else
            cropToCorners();
        if (m_part.empty()) m_part = ringOf(m_out.crop);
    }

    void nothingLeft(const char* field) {
        report("picture-crop", "nothing is left of it inside its crop; all of it is shown.", field,
               "Give a crop that lies inside the picture.");
    }

    void cropToCorners() {
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

    void cropToBox() {
        m_sound = true;
        const Vec2 from(number(m_p.crop_x, "crop_x", Kind::number),
                        number(m_p.crop_y, "crop_y", Kind::number));
        Vec2 to(m_out.width, m_out.height);
        if (!isBlank(m_p.crop_width)) to.x() = from.x() + number(m_p.crop_width, "crop_width", Kind::number);
        if (!isBlank(m_p.crop_height))
            to.y() = from.y() + number(m_p.crop_height, "crop_height", Kind::number);
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

    [[nodiscard]] bool hasCalibration() const {
        return isMarked(m_p.from) && isMarked(m_p.to) && !isBlank(m_p.distance);
    }

    void askForSize() {
        std::string missing;
        const auto need = [&](bool there, const char* what) {
            if (!there) missing += (missing.empty() ? "" : ", ") + std::string(what);
        };
        need(isMarked(m_p.from), "the first point");
        need(isMarked(m_p.to), "the second point");
        need(!isBlank(m_p.distance), "the distance between them");
        report("picture-uncalibrated", "its size is not known (missing: " + missing + ").", "distance",
               "Mark two points and type what lies between them, or mark the four corners of a known "
               "rectangle.");
    }

    [[nodiscard]] TwoPoints twoPoints() {
        TwoPoints two;
        two.from = pixel(m_p.from, "from");
        two.to = pixel(m_p.to, "to");
        two.distance = length(m_p.distance, "distance");
        two.at = m_at;
        two.turn = m_turn;
        return two;
    }

    void calibrate() {
        m_sound = true;
        const TwoPoints two = twoPoints();
        if (!m_sound) return;
        auto fix = calibrated(two, m_click);
        if (!fix) return report(fix.error());
        m_out.fix = m_out.own = std::move(*fix);
        m_out.scale = Scale::distance;
        m_near = two.from;
    }

    void rectify() {
        m_sound = true;
        const double width = length(m_p.rectangle_width, "rectangle_width");
        const double height = length(m_p.rectangle_height, "rectangle_height");
        std::vector<PointPair> pairs;
        for (std::size_t i = 0; i < m_p.corners.size(); ++i)
            pairs.push_back({pixel(m_p.corners[i], "corners/" + std::to_string(i)), Vec2::Zero()});
        if (!m_sound) return;
        if (pairs.size() == 4 && !(width > 0 && height > 0))
            return report("picture-rectangle", "the rectangle whose corners are marked has no size.",
                          width > 0 ? "rectangle_height" : "rectangle_width",
                          "Measure the rectangle's two sides and type them in.");
        if (pairs.size() > 4)
            return report("picture-corners-many", "more than four corners are marked.", "corners",
                          "Leave only the four corners of the rectangle.");
        if (pairs.size() == 4) {
            // Clockwise as seen stays clockwise: a picture is not mirrored.
            const Vec2 a = pairs[1].pixel - pairs[0].pixel, b = pairs[2].pixel - pairs[1].pixel;
            const double up = cross2(a, b) > 0 ? -height : height;
            pairs[1].plane = Vec2(width, 0);
            pairs[2].plane = Vec2(width, up);
            pairs[3].plane = Vec2(0, up);
        }
        for (const PointPair& p : pairs) m_near += p.pixel / static_cast<double>(pairs.size());
        auto flat = homographyOf(pairs, m_click);
        if (!flat) return report(flat.error());
        stand(std::move(*flat), pairs);
        for (std::size_t i = 0; i < pairs.size() && m_out.scale != Scale::none; ++i)
            m_out.corners.push_back(point(m_p.corners[i].name, pairs[i].pixel));
        if (m_out.scale != Scale::none && pairs.size() == 4)
            question({{pairs[0].pixel, pairs[1].pixel, pairs[2].pixel, pairs[3].pixel},
                      width,
                      height,
                      Vec2(m_out.width, m_out.height),
                      m_click});
    }

    /// What a camera can hardly have seen is told; the sides hold as they are typed.
    void question(const MarkedRectangle& marked) {
        const auto doubt = doubtOf(marked);
        if (!doubt) return;
        const Error told = inWords(*doubt, marked, m_units);
        m_out.doubt = told.message + " " + told.remedy;
        report(told.code.c_str(), told.message, told.where, told.remedy);
    }

    /// Moves and turns the rectified picture by its two points, as far as they are marked.
    void stand(Homography flat, const std::vector<PointPair>& pairs) {
        m_out.residual = flat.rms;
        m_sound = true;
        const TwoPoints two = twoPoints();
        if (!m_sound) return;
        const bool from = isMarked(m_p.from), both = from && isMarked(m_p.to);
        if (from) {
            if (!isBeforeHorizon(flat.fix, two.from, m_near) ||
                (both && !isBeforeHorizon(flat.fix, two.to, m_near)))
                return beyond("its fixed point", "from");
            if (both && two.distance > 0) compare(two, flat.fix, pairs);
            TwoPoints used = two;
            PlaneFix plane = flat.fix;
            if (!both ||
                !m_turn) { // no line to turn: the rectangle's first side has the angle, or it stays upright
                plane = slab::placed(plane, Vec2::Zero(), m_turn, m_near);
                used.turn.reset();
            }
            if (!both) used.to = used.from;
            auto fix = slab::placed(plane, used);
            if (!fix) return report(fix.error());
            m_out.fix = std::move(*fix);
        } else {
            m_out.fix = slab::placed(flat.fix, m_at, m_turn, m_near);
            // It stands on its lowest corner, wherever the marking began.
            Vec2 low = Vec2::Constant(std::numeric_limits<double>::infinity());
            for (const PicturePoint& corner : m_p.corners)
                low = low.cwiseMin(toPlane(m_out.fix, pixel(corner, "corners")));
            if (low.allFinite()) m_out.fix = slab::placed(flat.fix, 2 * m_at - low, m_turn, m_near);
        }
        m_out.own = withOwnErrors(flat.fix, m_out.fix);
        m_out.scale = Scale::rectangle;
    }

    /// A known distance that agrees makes the map surer; one that contradicts is told and changes nothing.
    void compare(const TwoPoints& two, PlaneFix& flat, const std::vector<PointPair>& pairs) {
        const double click = within(m_p.distance_error, "distance_error", m_click, 1e4);
        const Measured found = measure(flat, two.from, two.to, click);
        PictureCheck check{two.distance, found, false, found.error};
        check.taken = check.errors() <= mostErrors;
        if (check.taken) {
            flat = takenIn(flat, {two.from, two.to, two.distance, click});
            check.after = measure(flat, two.from, two.to, click).error;
            double square = 0;
            for (const PointPair& p : pairs) square += (toPixel(flat, p.plane) - p.pixel).squaredNorm();
            m_out.residual = std::sqrt(square / (2 * static_cast<double>(pairs.size())));
        } else {
            report(
                "picture-check",
                "the rectangle makes " + printFine(found.value, m_units) + " ± " +
                    printFine(found.error, m_units) + " of the distance given as " +
                    printFine(two.distance, m_units) + ".",
                "distance",
                "Check the rectangle's sides, its corners and the two points; both must lie in one plane.");
        }
        m_out.check = check;
    }

    void provisional() {
        // Of the whole picture, so that it stays where it is while it is cropped.
        const Box2 all = m_out.width > 0 ? Box2{Vec2::Zero(), Vec2(m_out.width, m_out.height)} : m_out.crop;
        const double longest = std::max(all.size().maxCoeff(), 1.0);
        const double scale = (all.size().maxCoeff() > 0 ? provisionalSize / longest : 1) *
                             (m_p.space == Space::subject ? m_scope.scale : 1);
        const Vec2 lower(all.min.x(), all.max.y());
        m_out.fix.map << scale, 0, m_at.x() - scale * lower.x(), 0, -scale, m_at.y() + scale * lower.y(), 0,
            0, 1;
        m_out.fix.slopes.clear();
        m_out.own = m_out.fix;
    }

    /// The crop's part before the horizon, and its outline in the elevation.
    void show() {
        if (m_out.scale != Scale::rectangle) m_near = (m_out.crop.min + m_out.crop.max) / 2;
        // w grows away from the horizon and is linear in the pixels.
        Vec3 near = m_out.fix.map.row(2).transpose();
        near.z() -= leastDepth * near.dot(m_near.homogeneous());
        const Ring all = ringOf({Vec2::Zero(), Vec2(m_out.width, m_out.height)});
        m_out.whole = clipped(all.empty() ? m_part : all, near);
        m_out.shown = clipped(m_part, near);
        for (const Vec2& p : m_out.shown) m_out.outline.push_back(toPlane(m_out.fix, p));
    }

    [[nodiscard]] PlacedPoint point(const std::string& name, const Vec2& at) const {
        return {name, at, toPlane(m_out.fix, at), errorAt(m_out.own, at)};
    }
    void beyond(const std::string& what, const std::string& field) {
        report("picture-horizon", what + " lies at or beyond the horizon of the rectangle's plane.", field,
               "Mark only what lies in that plane, near the rectangle.");
    }

    void marks() {
        for (std::size_t i = 0; i < m_p.features.size(); ++i) {
            const std::string field = "features/" + std::to_string(i);
            m_sound = true;
            const Vec2 at = pixel(m_p.features[i], field);
            if (!m_sound) continue;
            if (isBeforeHorizon(m_out.fix, at, m_near))
                m_out.features.push_back(point(m_p.features[i].name, at));
            else
                beyond("the point " + m_p.features[i].name, field);
        }
        for (std::size_t i = 0; i < m_p.lines.size(); ++i) line(m_p.lines[i], "lines/" + std::to_string(i));
    }
    void line(const PictureLine& l, const std::string& field) {
        PlacedLine out;
        out.name = l.name;
        out.size = l.size;
        m_sound = true;
        out.fromPixel =
            Vec2(number(l.x1, field + "/x1", Kind::number), number(l.y1, field + "/y1", Kind::number));
        out.toPixel =
            Vec2(number(l.x2, field + "/x2", Kind::number), number(l.y2, field + "/y2", Kind::number));
        if (!m_sound) return;
        if (!isBeforeHorizon(m_out.fix, out.fromPixel, m_near) ||
            !isBeforeHorizon(m_out.fix, out.toPixel, m_near))
            return beyond("the line " + l.name, field);
        if (m_out.scale == Scale::none) out.size.clear(); // a provisional size measures nothing
        out.from = toPlane(m_out.fix, out.fromPixel);
        out.to = toPlane(m_out.fix, out.toPixel);
        constexpr double most = 1e4; // px
        out.click = number(l.click_error, field + "/click_error", Kind::number);
        if (!(out.click > 0 && out.click < most)) out.click = 0;
        out.length = measure(m_out.fix, out.fromPixel, out.toPixel, out.click);
        m_out.lines.push_back(std::move(out));
    }
};

} // namespace

PlacedPicture placePicture(const Picture& picture, int index, const Scope& scope, const PictureFile* file,
                           std::vector<Finding>& findings) {
    return Placer(picture, index, scope, findings).place(file);
}

} // namespace slab
