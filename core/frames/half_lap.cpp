#include "core/frames/half_lap.h"
#include "core/frames/lap_words.h"
#include <algorithm>
#include <cmath>

namespace slab::frames {

namespace {

constexpr double least = 1e-6; ///< mm: shorter stretches are rounding
constexpr double through = 1;  ///< mm that a slot is cut beyond the board's own edge

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

/// A unit of a board.
struct UnitId {
    std::size_t board = 0, unit = 0;
};

/// All pairs of units that are to lap, and how they are cut.
class Cutter {
public:
    Cutter(std::vector<Board>& boards, const UnitStyle& units, FrameSet& set)
        : m_boards(boards), m_units(units), m_set(set) {}

    void run() {
        for (;;) {
            gather();
            const auto locked = chooseSides(m_pieces, m_laps);
            if (!locked) break;
            leaveOut(*locked);
        }
        for (const LapChoice& lap : m_laps) cut(lap);
    }

private:
    Unit& unit(const UnitId& id) { return m_boards[id.board].units[id.unit]; }

    void gather() {
        m_pieces.clear();
        m_ids.clear();
        m_laps.clear();
        for (std::size_t b = 0; b < m_boards.size(); ++b)
            for (std::size_t u = 0; u < m_boards[b].units.size(); ++u) {
                m_ids.push_back({b, u});
                m_pieces.push_back({m_boards[b].choice, m_boards[b].units[u].regions});
            }
        for (std::size_t i = 0; i < m_ids.size(); ++i)
            for (std::size_t k = i + 1; k < m_ids.size(); ++k) addLap(i, k);
    }
    void addLap(std::size_t i, std::size_t k) {
        if (m_pieces[i].choice == m_pieces[k].choice) return;
        const FrameChoice &a = *m_pieces[i].choice, &b = *m_pieces[k].choice;
        const auto meeting = meetingOf(a, b);
        if (!meeting) return;
        const Strip inA = stripIn(a, b, *meeting), inB = stripIn(b, a, *meeting);
        Unit &ua = unit(m_ids[i]), &ub = unit(m_ids[k]);
        const auto up = Crossing(ua, ub, inA, inB).best(), down = Crossing(ub, ua, inB, inA).best();
        if (up && down) m_laps.push_back({i, k, meeting->along, up->barred, down->barred, true});
    }
    void leaveOut(const Locked& locked) {
        tellLocked(m_pieces, locked, m_units, m_set.findings);
        // Its slots would cut the others for nothing.
        unit(m_ids[locked.piece]) = {};
        ++m_boards[m_ids[locked.piece].board].leftOut;
    }

    void cut(const LapChoice& lap) {
        const std::size_t lower = lap.firstLower ? lap.first : lap.second,
                          upper = lap.firstLower ? lap.second : lap.first;
        const FrameChoice &a = *m_pieces[lower].choice, &b = *m_pieces[upper].choice;
        const auto meeting = meetingOf(a, b);
        if (!meeting) return;
        const Strip inA = stripIn(a, b, *meeting), inB = stripIn(b, a, *meeting);
        Crossing crossing(unit(m_ids[lower]), unit(m_ids[upper]), inA, inB);
        if (const auto best = crossing.best()) note(crossing, *best, {&a, &b}, *meeting);
    }
    void note(Crossing& crossing, const Crossing::Lap& lap,
              const std::pair<const FrameChoice*, const FrameChoice*>& lowerUpper, const Meeting& meeting) {
        const FrameChoice &a = *lowerUpper.first, &b = *lowerUpper.second;
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
        m_set.crossings.push_back(std::move(c));
    }

    std::vector<Board>& m_boards;
    const UnitStyle& m_units;
    FrameSet& m_set;
    std::vector<UnitId> m_ids;
    std::vector<Piece> m_pieces;
    std::vector<LapChoice> m_laps;
};

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

bool lap(const Board& a, const Board& b) {
    const auto meeting = meetingOf(*a.choice, *b.choice);
    if (!meeting) return false;
    FrameChoice first = *a.choice, second = *b.choice;
    first.fit = second.fit = 0; // whether they meet is no matter of the fit
    const Strip inA = stripIn(first, second, *meeting), inB = stripIn(second, first, *meeting);
    for (Unit ua : a.units)
        for (Unit ub : b.units)
            if (Crossing(ua, ub, inA, inB).best()) return true;
    return false;
}

void cutSlots(std::vector<Board>& boards, const UnitStyle& units, FrameSet& set) {
    Cutter(boards, units, set).run();
    checkLaps(units, set);
}

} // namespace slab::frames

namespace slab {

double slotWidth(double other, double own, double angle, double fit) {
    const double sine = std::sin(angle);
    return (other + fit + own * std::abs(std::cos(angle))) / sine;
}

} // namespace slab
