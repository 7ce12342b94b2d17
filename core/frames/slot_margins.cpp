#include "core/frames/slot_margins.h"
#include "core/frames/narrow_places.h"
#include "core/frames/way_words.h"
#include "core/plates/margins.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

constexpr double counted = 0.75; ///< of the depth: a sloping edge at the mouth makes no horn
constexpr double wall = 1e-3;    ///< mm

/// A slot in its board's plane.
struct SlotFrame {
    Vec2 bottom, out, across; ///< middle of its end; unit vectors to its mouth and along the board
    double half = 0, depth = 0;
    [[nodiscard]] Vec2 corner(double a, double s) const { return bottom + a * across + s * out; }
};
SlotFrame slotIn(const Plate& board, const FrameCrossing& c) {
    const bool isA = board.name == c.boardA;
    const Vec3 mouth = board.frame.axes.transpose() * (isA ? c.along : Vec3(-c.along));
    const Vec2 out = mouth.head<2>().normalized();
    return {board.frame.toPlane(c.at),
            out,
            {-out.y(), out.x()},
            (isA ? c.slotA : c.slotB) / 2,
            isA ? c.depthA : c.depthB};
}

} // namespace

std::optional<SlotHorn> thinHorn(const Plate& board, const FrameCrossing& c, double within) {
    const SlotFrame slot = slotIn(board, c);
    const double half = slot.half, depth = slot.depth;
    const Vec2 &bottom = slot.bottom, &across = slot.across;
    std::optional<SlotHorn> horn;
    for (const double side : {1.0, -1.0}) {
        const auto corner = [&](double a, double s) { return slot.corner(side * a, s); };
        Ring strip{corner(half, 0), corner(half + within, 0), corner(half + within, counted * depth),
                   corner(half, counted * depth)};
        if (signedArea(strip) < 0) strip = reversed(strip);
        for (const Polygon& free : subtract({{strip, {}}}, {{board.boundary.outer, {}}})) {
            double least = within;
            Vec2 where = bottom;
            for (const Vec2& p : free.outer) {
                const double width = side * (p - bottom).dot(across) - half;
                if (width >= least) continue;
                least = width;
                where = p;
            }
            if (least < wall || least > within - wall || (horn && horn->width <= least)) continue;
            horn = SlotHorn{least, depth, board.frame.toBody(where)};
        }
    }
    return horn;
}

namespace {

struct Gap {
    double low = 0, high = 0;
};
/// Stretches along a board, measured from a slot's middle, over which it is whole beside the slot's depth.
std::vector<Gap> wholeBeside(const Plate& board, const SlotFrame& slot) {
    constexpr double far = 1e5, beyond = 0.5; // mm
    const auto rectangle = [&](double half, double low, double high) {
        Ring r{slot.corner(-half, low), slot.corner(half, low), slot.corner(half, high),
               slot.corner(-half, high)};
        return Polygon{signedArea(r) < 0 ? reversed(r) : r, {}};
    };
    std::vector<Gap> gaps{{-far, far}};
    const auto filled = unite({{board.boundary.outer, {}}, rectangle(slot.half + 1e-3, -beyond, slot.depth)});
    for (const Polygon& open : subtract({rectangle(far, 0, counted * slot.depth)}, filled)) {
        double low = far, high = -far;
        for (const Vec2& p : open.outer) {
            low = std::min(low, (p - slot.bottom).dot(slot.across));
            high = std::max(high, (p - slot.bottom).dot(slot.across));
        }
        std::vector<Gap> left;
        for (const Gap& g : gaps) {
            if (g.low < low) left.push_back({g.low, std::min(g.high, low)});
            if (g.high > high) left.push_back({std::max(g.low, high), g.high});
        }
        gaps = std::move(left);
    }
    return gaps;
}

} // namespace

std::optional<double> moveForMargin(const Plate& board, const Plate& inSlot, const FrameCrossing& c,
                                    double wanted) {
    const SlotFrame slot = slotIn(board, c);
    const double need = slot.half + wanted;
    const Vec3 across = board.frame.axes.col(0) * slot.across.x() + board.frame.axes.col(1) * slot.across.y();
    const double perShift = across.dot(inSlot.frame.axes.col(2)); // of the plane, for 1 mm along the board
    std::optional<double> best;
    for (const Gap& gap : wholeBeside(board, slot)) {
        const double low = gap.low + need, high = gap.high - need;
        const double shift = std::clamp(0.0, std::min(low, high), std::max(low, high)) * perShift;
        const double move = std::copysign(std::ceil(std::abs(shift) - 1e-6), shift);
        if (low > move / perShift + 1e-6 || high < move / perShift - 1e-6) continue;
        if (!best || std::abs(move) < std::abs(*best)) best = move;
    }
    return best;
}

namespace {

class Looker {
public:
    Looker(const FrameSet& set, const StockSet& stock, const UnitStyle& units)
        : m_set(set), m_stock(stock), m_units(units) {}

