#include "core/mechanisms/turntable_deck.h"
#include "core/geometry/polygon.h"
#include "core/geometry/segment.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::mechanisms {

namespace {

using std::numbers::pi;
constexpr double flatSeat = 0.5; ///< mm, that a seat may be out of flat (common practice)

void addFace(std::vector<Polygon>& pieces, const TurntableFigures& t, const CrossedPlate& p) {
    for (std::size_t i = 0; i + 2 < p.triangles.size(); i += 3) {
        Ring ring;
        for (std::size_t k = 0; k < 3; ++k) ring.push_back(t.frame.toPlane(p.triangles[i + k]));
        if (signedArea(ring) < 0) std::reverse(ring.begin(), ring.end());
        pieces.push_back({std::move(ring), {}});
    }
}

/// The seat's plate with all that lies level beside it under the rings, as the turntable sees it.
std::vector<Polygon> wholeDeck(const MechanismInput& in, const TurntableFigures& t,
                               const CrossedPlate& seat) {
    std::vector<Polygon> pieces;
    for (const CrossedPlate& p :
         crossedPlates(in, {}, makeCylinder(t.onAxis(-2), t.onAxis(0), t.sizes.outside / 2)))
        if (p.outer.normal.dot(seat.outer.normal) > 0.999 &&
            std::abs(p.outer.offset - seat.outer.offset) <= flatSeat)
            addFace(pieces, t, p);
    return unite(pieces);
}

double outside(const std::vector<Polygon>& face, const Vec2& p) {
    double least = 1e300;
    for (const Polygon& part : face) {
        if (contains(part, p, 1e-6)) return 0;
        for (std::size_t i = 0; i < part.outer.size(); ++i)
            least = std::min(least, toSegment(p, part.outer[i], part.outer[(i + 1) % part.outer.size()]));
    }
    return least;
}

/// The shortest move that takes the rings off the edge: "Move it 22 mm back and 52 mm to starboard"; empty if
/// no move does.
template <class Overhang>
std::string moveIn(Reading& read, const TurntableFigures& t, const std::vector<Polygon>& face,
                   const Overhang& overhang) {
    Box2 box = bounds(face.front().outer);
    for (const Polygon& p : face) box = united(box, bounds(p.outer));
    const double radius = t.sizes.outside / 2;
    Vec2 by = Vec2::Zero();
    for (int k = 0; k < 2; ++k) {
        if (box.size()[k] < 2 * radius) return {}; // larger than the deck
        by[k] = std::max(0.0, box.min[k] + radius) - std::max(0.0, radius - box.max[k]);
        by[k] = by[k] > 0 ? std::ceil(by[k]) : std::floor(by[k]);
    }
    std::vector<Polygon> moved = face;
    for (Polygon& p : moved)
        for (Vec2& corner : p.outer) corner -= by;
    if (overhang(moved) > flatSeat) return {};
    std::string words;
    const auto add = [&](double mm, const char* way) {
        if (mm > 0) words += (words.empty() ? "Move it " : " and ") + read.words(mm) + " " + way;
    };
    add(by.x(), "ahead");
    add(-by.x(), "back");
    add(by.y(), "to port");
    add(-by.y(), "to starboard");
    return words;
}

} // namespace

/// Plates that its opening goes through.
std::vector<CrossedPlate> deckPlates(const MechanismInput& in, const TurntableFigures& t) {
    constexpr double grazing =
        0.26; // a plate within 15° of the axis is no deck: it is left whole and told as met
    const Vec3 axis = t.frame.axes.col(2);
    const double low = t.rings.rises ? -2 : std::min(t.drumLow(), -2.0); // mm: at least into the deck
    auto crossed =
        crossedPlates(in, {}, makeCylinder(t.onAxis(low), t.onAxis(0), std::max(t.sizes.seatHole / 2, 1.0)));
    std::erase_if(crossed,
                  [&](const CrossedPlate& p) { return std::abs(p.outer.normal.dot(axis)) < grazing; });
    return crossed;
}

namespace {

/// The face of a plate that looks along the axis: the outer one, or the inner one of a floor.
Plane faceAlong(const TurntableFigures& t, const CrossedPlate& p) {
    if (p.outer.normal.dot(t.frame.axes.col(2)) > 0) return p.outer;
    return {-p.outer.normal, p.thickness - p.outer.offset};
}

} // namespace

const CrossedPlate* seatPlate(const TurntableFigures& t, const std::vector<CrossedPlate>& crossed) {
    const CrossedPlate* seat = nullptr;
    double nearest = 1e300;
    for (const CrossedPlate& p : crossed) {
        const Plane face = faceAlong(t, p);
        const double off = std::abs(face.distance(t.frame.origin));
        // Of a floor the inner face counts only where it is meant: at once, not from far.
        const bool meant = face.normal == p.outer.normal || off <= p.thickness / 2;
        if (face.normal.dot(t.frame.axes.col(2)) > 0.5 && meant && off < nearest) {
            nearest = off;
            seat = &p;
        }
    }
    return seat;
}

