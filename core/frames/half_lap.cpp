#include "core/frames/half_lap.h"
#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

namespace slab::frames {

namespace {

constexpr double least = 1e-6;  ///< mm: shorter stretches are rounding
constexpr double through = 1;   ///< mm that a slot is cut beyond the board's own edge
constexpr double flattest = 10; ///< degrees between two boards: below, no half lap holds

/// Where one board meets the middle plane of another: a strip of its own plane.
struct Strip {
    Vec2 at, along;  ///< a point of the line in which the planes meet, and its direction
    double half = 0; ///< half the slot's width
};

struct Span {
    double low = 0, high = 0;
    [[nodiscard]] double length() const { return high - low; }
};

Polygon rectangle(const Strip& s, double half, double low, double high) {
    const Vec2 across(-s.along.y(), s.along.x());
    Ring ring{s.at + s.along * low + across * half, s.at + s.along * low - across * half,
              s.at + s.along * high - across * half, s.at + s.along * high + across * half};
    if (signedArea(ring) < 0) ring = reversed(ring);
    return {std::move(ring), {}};
}

/// Stretches of the strip on which there is material, rising.
std::vector<Span> spansOf(const std::vector<Polygon>& regions, const Strip& strip) {
    constexpr double far = 1e5;
    std::vector<Span> spans;
    for (const Polygon& piece : intersect(regions, {rectangle(strip, strip.half, -far, far)})) {
        Span span{1e300, -1e300};
        for (const Vec2& p : piece.outer) {
            const double s = (p - strip.at).dot(strip.along);
            span.low = std::min(span.low, s);
            span.high = std::max(span.high, s);
        }
        spans.push_back(span);
    }
    std::sort(spans.begin(), spans.end(), [](const Span& l, const Span& r) { return l.low < r.low; });
    std::vector<Span> merged; // beside each other in the strip, they bar the way as one
    for (const Span& span : spans)
        if (!merged.empty() && span.low <= merged.back().high + least)
            merged.back().high = std::max(merged.back().high, span.high);
        else
            merged.push_back(span);
    return merged;
}

/// Line in which the two middle planes meet, pointing up where it can.
struct Meeting {
    Vec3 at, along;
    double sine = 0; ///< of the angle between the boards
};
std::optional<Meeting> meetingOf(const FrameChoice& a, const FrameChoice& b) {
    const Vec3 na = a.place.axes.col(2), nb = b.place.axes.col(2);
    Vec3 along = na.cross(nb);
    if (!lapHolds(a, b)) return {};
    const double sine = along.norm();
    along /= sine;
    if (along.z() < -1e-9 || (std::abs(along.z()) <= 1e-9 && along.x() + along.y() < 0)) along = -along;
    Mat3 m;
    m << na.transpose(), nb.transpose(), along.transpose();
    const Vec3 at = m.partialPivLu().solve(Vec3(na.dot(a.place.origin), nb.dot(b.place.origin), 0));
    return Meeting{at, along, sine};
}

Strip stripIn(const FrameChoice& own, const FrameChoice& other, const Meeting& m) {
    const Vec2 along = (own.place.axes.transpose() * m.along).head<2>();
    const double angle = std::asin(std::min(1.0, m.sine));
    return {own.place.toPlane(m.at), along.normalized(),
            slotWidth(other.thickness, own.thickness, angle, own.fit) / 2};
}

/// The two units that meet, and what is to be cut.
class Crossing {
public:
    Crossing(Unit& lower, Unit& upper, const Strip& inLower, const Strip& inUpper)
        : m_lower(lower), m_upper(upper), m_inLower(inLower), m_inUpper(inUpper),
          m_lowerSpans(spansOf(lower.regions, inLower)), m_upperSpans(spansOf(upper.regions, inUpper)) {}