    std::vector<Finding> look() {
        for (const FrameCrossing& c : m_set.crossings)
            for (const Plate& board : m_set.parts) // a slot for several is told with the one next to it
                if (c.apart < wall && (board.name == c.boardA || board.name == c.boardB)) beside(board, c);
        for (const Plate& board : m_set.parts) elsewhere(board);
        return std::move(m_findings);
    }

private:
    void beside(const Plate& board, const FrameCrossing& c) {
        const bool isA = board.name == c.boardA;
        const double wanted = leastWeb(m_stock.find(board.stock), board.thickness, isA ? c.slotA : c.slotB);
        const auto horn = thinHorn(board, c, wanted);
        if (!horn) return;
        const std::string &own = isA ? c.a : c.b, &other = isA ? c.b : c.a;
        m_told.push_back({board.name, board.frame.toPlane(horn->at)});
        m_findings.push_back({Severity::look,
                              "frame-horn",
                              "Frame " + own + ": beside the slot for " + other + " only " +
                                  printFine(horn->width, m_units) + " of " + shortBoard(board.name) +
                                  " are left, " + printLength(horn->depth, m_units) +
                                  " long: they break off easily.",
                              {"frame:" + own, "frame:" + other},
                              remedyFor(board, c, wanted),
                              std::array<double, 3>{horn->at.x(), horn->at.y(), horn->at.z()}});
    }
    [[nodiscard]] std::string remedyFor(const Plate& board, const FrameCrossing& c, double wanted) const {
        const std::string &slotted = board.name == c.boardA ? c.boardB : c.boardA,
                          &other = board.name == c.boardA ? c.b : c.a;
        for (const Plate& inSlot : m_set.parts) {
            if (inSlot.name != slotted) continue;
            const auto move = moveForMargin(board, inSlot, c, wanted);
            if (!move) break;
            const Vec3 way = std::copysign(1.0, *move) * inSlot.frame.axes.col(2);
            return "Move frame " + other + " " + printLength(std::abs(*move), m_units) + " " +
                   facingWords(way) + ", so that " + printLength(wanted, m_units) +
                   " are left on both sides of the slot, or glue a second layer onto the strip.";
        }
        return shortBoard(board.name) + " is too narrow there to leave " + printLength(wanted, m_units) +
               " on both sides of a slot, wherever " + other +
               " stands: glue a second layer of the same sheet onto it on both sides of the slot, or do "
               "without that board.";
    }

    [[nodiscard]] bool toldAt(const Plate& board, const frames::NarrowPlace& place) const {
        return std::any_of(m_told.begin(), m_told.end(), [&](const auto& told) {
            return told.first == board.name &&
                   (told.second - place.at).norm() < place.length / 2 + 2 * place.width;
        });
    }
    [[nodiscard]] double leastOf(const Plate& board) const {
        const Sheet* sheet = m_stock.find(board.stock);
        const double least = leastWeb(sheet, board.thickness, board.thickness);
        for (const FrameFact& f : m_set.frames)
            if (board.form == "frames/" + f.name && f.web > 0)
                return std::min(least, std::max({f.web, 10.0, board.thickness}));
        return least;
    }
    /// Frames whose slots in this board end or run beside a narrow place: a second layer would bar them.
    [[nodiscard]] std::string slotsBeside(const Plate& board, const frames::NarrowPlace& place) const {
        std::string names;
        for (const FrameCrossing& c : m_set.crossings) {
            if (board.name != c.boardA && board.name != c.boardB) continue;
            const SlotFrame slot = slotIn(board, c);
            const Vec2 d = place.at - slot.bottom;
            const double reach = place.width / 2 + board.thickness;
            if (std::abs(d.dot(slot.across)) > slot.half + reach || d.dot(slot.out) < -reach ||
                d.dot(slot.out) > slot.depth + reach)
                continue;
            names += (names.empty() ? "" : " or ") + (board.name == c.boardA ? c.b : c.a);
        }
        return names;
    }
    [[nodiscard]] std::string narrowRemedy(const Plate& board, const frames::NarrowPlace& place) const {
        const std::string left = "so that " + printLength(leastOf(board), m_units) + " are left.";
        const std::string slots = slotsBeside(board, place);
        if (!slots.empty())
            return "Move frame " + slots + ", whose slot is beside it, " + left +
                   " A second layer would close the slot.";
        return "Glue a second layer of the same sheet onto it there, well past both ends of the narrow "
               "place; or move the frame, or ask for another clearance or web, " +
               left;
    }
    void elsewhere(const Plate& board) {
        Polygon region{board.boundary.outer, {}};
        for (const PanelLoop& hole : board.holes) region.holes.push_back(hole.outer);
        auto places = frames::narrowPlaces(region, leastOf(board));
        std::erase_if(places, [&](const frames::NarrowPlace& p) { return toldAt(board, p); });
        if (places.empty()) return;
        const frames::NarrowPlace& worst = places.front();
        const std::string frame = "frame:" + board.form.substr(std::string("frames/").size());
        const Vec3 at = board.frame.toBody(worst.at);
        std::string words = "Frame " + frame.substr(6) + ": " + shortBoard(board.name) + " is only " +
                            printFine(worst.width, m_units) + " wide ";
        words += worst.freeEnd ? "over " + printLength(worst.length, m_units) + " up to a free end, "
                               : "over " + printLength(worst.length, m_units) + ", ";
        words += "at x " + printLength(at.x(), m_units) + ", y " + printLength(at.y(), m_units) + ", z " +
                 printLength(at.z(), m_units) + ": it breaks easily there";
        if (places.size() > 1)
            words += ", and in " + std::to_string(places.size() - 1) +
                     (places.size() == 2 ? " more place" : " more places");
        m_findings.push_back({Severity::look,
                              "frame-narrow",
                              words + ".",
                              {frame},
                              narrowRemedy(board, worst),
                              std::array<double, 3>{at.x(), at.y(), at.z()}});
    }

    const FrameSet& m_set;
    const StockSet& m_stock;
    const UnitStyle& m_units;
    std::vector<std::pair<std::string, Vec2>> m_told; ///< board and place
    std::vector<Finding> m_findings;
};

} // namespace

std::vector<Finding> hornFindings(const FrameSet& set, const StockSet& stock, const UnitStyle& units) {
    return Looker(set, stock, units).look();
}

} // namespace slab
