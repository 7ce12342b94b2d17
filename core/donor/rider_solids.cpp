#include "core/donor/rider.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

// Proportions and allowances that no table gives, all from memory.
constexpr double chinBelowTragion = 0.75; ///< of tragion to top of head
constexpr double neckRadius = 0.4;        ///< of head breadth
constexpr double headForward = 30;        ///< back of the head ahead of the back plane, mm
constexpr double armRadius = 0.1;         ///< of shoulder breadth
constexpr double handShare = 0.41;        ///< of forearm-hand length
constexpr double heelShare = 0.25;        ///< of foot length, behind the ankle
constexpr double shoeLength = 30;         ///< added to the bare foot, mm
constexpr double footHeight = 0.3;        ///< of foot length
constexpr double shinRadius = 0.38;       ///< of thigh clearance

/// Hull of two rectangles, each across y at a height: (x from, x to, half width, z).
struct Slice {
    double x0, x1, halfWidth, z;
};
ConvexSolid lofted(const Vec3& at, const Slice& low, const Slice& high) {
    ConvexSolid s;
    for (const Slice& k : {low, high})
        for (const double x : {k.x0, k.x1})
            for (const double y : {-k.halfWidth, k.halfWidth}) s.points.push_back(at + Vec3(x, y, k.z));
    return s;
}

class Sitting {
public:
    Sitting(const RiderFigures& figures, const Seat& seat, const Posture& posture, std::string name)
        : m_f(figures), m_seat(seat), m_posture(posture), m_name(std::move(name)) {}

    std::vector<FitSolid> solids(double& shortOf) {
        trunk();
        shortOf = 0;
        for (const double side : {1.0, -1.0}) {
            leg(side);
            shortOf = std::max(shortOf, arm(side));
        }
        return std::move(m_solids);
    }

private:
    void add(std::string name, ConvexSolid shape, bool moving = false) {
        m_solids.push_back({m_name + "/" + std::move(name), "rider", std::move(shape), 0, moving, {}});
    }
    static std::string sided(double side, const char* part) {
        return std::string(side > 0 ? "left " : "right ") + part;
    }

    void trunk() {
        const Vec3& at = m_seat.reference;
        const double r = m_f.headBreadth / 2;
        const double helmet = m_posture.helmet;
        const double top = m_f.sittingHeight;
        const double chin = top - m_f.tragionToTop * (1 + chinBelowTragion);
        const double front = std::max(m_f.headLength - r, r), back = std::min(m_f.headLength - r, r);
        ConvexSolid head;
        head.radius = r + helmet;
        for (const double x : {back, front})
            for (const double z : {std::min(chin + r, top - r), top - r})
                head.points.push_back(turned(at + Vec3(headForward + x, 0, z)));
        add("head", std::move(head));
        const double middle = headForward + m_f.headLength / 2;
        add("neck",
            makeCapsule(turned(at + Vec3(m_f.chestDepth / 2, 0, m_f.shoulderHeight)),
                        turned(at + Vec3(middle, 0, top - m_f.tragionToTop)), neckRadius * m_f.headBreadth));
        ConvexSolid torso = lofted(at, {0, m_f.abdomenDepth, m_f.hipBreadth / 2, 0},
                                   {0, m_f.chestDepth, m_f.biacromial / 2, m_f.shoulderHeight});
        for (std::size_t i = 4; i < torso.points.size(); ++i) torso.points[i] = turned(torso.points[i]);
        add("torso", std::move(torso));
    }
    [[nodiscard]] Vec3 turned(const Vec3& p) const { return leaned(m_f, m_seat, m_posture, p); }

    void leg(double side) {
        const Vec3& at = m_seat.reference;
        const double half = m_f.hipBreadth / 2, r = shinRadius * m_f.thighClearance;
        const double y = side * half / 2;
        add(sided(side, "thigh"),
            makeBoxSolid(at + Vec3(0, std::min(0.0, side * half), 0),
                         at + Vec3(m_f.buttockKnee - r, std::max(0.0, side * half), m_f.thighClearance)));
        // The shin turns about the knee until the sole meets its rest; too short a leg hangs straight.
        const Vec3 knee = at + Vec3(m_f.buttockKnee - r, y, m_f.thighClearance - r);
        const double ankleAbove = footHeight * m_f.footLength / 2;
        const double length = m_f.poplitealHeight + m_f.thighClearance - r - ankleAbove;
        const double sole = ankleAbove + m_posture.shoes;
        const double drop = std::clamp(knee.z() - m_seat.sole - sole, 0.0, length);
        const Vec3 ankle = knee + Vec3(std::sqrt(std::max(0.0, length * length - drop * drop)), 0, -drop);
        add(sided(side, "shin"), makeCapsule(knee, ankle, r));
        const double behind = heelShare * m_f.footLength, halfFoot = m_f.footBreadth / 2;
        add(sided(side, "foot"),
            makeBoxSolid(ankle + Vec3(-behind, -halfFoot, -sole),
                         ankle + Vec3(m_f.footLength + shoeLength - behind, halfFoot, ankleAbove)));
    }

