#include "core/mechanisms/sweep_pairs.h"
#include <algorithm>
#include <limits>

namespace slab::mechanisms {

namespace {

using Meets = MovingSolid::Meets;

/// What stands still and lies beside a round solid all along its axis meets the whole of it, which is exact;
/// anything else may be within its hollow.
bool keepsOutside(const Thing& whole, const Thing& other) {
    if (other.kind == Thing::Kind::donor || other.motion >= 0) return false;
    const ConvexSolid& round = whole.pieces.front();
    const Vec3 axis = (round.points.back() - round.points.front()).normalized();
    constexpr double rounding = 0.01; // mm
    return std::all_of(other.pieces.begin(), other.pieces.end(), [&](const ConvexSolid& piece) {
        return ringedBy(piece, round.points.front(), axis).inner >= round.radius - rounding;
    });
}

/// What stands on a turntable touches its drum.
bool standsOnDrum(const Thing& c, const Thing& drum) {
    return c.motion >= 0 && drum.kind == Thing::Kind::solid && drum.motion < 0 &&
           c.mechanism == drum.mechanism;
}

/// A cheek or a tube that stands on a drum belongs to another mechanism and touches the drum all the same.
bool carriedByOwnTable(const SweepField& field, const Thing& a, const Thing& drum) {
    if (a.motion < 0 || !ownedByMechanism(drum) || a.kind != Thing::Kind::part) return false;
    const Motion& motion = field.motionOf(a);
    return drum.motion < 0 && drum.kind == Thing::Kind::solid && !motion.moves.empty() &&
           motion.mechanism == drum.mechanism;
}

Motion onlyIfShared(const Motion& a, const Motion& turn) {
    const bool shared = !a.moves.empty() && a.moves.back() == turn.moves.back();
    return shared ? turn : Motion{};
}

} // namespace

const Motion& SweepField::motionOf(const Thing& t) const {
    static const Motion still;
    return t.motion < 0 ? still : motions[static_cast<std::size_t>(t.motion)];
}

std::string SweepField::carrierOf(const Thing& t) const {
    if (t.motion < 0) return t.mechanism;
    const Motion& own = motionOf(t);
    for (const Motion& m : motions)
        if (m.moves.size() == 1 && !own.moves.empty() && m.moves.back() == own.moves.back())
            return m.mechanism;
    return own.mechanism;
}

bool SweepField::concerns(const Thing& solid, std::size_t other) const {
    if (solid.meets == Meets::all) return true;
    const auto known = outside.find(solid.name);
    const bool whole = known != outside.end() && known->second[other];
    return (solid.meets == Meets::plates) == whole;
}

std::optional<std::size_t> SweepField::wholeOf(std::size_t staves) const {
    if (things[staves].meets != Meets::people) return {};
    for (std::size_t i = 0; i < things.size(); ++i)
        if (things[i].meets == Meets::plates && things[i].name == things[staves].name) return i;
    return {};
}

bool SweepField::compared(std::size_t i, std::size_t j) const {
    const Thing &a = things[i], &b = things[j];
    if (i == j) return false;
    if (ownedByMechanism(a) && ownedByMechanism(b) && a.mechanism == b.mechanism)
        return false; // by its own closed forms
    if (!concerns(a, j) || !concerns(b, i)) return false;
    if (standsOnDrum(a, b) || standsOnDrum(b, a)) return false;
    if (carriedByOwnTable(*this, a, b) || carriedByOwnTable(*this, b, a)) return false;
    const auto ownForm = [&](const Thing& part, const Thing& form) {
        return form.round && std::find(ownForms.begin(), ownForms.end(),
                                       std::pair(part.mechanism, form.name)) != ownForms.end();
    };
    if (ownForm(a, b) || ownForm(b, a)) return false;
    if (joined.contains(std::minmax(a.name, b.name))) return false;
    if (b.motion < 0 && !ownedByMechanism(b)) return true;
    // Both are swept: what has more moves is told as moving.
    const std::size_t own = motionOf(a).moves.size(), other = motionOf(b).moves.size();
    return own != other ? own > other : j > i;
}

Motion SweepField::between(const Thing& a, const Thing& b) const {
    if (b.kind == Thing::Kind::solid && b.motion < 0)
        for (const Motion& m : motions)
            if (m.mechanism == b.mechanism)
                return relativeMotion(motionOf(a),
                                      m.moves.size() == 1 ? onlyIfShared(motionOf(a), m) : Motion{});
    const Motion motion = relativeMotion(motionOf(a), motionOf(b));
    // The same goes for its rings: what stands on it sees one all round.
    const bool rings = b.kind == Thing::Kind::part && b.motion < 0 && motion.moves.size() == 2 &&
                       std::any_of(motions.begin(), motions.end(), [&](const Motion& m) {
                           return m.mechanism == b.mechanism && m.moves.size() == 1 &&
                                  m.moves.front() == motion.moves.back();
                       });
    return rings ? Motion{motion.mechanism, {motion.moves.front()}} : motion;
}

double SweepField::wantedOf(const Thing& a, const Thing& b) const {
    const double usual = wantedBetween(a, b);
    if (b.kind != Thing::Kind::part || b.motion >= 0 || motionOf(a).moves.size() != 1 ||
        carrierOf(a) != b.mechanism)
        return usual;
    for (const CarriedPlates& c : carried)
        if (c.mechanism == b.mechanism) return std::min(usual, c.wanted);
    return usual;
}

SweepField fieldOf(const MechanismSet& set, const PlateSet& plates, const std::vector<FitSolid>& solids) {
    SweepField field{thingsOf(set, plates, solids), set.motions, set.carried, {}, {}};
    for (const JointInfo& j : plates.joints)
        if (j.kind != JointKind::open) field.joined.insert(std::minmax(j.a, j.b));
    for (const ResolvedOpening& o : set.openings)
        for (const std::string& plate : o.plates) field.opened.emplace_back(plate, o.name);
    field.ownForms = set.ownForms;
    for (const Thing& whole : field.things) {
        if (whole.meets != Meets::plates) continue;
        std::vector<char>& outside = field.outside[whole.name];
        for (const Thing& other : field.things) outside.push_back(keepsOutside(whole, other) ? 1 : 0);
    }
    return field;
}

bool onlyOverlap(const Thing& a, const Thing& b, const Motion& between) {
    return between.moves.empty() && a.kind == Thing::Kind::part && b.kind != Thing::Kind::donor;
}

bool toldByFit(const Thing& a, const Thing& b, const Motion& between) {
    return between.moves.empty() && a.kind != Thing::Kind::solid && !onlyOverlap(a, b, between);
}

namespace {

/// Whether two parts are looked at against the same things, all of them turning past with the same turn.
bool comparedAlike(const SweepField& field, std::size_t i, std::size_t k) {
    const Move& turn = field.motionOf(field.things[i]).moves.front();
    for (std::size_t j = 0; j < field.things.size(); ++j) {
        if (field.compared(i, j) != field.compared(k, j)) return false;
        if (!field.compared(i, j)) continue;
        const Motion motion = field.between(field.things[i], field.things[j]);
        if (motion.moves.size() != 1 || !(motion.moves.front() == turn)) return false;
    }
    return true;
}

} // namespace

std::optional<double> turnFrom(const SweepField& field, std::size_t from, std::size_t to) {
    const Thing &first = field.things[from], &t = field.things[to];
    const Motion& motion = field.motionOf(t);
    if (motion.moves.size() != 1 || !motion.moves.front().endless) return std::nullopt;
    if (first.motion != t.motion || first.kind != t.kind || first.mechanism != t.mechanism ||
        first.wanted != t.wanted || !comparedAlike(field, to, from))
        return std::nullopt;
    return turnBetween(motion.moves.front(), first.pieces, t.pieces);
}

namespace {

/// Lower bound of the clearance of what two boxes hold; where they overlap, minus the least way out.
double boxGap(const Box3& a, const Box3& b) {
    const Vec3 apart = (b.min - a.max).cwiseMax(a.min - b.max);
    return apart.maxCoeff() > 0 ? apart.cwiseMax(0).norm() : apart.maxCoeff();
}

/// Calls back with every two pieces and the lower bound of their clearance.
template <class Each>
void boundPieces(const Thing& a, const Thing& b, const Motion& between, Each each) {
    const bool turns = !between.moves.empty() && !between.moves.back().slides;
    std::vector<Ringed> rings;
    std::vector<Box3> boxes;
    for (const ConvexSolid& piece : b.pieces)
        if (turns)
            rings.push_back(ringedBy(piece, between.moves.back().at, between.moves.back().axis));
        else
            boxes.push_back(bounds(piece));
    for (std::size_t i = 0; i < a.pieces.size(); ++i) {
        const Ringed own = turns ? sweptRing(between, a.pieces[i]) : Ringed{};
        const Box3 box = turns ? Box3{} : bounds(a.pieces[i]);
        for (std::size_t j = 0; j < b.pieces.size(); ++j)
            each(i, j, turns ? ringGap(own, rings[j]) : boxGap(box, boxes[j]));
    }
}

} // namespace

double leastBetween(const Thing& a, const Thing& b, const Motion& between) {
    if (!between.moves.empty() && between.moves.back().slides) return 0;
    double least = std::numeric_limits<double>::infinity();
    boundPieces(a, b, between, [&](std::size_t, std::size_t, double gap) { least = std::min(least, gap); });
    return least;
}

std::pair<std::vector<ConvexSolid>, std::vector<ConvexSolid>>
piecesWithin(const Thing& a, const Thing& b, const Motion& between, double wanted) {
    if (!between.moves.empty() && between.moves.back().slides) return {a.pieces, b.pieces};
    std::vector<char> ofA(a.pieces.size(), 0), ofB(b.pieces.size(), 0);
    boundPieces(a, b, between, [&](std::size_t i, std::size_t j, double gap) {
        if (gap < wanted) ofA[i] = ofB[j] = 1;
    });
    std::pair<std::vector<ConvexSolid>, std::vector<ConvexSolid>> out;
    for (std::size_t i = 0; i < ofA.size(); ++i)
        if (ofA[i]) out.first.push_back(a.pieces[i]);
    for (std::size_t j = 0; j < ofB.size(); ++j)
        if (ofB[j]) out.second.push_back(b.pieces[j]);
    return out;
}

} // namespace slab::mechanisms
