#include "core/frames/half_lap.h"
#include "core/frames/lap_shares.h"
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
        double low = 0, high = 0;
        double lowerTop = 0,
               upperBottom = 0; ///< ends of what each keeps: the middle, if only two cross there
        double barred = 0;      ///< that must be cut through elsewhere, mm
    };
    [[nodiscard]] std::optional<Lap> best() const {
        std::optional<Lap> best;
        for (const Span& l : m_lowerSpans)
            for (const Span& u : m_upperSpans) {
                Lap lap{l, u, std::max(l.low, u.low), std::min(l.high, u.high), 0, 0, 0};
                if (lap.high - lap.low < least) continue;
                lap.lowerTop = lap.upperBottom = (lap.low + lap.high) / 2;
                for (const Span& s : m_lowerSpans)
                    if (s.low > lap.lowerTop) lap.barred += s.length();
                for (const Span& s : m_upperSpans)
                    if (s.high < lap.upperBottom) lap.barred += s.length();
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
            if (s.high <= lap.lowerTop) continue;
            const bool own = s.low <= lap.lowerTop;
            open(m_lower, m_inLower, {own ? lap.lowerTop : s.low - through, s.high + through});
            keep(m_lower, m_inLower, s, webLower);
            if (!own) cutThrough.first.push_back(s);
        }
        for (const Span& s : m_upperSpans) {
            if (s.low >= lap.upperBottom) continue;
            const bool own = s.high >= lap.upperBottom;
            open(m_upper, m_inUpper, {s.low - through, own ? lap.upperBottom : s.high + through});
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
    Cutter(std::vector<Board>& boards, FrameSet& set) : m_boards(boards), m_set(set) {}

    std::vector<Held> run() {
        for (;;) {
            gather();
            const auto locked = chooseSides(m_pieces, m_laps);
            if (!locked) break;
            leaveOut(*locked);
        }
        std::vector<Stretch> stretches;
        for (const LapChoice& lap : m_laps) {
            inUnits(lap,
                    [&](const Crossing& c, const Meeting&, const auto&) { m_uncut.push_back(*c.best()); });
            stretches.push_back({m_uncut.back().low, m_uncut.back().high});
        }
        m_shares = sharedLaps(m_pieces, m_laps, stretches);
        for (std::size_t i = 0; i < m_laps.size(); ++i) cut(i);
        return std::move(m_held);
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
        m_held.push_back({m_pieces, locked});
        // Its slots would cut the others for nothing.
        unit(m_ids[locked.piece]) = {};
        ++m_boards[m_ids[locked.piece].board].leftOut;
    }

    /// Calls with the crossing of a lap's two units as they are, and the choices of the lower and the upper.
    template <class Do>
    void inUnits(const LapChoice& lap, const Do& call) {
        const std::size_t lower = lap.firstLower ? lap.first : lap.second,
                          upper = lap.firstLower ? lap.second : lap.first;
        const FrameChoice &a = *m_pieces[lower].choice, &b = *m_pieces[upper].choice;
        const Meeting meeting = *meetingOf(a, b); // else there were no lap
        const Strip inA = stripIn(a, b, meeting), inB = stripIn(b, a, meeting);
        Crossing crossing(unit(m_ids[lower]), unit(m_ids[upper]), inA, inB);
        call(crossing, meeting, std::pair(lower, upper));
    }
    void cut(std::size_t i) {
        inUnits(m_laps[i], [&](Crossing& crossing, const Meeting& meeting, const auto& lowerUpper) {
            const auto now = crossing.best();
            if (!now && !m_shares[i]) return;
            Crossing::Lap lap = m_shares[i] ? m_uncut[i] : *now;
            if (const auto& share = m_shares[i]) {
                lap.low = share->common.low;
                lap.high = share->common.high;
                lap.lowerTop = share->lowerTop;
                lap.upperBottom = share->upperBottom;
            }
            note(crossing, lap, lowerUpper, meeting, m_shares[i]);
        });
    }
    /// Width of a slot in a piece for those of a share that lie above it, or below.
    double sharedWidth(const LapShare& share, std::size_t piece, bool above) const {
        double low = 0, high = 0;
        const auto own = std::find(share.pieces.begin(), share.pieces.end(), piece);
        for (auto it = share.pieces.begin(); it != share.pieces.end(); ++it) {
            if (it == own || (it > own) != above) continue;
            const FrameChoice &a = *m_pieces[piece].choice, &b = *m_pieces[*it].choice;
            const Strip strip = stripIn(a, b, *meetingOf(a, b));
            const double at = strip.at.dot(Vec2(-strip.along.y(), strip.along.x()));
            low = high > low ? std::min(low, at - strip.half) : at - strip.half;
            high = high > low ? std::max(high, at + strip.half) : at + strip.half;
        }
        return high - low;
    }
    void note(Crossing& crossing, const Crossing::Lap& lap,
              const std::pair<std::size_t, std::size_t>& lowerUpper, const Meeting& meeting,
              const std::optional<LapShare>& share) {
        const FrameChoice &a = *m_pieces[lowerUpper.first].choice, &b = *m_pieces[lowerUpper.second].choice;
        const auto [lowerCut, upperCut] = crossing.cut(lap, a.web, b.web);
        FrameCrossing c;
        c.a = a.name;
        c.b = b.name;
        c.at = meeting.at + meeting.along * (lap.lowerTop + lap.upperBottom) / 2;
        c.along = meeting.along;
        c.angle = std::asin(std::min(1.0, meeting.sine));
        c.height = lap.high - lap.low;
        c.slotA = slotWidth(b.thickness, a.thickness, c.angle, a.fit);
        c.slotB = slotWidth(a.thickness, b.thickness, c.angle, b.fit);
        c.depthA = lap.lower.high - lap.lowerTop;
        c.depthB = lap.upperBottom - lap.upper.low;
        c.beforeA = lap.lower.high - lap.high;
        c.beforeB = lap.low - lap.upper.low;
        c.apart = lap.upperBottom - lap.lowerTop;
        if (share) {
            for (const std::size_t p : share->pieces) c.sharing.push_back(m_pieces[p].choice->name);
            c.slotA = sharedWidth(*share, lowerUpper.first, true);
            c.slotB = sharedWidth(*share, lowerUpper.second, false);
        }
        const auto add = [&](const std::string& name, const std::vector<Span>& spans) {
            for (const Span& s : spans)
                c.through.push_back({name, meeting.at + meeting.along * ((s.low + s.high) / 2), s.length()});
        };
        add(c.a, lowerCut);
        add(c.b, upperCut);
        m_set.crossings.push_back(std::move(c));
    }

    std::vector<Board>& m_boards;
    FrameSet& m_set;
    std::vector<Held> m_held;
    std::vector<UnitId> m_ids;
    std::vector<Piece> m_pieces;
    std::vector<LapChoice> m_laps;
    std::vector<Crossing::Lap> m_uncut;            ///< of each lap, before anything is cut
    std::vector<std::optional<LapShare>> m_shares; ///< of each lap
};

void checkLaps(const UnitStyle& units, FrameSet& set) {
    for (const FrameCrossing& c : set.crossings) {
        const std::vector<std::string> about{"frame:" + c.a, "frame:" + c.b};
        const double kept = c.height / static_cast<double>(std::max<std::size_t>(c.sharing.size(), 2));
        if (kept < 6 && c.apart < least)
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

std::vector<Held> cutSlots(std::vector<Board>& boards, const UnitStyle& units, FrameSet& set) {
    auto held = Cutter(boards, set).run();
    checkLaps(units, set);
    return held;
}

} // namespace slab::frames

namespace slab {

double slotWidth(double other, double own, double angle, double fit) {
    const double sine = std::sin(angle);
    return (other + fit + own * std::abs(std::cos(angle))) / sine;
}

} // namespace slab