    /// A half lap in one stretch in which both have material: the lower keeps what is below its middle, the
    /// upper what is above. What else bars the upper one's way along the line is cut through.
    struct Lap {
        Span lower, upper; ///< stretches of the two
        double low = 0, high = 0, middle = 0;
        double barred = 0; ///< that must be cut through elsewhere, mm
    };
    [[nodiscard]] std::optional<Lap> best() const {
        std::optional<Lap> best;
        for (const Span& l : m_lowerSpans)
            for (const Span& u : m_upperSpans) {
                Lap lap{l, u, std::max(l.low, u.low), std::min(l.high, u.high), 0, 0};
                if (lap.high - lap.low < least) continue;
                lap.middle = (lap.low + lap.high) / 2;
                for (const Span& s : m_lowerSpans)
                    if (s.low > lap.middle) lap.barred += s.length();
                for (const Span& s : m_upperSpans)
                    if (s.high < lap.middle) lap.barred += s.length();
                const bool better =
                    !best || lap.barred < best->barred - least ||
                    (lap.barred < best->barred + least && lap.high - lap.low > best->high - best->low);
                if (better) best = lap;
            }
        return best;
    }
    /// @return stretches that are cut through: of the lower and of the upper
    std::pair<std::vector<Span>, std::vector<Span>> cut(const Lap& lap, double webLower, double webUpper) {
        std::pair<std::vector<Span>, std::vector<Span>> cutThrough;
        for (const Span& s : m_lowerSpans) {
            if (s.high <= lap.middle) continue;
            const bool own = s.low <= lap.middle;
            open(m_lower, m_inLower, {own ? lap.middle : s.low - through, s.high + through});
            keep(m_lower, m_inLower, s, webLower);
            if (!own) cutThrough.first.push_back(s);
        }
        for (const Span& s : m_upperSpans) {
            if (s.low >= lap.middle) continue;
            const bool own = s.high >= lap.middle;
            open(m_upper, m_inUpper, {s.low - through, own ? lap.middle : s.high + through});
            keep(m_upper, m_inUpper, s, webUpper);
            if (!own) cutThrough.second.push_back(s);
        }
        return cutThrough;
    }

private:
    static void open(Unit& unit, const Strip& strip, const Span& span) {
        unit.regions = subtract(unit.regions, {rectangle(strip, strip.half, span.low, span.high)});
    }
    static void keep(Unit& unit, const Strip& strip, const Span& span, double web) {
        if (web > 0) unit.keep.push_back(rectangle(strip, strip.half + web, span.low - web, span.high + web));
    }
    Unit &m_lower, &m_upper;
    const Strip &m_inLower, &m_inUpper;
    std::vector<Span> m_lowerSpans, m_upperSpans;
};

/// One way to cut all boards.
struct Cutting {
    std::vector<Board> boards;
    std::vector<FrameCrossing> crossings;
    std::vector<LapPair> laps;

