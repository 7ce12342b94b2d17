// What gives a picture its size and its direction.
#include "core/picture/placer.h"
#include <algorithm>
#include <cmath>
#include <limits>

namespace slab {

namespace {

/// A picture without a known size is shown this long, mm on the subject.
constexpr double provisionalSize = 2000;

} // namespace

bool Placer::hasCalibration() const {
    return isMarked(m_p.from) && isMarked(m_p.to) && !isBlank(m_p.distance);
}

bool Placer::hasLevel() const {
    return isMarked(m_p.level_from) && isMarked(m_p.level_to);
}

void Placer::askForSize() {
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

TwoPoints Placer::twoPoints(double usualError) {
    TwoPoints two;
    two.from = pixel(m_p.from, "from");
    two.to = pixel(m_p.to, "to");
    two.distance = length(m_p.distance, "distance");
    two.at = m_at;
    if (!hasLevel()) two.turn = m_turn;
    const bool sound = m_sound;
    two.click = {errorOf(m_p.from, "from", usualError), errorOf(m_p.to, "to", usualError)};
    m_sound = sound;
    return two;
}

std::optional<LevelLine> Placer::levelLine() {
    if (!hasLevel()) return {};
    m_sound = true;
    LevelLine line{
        pixel(m_p.level_from, "level_from"), pixel(m_p.level_to, "level_to"), m_turn.value_or(0), {}};
    if (!m_sound) return {};
    line.click = {errorOf(m_p.level_from, "level_from", m_click), errorOf(m_p.level_to, "level_to", m_click)};
    return line;
}

Expected<PlaneFix> Placer::oriented(const PlaneFix& fix, const Vec2& pivot) {
    if (const auto line = levelLine()) {
        for (const Vec2& end : {line->from, line->to})
            if (!isBeforeHorizon(fix, end, m_near)) {
                beyond("its level line", "level_from");
                return fix;
            }
        return levelled(fix, *line, pivot);
    }
    if (m_turn || isBlank(m_p.rotation)) return fix;
    m_sound = true;
    const double angle = number(m_p.rotation, "rotation", Kind::angle);
    return m_sound ? turned(fix, angle, pivot) : fix;
}

void Placer::calibrate() {
    m_sound = true;
    const TwoPoints two = twoPoints(m_click);
    if (!m_sound) return;
    auto fix = calibrated(two, m_click);
    if (!fix) return report(fix.error());
    m_near = two.from;
    m_out.fix = std::move(*fix);
    if (auto level = oriented(m_out.fix, m_at))
        m_out.fix = std::move(*level);
    else
        report(level.error());
    m_out.own = m_out.fix;
    m_out.scale = Scale::distance;
}

std::vector<PointPair> Placer::cornerPairs() {
    std::vector<PointPair> pairs;
    for (std::size_t i = 0; i < m_p.corners.size(); ++i) {
        const std::string field = "corners/" + std::to_string(i);
        const Vec2 at = pixel(m_p.corners[i], field);
        const bool sound = m_sound;
        pairs.push_back({at, Vec2::Zero(), errorOf(m_p.corners[i], field, m_click)});
        m_sound = sound;
    }
    return pairs;
}

void Placer::rectify() {
    m_sound = true;
    const double width = length(m_p.rectangle_width, "rectangle_width");
    const double height = length(m_p.rectangle_height, "rectangle_height");
    std::vector<PointPair> pairs = cornerPairs();
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
    const auto flat = homographyOf(pairs, m_click);
    if (!flat) return report(flat.error());
    stand(*flat, pairs);
    if (m_out.scale == Scale::none) return;
    for (std::size_t i = 0; i < pairs.size(); ++i)
        m_out.corners.push_back(point(m_p.corners[i].name, pairs[i].pixel, pairs[i].click));
    if (pairs.size() != 4) return;
    const MarkedRectangle marked{{pairs[0].pixel, pairs[1].pixel, pairs[2].pixel, pairs[3].pixel},
                                 width,
                                 height,
                                 Vec2(m_out.width, m_out.height),
                                 m_click,
                                 {pairs[0].click, pairs[1].click, pairs[2].click, pairs[3].click}};
    question(marked);
    if (const auto camera = cameraOf(marked)) m_out.camera = *camera;
}

/// What a camera can hardly have seen is told; the sides hold as they are typed.
void Placer::question(const MarkedRectangle& marked) {
    const auto doubt = doubtOf(marked);
    if (!doubt) return;
    const Error told = inWords(*doubt, marked, m_units);
    m_out.doubt = told.message + " " + told.remedy;
    report(told.code.c_str(), told.message, told.where, told.remedy);
}

/// Moves and turns the rectified picture by its two points, as far as they are marked.
void Placer::stand(const Homography& flat, const std::vector<PointPair>& pairs) {
    m_out.residual = flat.rms;
    const double usual = within(m_p.distance_error, "distance_error", m_click, mostClick);
    m_sound = true;
    const TwoPoints two = twoPoints(usual);
    if (!m_sound) return;
    const bool from = isMarked(m_p.from), both = from && isMarked(m_p.to);
    if (from && (!isBeforeHorizon(flat.fix, two.from, m_near) ||
                 (both && !isBeforeHorizon(flat.fix, two.to, m_near))))
        return beyond("its fixed point", "from");
    PlaneFix plane = flat.fix;
    if (both && two.distance > 0) compare(two, plane, pairs);
    const PlaneFix own = plane;
    TwoPoints used = two;
    if (!both ||
        !two.turn) { // no such line to turn: the rectangle's first side has the angle, or it stays upright
        plane = slab::placed(plane, Vec2::Zero(), hasLevel() ? std::nullopt : m_turn, m_near);
        used.turn.reset();
        if (auto level = oriented(plane, Vec2::Zero()))
            plane = std::move(*level);
        else
            report(level.error());
    }
    if (!from) {
        standOnLowest(std::move(plane));
    } else {
        if (!both) used.to = used.from;
        auto fix = slab::placed(plane, used);
        if (!fix) return report(fix.error());
        m_out.fix = std::move(*fix);
    }
    m_out.own = withOwnErrors(own, m_out.fix);
    m_out.scale = Scale::rectangle;
}

/// It stands on its lowest corner, wherever the marking began.
void Placer::standOnLowest(PlaneFix plane) {
    Vec2 low = Vec2::Constant(std::numeric_limits<double>::infinity());
    for (const PicturePoint& corner : m_p.corners)
        low = low.cwiseMin(toPlane(plane, pixel(corner, "corners")));
    m_out.fix = shifted(plane, low.allFinite() ? Vec2(m_at - low) : m_at);
}

/// A known distance that agrees makes the map surer; one that contradicts is told and changes nothing.
void Placer::compare(const TwoPoints& two, PlaneFix& flat, const std::vector<PointPair>& pairs) {
    const Measured found = measure(flat, two.from, two.to, two.click);
    PictureCheck check{two.distance, found, false, found.error};
    check.taken = check.errors() <= mostErrors;
    if (check.taken) {
        flat = takenIn(flat, {two.from, two.to, two.distance, two.click});
        check.after = measure(flat, two.from, two.to, two.click).error;
        double square = 0;
        for (const PointPair& p : pairs) square += (toPixel(flat, p.plane) - p.pixel).squaredNorm();
        m_out.residual = std::sqrt(square / (2 * static_cast<double>(pairs.size())));
    } else {
        report("picture-check",
               "the rectangle makes " + printFine(found.value, m_units) + " ± " +
                   printFine(found.error, m_units) + " of the distance given as " +
                   printFine(two.distance, m_units) + ".",
               "distance",
               "Check the rectangle's sides, its corners and the two points; both must lie in one plane.");
    }
    m_out.check = check;
}

void Placer::provisional() {
    // Of the whole picture, so that it stays where it is while it is cropped.
    const Box2 all = m_out.width > 0 ? Box2{Vec2::Zero(), Vec2(m_out.width, m_out.height)} : m_out.crop;
    const double longest = std::max(all.size().maxCoeff(), 1.0);
    const double scale = (all.size().maxCoeff() > 0 ? provisionalSize / longest : 1) *
                         (m_p.space == Space::subject ? m_scope.scale : 1);
    const Vec2 lower(all.min.x(), all.max.y());
    m_out.fix.map << scale, 0, m_at.x() - scale * lower.x(), 0, -scale, m_at.y() + scale * lower.y(), 0, 0, 1;
    if (auto level = oriented(m_out.fix, m_at)) m_out.fix = std::move(*level);
    m_out.fix.slopes.clear();
    m_out.own = m_out.fix;
}

} // namespace slab