/// A deck that its opening takes wholly holds no ring. @return false after a finding
bool checkDeckLeft(Reading& read, const TurntableFigures& t, const CrossedPlate* seat) {
    const double radius = t.sizes.seatHole / 2;
    const auto inOpening = [&](const Vec3& p) { return t.frame.toPlane(p).norm() <= radius; };
    if (!seat || !std::all_of(seat->triangles.begin(), seat->triangles.end(), inOpening)) return true;
    read.report(Severity::stop, "turntable-deck-small",
                "its opening of " + read.words(t.sizes.seatHole) + " takes all of " + seat->name +
                    ", on which its rings are to lie; it is not made",
                "diameter",
                "Take a smaller drum, or a deck that is larger than its rings, " +
                    read.words(t.sizes.outside) + " across.");
    return false;
}

/// The plate under the seat must be level with the axis's foot and square to it.
void checkSeat(Reading& read, const TurntableFigures& t, const CrossedPlate* seat) {
    if (!seat) {
        read.report(Severity::look, "turntable-no-deck", "no plate lies under its seat ring", "at",
                    "Put its place on the upper face of a plate, or put a plate there.");
        return;
    }
    const Plane face = faceAlong(t, *seat);
    const double lean = std::acos(std::clamp(face.normal.dot(t.frame.axes.col(2)), -1.0, 1.0));
    const double off = std::abs(face.distance(t.frame.origin)) + std::sin(lean) * t.sizes.outside / 2;
    if (off > flatSeat)
        read.report(
            Severity::look, "turntable-seat-uneven",
            "the seat ring stands off " + seat->name + " by up to " + read.words(off), "at",
            "Put its place on the plate's upper face, its axis square to it: a seat is flat to about " +
                read.words(flatSeat) + ".");
}

void checkOverhang(const MechanismInput& in, Reading& read, const TurntableFigures& t,
                   const CrossedPlate* seat) {
    if (!seat) return;
    const auto round = [](double radius, double turn) {
        return Vec2(radius * std::cos(2 * pi * turn), radius * std::sin(2 * pi * turn));
    };
    const auto overhang = [&](const std::vector<Polygon>& face) {
        constexpr int looks = 720;
        double over = 0;
        for (int i = 0; i < looks; ++i)
            over = std::max(over, outside(face, round(t.sizes.outside / 2, double(i) / looks)));
        return over;
    };
    std::vector<Polygon> face;
    addFace(face, t, *seat);
    if (overhang(face) <= flatSeat) return; // by far most often
    face = wholeDeck(in, t, *seat);
    if (face.empty()) return;
    const double over = overhang(face);
    if (over <= flatSeat) return;
    const std::vector<Vec2> places = screwPlaces(t, t.segments.value_or(1));
    const auto screws = places.size();
    const auto missing =
        std::count_if(places.begin(), places.end(), [&](const Vec2& p) { return outside(face, p) > 0; });
    const std::string move = moveIn(read, t, face, overhang);
    read.report(Severity::look, "turntable-overhang",
                "its rings, " + read.words(t.sizes.outside) + " across, stand up to " + read.words(over) +
                    " over the edge of " + seat->name +
                    (missing > 0 ? ", where " + std::to_string(missing) + " of " + std::to_string(screws) +
                                       (missing == 1 ? " screws finds no deck" : " screws find no deck")
                                 : std::string()),
                "at",
                (move.empty() ? "Make" : move + ", make") +
                    std::string(" its rings narrower, or put a plate of the deck's height beside it."));
}

void tellCutBelow(Reading& read, const TurntableFigures& t, const std::vector<CrossedPlate>& crossed,
                  const CrossedPlate* seat) {
    constexpr double shallow = 20; // mm: less is no drum
    const Vec3 axis = t.frame.axes.col(2);
    for (const CrossedPlate& p : crossed) {
        if (&p == seat || (seat && std::abs(p.outer.offset - seat->outer.offset) <= flatSeat &&
                           p.outer.normal.dot(seat->outer.normal) > 0.999))
            continue;
        // Of the plate's two faces the one that the drum comes to first, on the axis.
        const double square = p.outer.normal.dot(axis), outer = -p.outer.distance(t.frame.origin) / square,
                     inner = outer - p.thickness / square, high = std::max(outer, inner);
        const double depth = std::floor(t.lipBottom() - high - t.rings.gap);
        const bool ends = !t.rings.rises && depth >= shallow && depth < t.depth;
        read.report(Severity::look, "turntable-cuts-below",
                    "its drum goes through " + p.name + " too, which is opened for it by " +
                        read.words(t.sizes.seatHole),
                    "depth",
                    (ends ? "Make it " + read.words(depth) + " deep at most, so that it ends above"
                          : "Make it end before that plate") +
                        std::string(", or see that the plate holds with the opening."));
    }
}

} // namespace slab::mechanisms