    void lap(std::size_t first, std::size_t second) {
        const FrameChoice &a = *boards[first].choice, &b = *boards[second].choice;
        const auto meeting = meetingOf(a, b);
        if (!meeting) return;
        const Strip inA = stripIn(a, b, *meeting), inB = stripIn(b, a, *meeting);
        for (std::size_t i = 0; i < boards[first].units.size(); ++i)
            for (std::size_t k = 0; k < boards[second].units.size(); ++k) {
                Unit &ua = boards[first].units[i], &ub = boards[second].units[k];
                Crossing over(ua, ub, inA, inB), under(ub, ua, inB, inA);
                const auto up = over.best(), down = under.best();
                if (!up || !down) continue;
                // The first is slotted from above unless more must be cut through for that.
                if (up->barred <= down->barred + least)
                    note(over, *up, {first, i}, {second, k}, *meeting);
                else
                    note(under, *down, {second, k}, {first, i}, *meeting);
            }
    }

private:
    void note(Crossing& crossing, const Crossing::Lap& lap, std::pair<std::size_t, std::size_t> lower,
              std::pair<std::size_t, std::size_t> upper, const Meeting& meeting) {
        const FrameChoice &a = *boards[lower.first].choice, &b = *boards[upper.first].choice;
        const auto [lowerCut, upperCut] = crossing.cut(lap, a.web, b.web);
        FrameCrossing c;
        c.a = a.name;
        c.b = b.name;
        c.at = meeting.at + meeting.along * lap.middle;
        c.along = meeting.along;
        c.angle = std::asin(std::min(1.0, meeting.sine));
        c.height = lap.high - lap.low;
        c.slotA = slotWidth(b.thickness, a.thickness, c.angle, a.fit);
        c.slotB = slotWidth(a.thickness, b.thickness, c.angle, b.fit);
        c.depthA = lap.lower.high - lap.middle;
        c.depthB = lap.middle - lap.upper.low;
        const auto add = [&](const std::string& name, const std::vector<Span>& spans) {
            for (const Span& s : spans)
                c.through.push_back({name, meeting.at + meeting.along * ((s.low + s.high) / 2), s.length()});
        };
        add(c.a, lowerCut);
        add(c.b, upperCut);
        crossings.push_back(std::move(c));
        laps.push_back({lower, upper, meeting.along});
    }
};

Cutting cutInOrder(const std::vector<Board>& boards, const std::vector<std::size_t>& order) {
    Cutting cutting{boards, {}, {}};
    for (std::size_t i = 0; i < order.size(); ++i)
        for (std::size_t k = i + 1; k < order.size(); ++k) cutting.lap(order[i], order[k]);
    return cutting;
}

void checkLaps(const UnitStyle& units, FrameSet& set) {
    for (const FrameCrossing& c : set.crossings) {
        const std::vector<std::string> about{"frame:" + c.a, "frame:" + c.b};
        if (c.height < 12)
            set.findings.push_back({Severity::look,
                                    "frame-lap-short",
                                    "Frames " + c.a + " and " + c.b + " overlap by only " +
                                        printLength(c.height, units) + ": the half lap hardly holds.",
                                    about,
                                    "Make one of them taller there, or move one of them.",
                                    {{c.at.x(), c.at.y(), c.at.z()}}});
        for (const FrameCrossing::Through& t : c.through)
            set.findings.push_back(
                {Severity::look,
                 "frame-cut-through",
                 "Frames " + c.a + " and " + c.b +
                     " meet in more than one stretch, and two half laps cannot " + "slide together: over " +
                     printLength(t.height, units) + " " + t.frame +
                     " is cut through and stands against the other on both sides.",
                 about,
                 "Glue corner blocks into the corners there, or ask for less clearance or move a frame, so "
                 "that they meet in one stretch.",
                 {{t.at.x(), t.at.y(), t.at.z()}}});
    }
}

} // namespace

bool lapHolds(const FrameChoice& a, const FrameChoice& b) {
    return a.place.axes.col(2).cross(b.place.axes.col(2)).norm() >=
           std::sin(flattest * std::numbers::pi / 180);
}

namespace {

/// The boards cut in the listed order, or in another if only then they go together.
Cutting cutTogether(const std::vector<Board>& boards, const std::vector<std::size_t>& listed) {
    std::vector<std::size_t> order = listed;
    Cutting first = cutInOrder(boards, order);
    auto stuck = stuckBoard(first.laps);
    for (std::size_t round = 0; stuck && round < 2 * order.size(); ++round) {
        // It goes in first, so that the others slide onto it one by one.
        const auto it = std::find(order.begin(), order.end(), *stuck);
        std::rotate(order.begin(), it, it + 1);
        Cutting other = cutInOrder(boards, order);
        stuck = stuckBoard(other.laps);
        if (!stuck) return other;
    }
    return first;
}

} // namespace

void cutSlots(std::vector<Board>& boards, const UnitStyle& units, FrameSet& set) {
    std::vector<std::size_t> listed(boards.size());
    std::iota(listed.begin(), listed.end(), 0);
    Cutting cutting = cutTogether(boards, listed);
    // What cannot go in is left out: its slots would cut the others for nothing, and they have an order.
    for (auto stuck = stuckBoard(cutting.laps); stuck; stuck = stuckBoard(cutting.laps)) {
        const FrameChoice& c = *boards[*stuck].choice;
        set.findings.push_back({Severity::stop,
                                "frame-order",
                                "Frame " + c.name +
                                    ": in no order do all frames slide together; it would have to slide onto "
                                    "two others in different directions at once. It is left out.",
                                {"frame:" + c.name, "document:/frames/" + std::to_string(c.index)},
                                "Turn it so that its laps are parallel, let it end before one of the others, "
                                "or make it in two pieces.",
                                {}});
        boards[*stuck].units.clear();
        std::erase(listed, *stuck);
        cutting = cutTogether(boards, listed);
    }
    for (const std::size_t i : buildOrder(cutting.laps, boards.size()))
        if (std::find(listed.begin(), listed.end(), i) != listed.end())
            set.order.push_back(boards[i].choice->name);
    boards = std::move(cutting.boards);
    set.crossings = std::move(cutting.crossings);
    checkLaps(units, set);
}

} // namespace slab::frames

namespace slab {

double slotWidth(double other, double own, double angle, double fit) {
    const double sine = std::sin(angle);
    return (other + fit + own * std::abs(std::cos(angle))) / sine;
}

} // namespace slab
