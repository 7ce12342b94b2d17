// The cheeks that hold a trunnion's tube: what they stand on, and how wide they are there.
#include "core/mechanisms/footing.h"
#include "core/mechanisms/part.h"
#include "core/mechanisms/trunnion.h"
#include "core/plates/facets.h"
#include "core/plates/margins.h"
#include "core/plates/outline.h"
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace slab::mechanisms {

namespace {

using std::numbers::pi;

constexpr double boltHole = pivotBolt + 0.5; ///< mm, drilled (common practice)
constexpr double leastUpright = 0.5;         ///< cosine of a turntable's lean: 60°

/// From the pivot to the nearest edge of a cheek, by the rule of least edge distance.
double cheekWeb(const TrunnionFigures& t) {
    return boltHole / 2 + leastWeb(&*t.cheek, t.cheek->thickness, boltHole);
}

/// What the cheeks stand on: how far below the pivot, and whether on the turntable's lip.
struct CheekFoot {
    double below = 0;
    bool onLip = false, onNothing = false;
    double ahead = 0, beside = 0; ///< by how much it falls there for 1 mm ahead, and to port
};

/// @param normal  of what is stood on, body axes
CheekFoot footOn(const TrunnionFigures& t, double below, bool onLip, const Vec3& normal) {
    const Vec3 n = t.frame.axes.transpose() * normal;
    const auto slope = [&](double along) { return std::abs(along) < 1e-12 ? 0 : along / n.z(); };
    return {below, onLip, false, slope(n.x()), slope(n.y())};
}
/// A cheek from `inside` to `outside` to port, its foot cut square where its higher edge stands.
CheekFoot under(CheekFoot foot, double inside, double outside) {
    foot.below += std::min(foot.beside * inside, foot.beside * outside);
    return foot;
}

/// The highest of: the turntable's lip (the top of a drum that rises), a plate that the tube could pass; else
/// a foot of one and a half diameters, or what the bolt needs, on nothing.
CheekFoot footOf(const MechanismInput& in, const MechanismSet& set, const TrunnionFigures& t) {
    CheekFoot foot{std::max(1.5 * t.load.diameter, cheekWeb(t)), false, true};
    const auto plate = plateBelow(in, t.frame.origin, t.frame.axes.col(2), t.load.diameter / 2,
                                  [&](const std::string& name) { return mayPass(in, t, name); });
    if (plate) foot = footOn(t, plate->below, false, plate->normal);
    if (!t.table) return foot;
    double top = -1e300; // of what turns, above the turntable's deck
    for (const MechanismFact& f : set.facts)
        if (f.mechanism == t.table->name && (f.key == "lip_top" || f.key == "drum_top"))
            top = std::max(top, f.value);
    const Move& turn = set.motions[static_cast<std::size_t>(t.turnsWith)].moves.front();
    const double upright = turn.axis.dot(t.frame.axes.col(2));
    if (upright < leastUpright) return foot;
    const double below = ((t.frame.origin - turn.at).dot(turn.axis) - top) / upright;
    if (below > t.load.diameter / 2 && below < 1e299 && (!plate || below < plate->below))
        foot = footOn(t, below, true, turn.axis);
    return foot;
}

/// Corners of the feet of both cheeks as the turntable sees them along its axis.
std::vector<Vec2> feetOn(const Move& turn, const TrunnionFigures& t, const Ring& cheek,
                         const CheekFoot& foot) {
    const Vec3 u = turn.axis.unitOrthogonal(), v = turn.axis.cross(u);
    const double half = bounds(cheek).size().x() / 2, inside = t.load.diameter / 2 + t.gap;
    std::vector<Vec2> feet;
    for (const double x : {-half, half})
        for (const double beside : {inside, inside + t.cheekThickness()})
            for (const double y : {-beside, beside}) {
                const Vec3 p =
                    t.frame.toBody(Vec3(x, y, -foot.below - foot.ahead * x - foot.beside * y)) - turn.at;
                feet.emplace_back(u.dot(p), v.dot(p));
            }
    return feet;
}

/// Radius of what a turntable's cheeks stand on: its lip, or the top of a drum that rises.
double rimOf(const MechanismSet& set, const std::string& table) {
    const bool rises = std::any_of(set.facts.begin(), set.facts.end(), [&](const MechanismFact& f) {
        return f.mechanism == table && f.key == "drum_top";
    });
    for (const MovingSolid& s : set.solids)
        if (s.mechanism == table && s.shape.kind == ConvexSolid::Kind::cylinder &&
            s.role.kind == (rises ? PartRole::Kind::drum : PartRole::Kind::lip))
            return s.shape.radius;
    return std::numeric_limits<double>::infinity();
}

/// Cheeks of which one's foot has its middle beyond the rim.
bool checkRim(const MechanismSet& set, Reading& read, const TrunnionFigures& t,
              const std::vector<Vec2>& feet) {
    const double rim = rimOf(set, t.table->name);
    std::array<Vec2, 2> middle{Vec2::Zero(), Vec2::Zero()}; // as feetOn() has them, by turns
    for (std::size_t i = 0; i < feet.size(); ++i)
        middle[i % 2] += feet[i] * 2 / static_cast<double>(feet.size());
    if (std::max(middle[0].norm(), middle[1].norm()) <= rim) return true;
    read.report(Severity::look, "trunnion-no-footing",
                "its cheeks stand beyond the rim of " + t.table->name + ", " + read.words(2 * rim) +
                    " across, on nothing",
                "at",
                "Move the pivot over " + t.table->name + ", or put a plate under them (a plate form) that " +
                    t.table->name + " carries.");
    return false;
}

/// Cheeks over the open mouth of a found tub that hangs from its lip, or in the air.
void checkFoot(const MechanismSet& set, Reading& read, const TrunnionFigures& t, const CheekFoot& foot,
               const Ring& cheek) {
    const std::string cure = "Put a plate under them (a plate form";
    if (foot.onNothing)
        read.report(Severity::look, "trunnion-no-footing", "its cheeks stand on nothing", "at",
                    cure + "), or move the pivot over one.");
    constexpr double flat = 0.1 * pi / 180; // what glue fills
    if (const double lean = std::atan(foot.beside); std::abs(lean) > flat)
        read.report(
            Severity::look, "trunnion-leans",
            "it does not stand square across what its cheeks stand on, by " + printAngle(std::abs(lean), 1) +
                ": their feet would rest on one edge",
            "at/roll",
            "Roll it with what it stands on, put a level plate under it (a plate form), or bevel the feet "
            "by that angle when they are fitted.");
    if (!foot.onLip) return;
    const Move& turn = set.motions[static_cast<std::size_t>(t.turnsWith)].moves.front();
    const std::vector<Vec2> feet = feetOn(turn, t, cheek, foot);
    if (!checkRim(set, read, t, feet)) return;
    double mouth = 0; // of a found tub that hangs; a drum of plates has a disc there, one that rises its end
    for (const MechanismFact& f : set.facts)
        if (f.mechanism == t.table->name && f.key == "drum_mouth") mouth = f.value / 2;
    if (standsBesideMouth(feet, mouth)) return;
    read.report(
        Severity::look, "trunnion-no-footing",
        "its cheeks stand over the open mouth of " + t.table->name + ", " + read.words(2 * mouth) +
            " across, on nothing",
        "on",
        cure + " across the mouth that " + t.table->name +
            " carries), give the drum sides so that a disc closes it, or move the pivot over the lip.");
}

/// A cheek's head, round the pivot: round the bolt's hole as much is left as the rule of least edge distance
/// asks for.
Ring cheekHead(const TrunnionFigures& t) {
    const double head = std::max(t.load.diameter / 2, cheekWeb(t));
    return plates::circleRing(head / std::cos(pi / plates::facetsOf(head))); // facets outside the circle
}

/// What lies over a foot's line, up to `high` over it.
Ring bandOver(const CheekFoot& foot, double wide, double high) {
    const auto at = [&](double x) { return -foot.below - foot.ahead * x; };
    return {{-wide, at(-wide)}, {wide, at(wide)}, {wide, at(wide) + high}, {-wide, at(-wide) + high}};
}
/// Outline of a cheek, seen from starboard: round over the pivot, its foot below, `half` to either side.
Ring cheekOutline(const TrunnionFigures& t, const CheekFoot& foot, double half) {
    std::vector<Vec2> points = cheekHead(t);
    for (const double x : {-half, half}) points.emplace_back(x, -foot.below - foot.ahead * x);
    const Ring whole = convexHull(std::move(points));
    const auto over = [&](const Vec2& p) {
        const double height = p.y() + foot.below + foot.ahead * p.x();
        return std::abs(height) < 1e-9 ? 0 : height;
    };
    Ring kept; // a low pivot's head reaches below its foot
    for (std::size_t i = 0; i < whole.size(); ++i) {
        const Vec2 &a = whole[i], &b = whole[(i + 1) % whole.size()];
        const double ha = over(a), hb = over(b);
        if (ha >= 0) kept.push_back(a);
        if (ha * hb < 0) kept.push_back(a + ha / (ha - hb) * (b - a));
    }
    return kept;
}

/// Half the width of the cheeks' foot: half of its height, and at least as wide as its head; but on a
/// turntable's lip no wider than turns within the cap's hole with the rings' clearance, up to over the cap.
double footHalf(const MechanismSet& set, const TrunnionFigures& t, const CheekFoot& foot) {
    const double usual = std::max(bounds(cheekHead(t)).max.x(), foot.below / 2);
    if (!t.table) return usual;
    double hole = 0, top = 0, gap = 0;
    for (const MechanismFact& f : set.facts) {
        if (f.mechanism != t.table->name) continue;
        if (f.key == "cap_hole") hole = f.value / 2;
        if (f.key == "cap_top") top = f.value;
    }
    for (const CarriedPlates& c : set.carried)
        if (c.mechanism == t.table->name) gap = c.wanted;
    const Move& turn = set.motions[static_cast<std::size_t>(t.turnsWith)].moves.front();
    const double upright = std::max(turn.axis.dot(t.frame.axes.col(2)), leastUpright);
    const double within =
        (top + gap - (t.frame.origin - turn.at).dot(turn.axis)) / upright + foot.below; // along the cheek
    if (!(hole > 0) || within <= 0) return usual;
    // The hole's facets may lie within its circle; and rounding must not tell it as too near.
    const double spare = hole * (1 - std::cos(pi / plates::facetsOf(hole))) + 0.01;
    const auto turns = [&](double half) {
        const auto low = intersect({{cheekOutline(t, foot, half), {}}}, {{bandOver(foot, 1e4, within), {}}});
        const auto feet = feetOn(turn, t, low.front().outer, foot);
        return std::all_of(feet.begin(), feet.end(),
                           [&](const Vec2& p) { return p.norm() <= hole - gap - spare; });
    };
    constexpr double narrowest = 10;                     // mm: less holds no screw
    if (turns(usual) || !turns(narrowest)) return usual; // the sweep tells what meets
    double low = narrowest, high = usual;
    while (high - low > 0.01) (turns((low + high) / 2) ? low : high) = (low + high) / 2;
    return low;
}

} // namespace

void addCheeks(const MechanismInput& in, Reading& read, const TrunnionFigures& t, MechanismSet& set) {
    if (!t.cheek) return;
    const CheekFoot standing = footOf(in, set, t);
    const double wanted = cheekWeb(t), near = standing.below / std::hypot(1, standing.ahead);
    if (near < wanted - 1e-9)
        read.report(Severity::look, "trunnion-low",
                    "its pivot is only " + read.words(near) + " above what its cheeks stand on", "at/z",
                    "Raise it to " + read.words(wanted * std::hypot(1, standing.ahead)) +
                        " at least, so that the bolt does not tear out of the cheeks' feet.");
    const double half = footHalf(set, t, standing), inside = t.load.diameter / 2 + t.gap,
                 outside = inside + t.cheek->thickness;
    checkFoot(set, read, t, standing, cheekOutline(t, standing, half));
    CarriedPlates carried{t.name, {}, t.turnsWith, t.gap};
    for (const bool port : {true, false}) {
        const double side = port ? 1 : -1;
        CheekFoot foot = under(standing, side * inside, side * outside);
        if (port) foot.ahead = -foot.ahead; // seen from port
        PartShape s;
        s.name = t.name + (port ? "/cheek port" : "/cheek starboard");
        s.form = t.name;
        s.stock = t.cheek->name;
        s.thickness = t.cheek->thickness;
        const Vec3 x = t.frame.axes.col(0), y = t.frame.axes.col(1), z = t.frame.axes.col(2);
        s.at.axes.col(0) = port ? -x : x;
        s.at.axes.col(1) = z;
        s.at.axes.col(2) = port ? y : -y;
        s.at.origin = t.frame.origin + outside * s.at.axes.col(2);
        s.boundary = squareLoop(cheekOutline(t, foot, half));
        PartLoop hole = squareLoop(reversed(plates::circleRing(boltHole / 2)));
        s.holes.push_back(std::move(hole));
        Plate plate = makePart(s);
        plate.holes.front().opening = t.name;
        carried.patterns.push_back(plate.name);
        addPart(set, std::move(plate), {PartRole::Kind::cheek});
    }
    if (t.turnsWith >= 0) set.carried.push_back(std::move(carried));
}

} // namespace slab::mechanisms