    /// @return how far the hand stays from its place
    double arm(double side) {
        const Vec3& at = m_seat.reference;
        const double r = armRadius * m_f.shoulderBreadth;
        const double hand = handShare * m_f.forearmHand, upper = m_f.shoulderElbow - 2 * r;
        const double fore = m_f.forearmHand - hand / 2 - r;
        const Vec3 shoulder = turned(
            at + Vec3(m_f.chestDepth / 2, side * (m_f.shoulderBreadth / 2 - r), m_f.shoulderHeight - r));
        Vec3 elbow = turned(
            at + Vec3(m_f.chestDepth / 2, side * std::max(m_f.elbowSpan / 2 - r, r), m_f.elbowRest + r));
        const Vec3 target = m_posture.lap ? lapHand(side, elbow, fore) : atControls(side);
        if ((target - elbow).norm() > fore) elbow = bentElbow(shoulder, target, upper, fore);
        const Vec3 toTarget = target - elbow;
        const double reach = std::min(fore, toTarget.norm());
        const Vec3 palm = reach > 0 ? Vec3(elbow + toTarget.normalized() * reach) : elbow;
        add(sided(side, "upper arm"), makeCapsule(shoulder, elbow, r));
        add(sided(side, "forearm"), makeCapsule(elbow, palm, 0.8 * r));
        const Vec3 along = reach > 0 ? Vec3(toTarget.normalized()) : Vec3(Vec3::UnitX());
        const double fist = m_f.handBreadth / 2;
        const double stretch = std::max(0.0, hand / 4 - fist / 2);
        add(sided(side, "hand"), makeCapsule(palm - stretch * along, palm + stretch * along, fist), true);
        return toTarget.norm() - reach;
    }

    [[nodiscard]] Vec3 atControls(double side) const {
        const Vec3& hand = side > 0 ? m_seat.leftHand : m_seat.rightHand;
        if (m_posture.helm == 0 || m_seat.helmAxis.isZero()) return hand;
        const Eigen::AngleAxisd turn(m_posture.helm, m_seat.helmAxis.normalized());
        return m_seat.helm + turn * Vec3(hand - m_seat.helm);
    }
    /// On the thigh, as far ahead of the elbow as the forearm reaches, at most at the knee.
    [[nodiscard]] Vec3 lapHand(double side, const Vec3& elbow, double fore) const {
        const Vec3& at = m_seat.reference;
        Vec3 hand(0, at.y() + side * m_f.hipBreadth / 4, at.z() + m_f.thighClearance + m_f.handBreadth / 2);
        const double across = hand.y() - elbow.y(), down = hand.z() - elbow.z();
        const double ahead = std::sqrt(std::max(0.0, fore * fore - across * across - down * down));
        hand.x() = std::min(elbow.x() + ahead, at.x() + m_f.buttockKnee - m_f.handBreadth / 2);
        return hand;
    }

    /// Elbow of an arm that reaches from shoulder to target, hanging down; the arm is straight if it is too
    /// short.
    static Vec3 bentElbow(const Vec3& shoulder, const Vec3& target, double upper, double fore) {
        const Vec3 line = target - shoulder;
        const double d = line.norm();
        const Vec3 along = d > 0 ? Vec3(line / d) : Vec3(Vec3::UnitX());
        if (d >= upper + fore) return shoulder + upper * along;
        const double x =
            std::clamp((d * d + upper * upper - fore * fore) / (2 * std::max(d, 1e-9)), -upper, upper);
        Vec3 down = -Vec3::UnitZ() + along.z() * along;
        if (down.norm() < 1e-9) down = -Vec3::UnitX();
        return shoulder + x * along + std::sqrt(std::max(0.0, upper * upper - x * x)) * down.normalized();
    }

    const RiderFigures& m_f;
    const Seat& m_seat;
    const Posture& m_posture;
    std::string m_name;
    std::vector<FitSolid> m_solids;
};

} // namespace

Vec3 leaned(const RiderFigures& f, const Seat& seat, const Posture& posture, const Vec3& upright) {
    constexpr double hipAhead = 0.14, hipAbove = 0.1; // of sitting height, from memory
    const double back = posture.forward - posture.recline;
    if (back == 0 && posture.left == 0) return upright; // to the bit
    const Vec3 hip = seat.reference + f.sittingHeight * Vec3(hipAhead, 0, hipAbove);
    return hip + Eigen::AngleAxisd(-posture.left, Vec3::UnitX()) *
                     (Eigen::AngleAxisd(back, Vec3::UnitY()) * Vec3(upright - hip));
}

std::vector<FitSolid> riderSolids(const RiderFigures& figures, const Seat& seat, double& shortOf,
                                  const Posture& posture, const std::string& name) {
    return Sitting(figures, seat, posture, name).solids(shortOf);
}

} // namespace slab
