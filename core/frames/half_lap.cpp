#include "core/frames/half_lap.h"
#include <algorithm>
#include <cmath>

namespace slab::frames {

namespace {

/// Where one board meets the middle plane of another: a strip of its own plane.
struct Strip {
    Vec2 at, along;  ///< a point of the line in which the planes meet, and its direction
    double half = 0; ///< half the slot's width
};

struct Span {
    double low = 0, high = 0;
};

Ring rectangle(const Strip& s, double low, double high) {
    const Vec2 across(-s.along.y(), s.along.x());
    return {s.at + s.along * low + across * s.half, s.at + s.along * low - across * s.half,
            s.at + s.along * high - across * s.half, s.at + s.along * high + across * s.half};
}

/// Stretches of the strip on which the board has material, rising.
std::vector<Span> spansOf(const Board& board, const Strip& strip) {
    constexpr double far = 1e5;
    std::vector<Span> spans;
    Ring all = rectangle(strip, -far, far);
    if (signedArea(all) < 0) all = reversed(all);
    for (const Polygon& piece : intersect(board.regions, {{all, {}}})) {
        Span span{1e300, -1e300};
        for (const Vec2& p : piece.outer) {
            const double s = (p - strip.at).dot(strip.along);
            span.low = std::min(span.low, s);
            span.high = std::max(span.high, s);
        }
        spans.push_back(span);
    }
    std::sort(spans.begin(), spans.end(), [](const Span& l, const Span& r) { return l.low < r.low; });
    return spans;
}

void cut(Board& board, const Strip& strip, double low, double high) {
    Ring slot = rectangle(strip, low, high);
    if (signedArea(slot) < 0) slot = reversed(slot);
    board.regions = subtract(board.regions, {{slot, {}}});
}

/// Line in which the two middle planes meet, pointing up where it can.
struct Meeting {
    Vec3 at, along;
    double sine = 0; ///< of the angle between the boards
};
std::optional<Meeting> meetingOf(const FrameChoice& a, const FrameChoice& b) {
    const Vec3 na = a.place.axes.col(2), nb = b.place.axes.col(2);
    Vec3 along = na.cross(nb);
    const double sine = along.norm();
    if (sine < 0.17) return {}; // within 10° of parallel: no half lap holds
    along /= sine;
    if (along.z() < -1e-9 || (std::abs(along.z()) <= 1e-9 && along.x() + along.y() < 0)) along = -along;
    Mat3 m;
    m << na.transpose(), nb.transpose(), along.transpose();
    const Vec3 at = m.partialPivLu().solve(Vec3(na.dot(a.place.origin), nb.dot(b.place.origin), 0));
    return Meeting{at, along, sine};
}

/// A slot with square walls that lets a slanting board through.
Strip stripIn(const FrameChoice& own, const FrameChoice& other, const Meeting& m) {
    const double cosine = std::sqrt(std::max(0.0, 1 - m.sine * m.sine));
    const Vec2 along = (own.place.axes.transpose() * m.along).head<2>();
    const double width = other.thickness / m.sine + own.thickness * cosine / m.sine + own.fit;
    return {own.place.toPlane(m.at), along.normalized(), width / 2};
}

void lap(Board& a, Board& b, FrameSet& set) {
    const auto meeting = meetingOf(*a.choice, *b.choice);
    if (!meeting) return;
    const Strip inA = stripIn(*a.choice, *b.choice, *meeting), inB = stripIn(*b.choice, *a.choice, *meeting);
    const auto spansA = spansOf(a, inA), spansB = spansOf(b, inB);
    for (const Span& sa : spansA)
        for (const Span& sb : spansB) {
            const double low = std::max(sa.low, sb.low), high = std::min(sa.high, sb.high);
            if (high - low < 1e-6) continue;
            const double middle = (low + high) / 2;
            constexpr double through = 1; // mm beyond the board's own edge
            cut(a, inA, middle, sa.high + through);
            cut(b, inB, sb.low - through, middle);
            set.crossings.push_back({a.choice->name, b.choice->name, meeting->at + meeting->along * middle,
                                     meeting->along, high - low, 2 * inA.half, 2 * inB.half});
        }
}

void checkSlots(const UnitStyle& units, FrameSet& set) {
    for (const FrameCrossing& c : set.crossings) {
        if (c.height >= 12) continue;
        set.findings.push_back({Severity::look,
                                "frame-lap-short",
                                "Frames " + c.a + " and " + c.b + " overlap by only " +
                                    printLength(c.height, units) + ": the half lap hardly holds.",
                                {"frame:" + c.a, "frame:" + c.b},
                                "Give them a wider web, or move one of them.",
                                {{c.at.x(), c.at.y(), c.at.z()}}});
    }
}

} // namespace

void cutSlots(std::vector<Board>& boards, const UnitStyle& units, FrameSet& set) {
    for (std::size_t i = 0; i < boards.size(); ++i)
        for (std::size_t k = i + 1; k < boards.size(); ++k) lap(boards[i], boards[k], set);
    checkSlots(units, set);
}

} // namespace slab::frames
