#include "core/mechanisms/float_range.h"
#include "core/mechanisms/shown.h"
#include "core/units/units.h"
#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {
namespace {

constexpr double steepest = std::numbers::pi / 4;
constexpr double sameLine = 0.1; ///< mm; hinges nearer than this are on one line
constexpr double lever = 1;      ///< mm; a slot less far ahead or behind says nothing about the pitch
constexpr int samples = 900;     ///< of the pitch, one every 0.1 degree
constexpr double slack = 1e-9;   ///< mm

FloatPose poseOf(const Vec3& pivot, double rise, double noseUp) {
    FloatPose pose{rise, noseUp, {}};
    pose.shell.turn = Eigen::AngleAxisd(-noseUp, Vec3::UnitY()).toRotationMatrix();
    pose.shell.shift = pivot - pose.shell.turn * pivot + Vec3(0, 0, rise);
    return pose;
}

/// What the joints allow about one pivot.
class Float {
public:
    explicit Float(const std::vector<FloatJoint>& joints) : m_joints(joints) {
        const auto hinge =
            std::find_if(joints.begin(), joints.end(), [](const FloatJoint& j) { return j.hinge; });
        m_hinge = hinge == joints.end() ? nullptr : &*hinge;
        m_pivot = m_hinge ? m_hinge->at : joints.front().at;
        m_up = m_down = steepest;
        bool given = false, guided = false;
        for (const FloatJoint& j : joints) {
            if (j.noseUp) m_up = std::min(m_up, *j.noseUp);
            if (j.noseDown) m_down = std::min(m_down, *j.noseDown);
            given = given || j.noseUp || j.noseDown;
            guided = guided || (!j.hinge && std::abs(j.at.x() - m_pivot.x()) > lever);
        }
        if (!given && !guided) m_up = m_down = 0;
    }
    [[nodiscard]] bool locked() const {
        return std::any_of(m_joints.begin(), m_joints.end(), [&](const FloatJoint& j) {
            return j.hinge && Vec2(j.at.x() - m_pivot.x(), j.at.z() - m_pivot.z()).norm() > sameLine;
        });
    }
    [[nodiscard]] bool allows(double rise, double noseUp) const {
        const FloatPose pose = poseOf(m_pivot, rise, noseUp);
        return std::all_of(m_joints.begin(), m_joints.end(), [&](const FloatJoint& j) {
            const double here = riseAt(pose, j.at);
            return j.hinge || (here <= j.up + slack && here >= -j.down - slack);
        });
    }
    /// Least and greatest pitch at one rise; nothing if there is none.
    [[nodiscard]] std::optional<std::pair<double, double>> pitches(double rise) const {
        std::optional<std::pair<double, double>> range;
        double before = -m_down;
        bool was = allows(rise, before);
        if (was) range = {before, before};
        for (int i = 1; i <= samples && m_up + m_down > 0; ++i) {
            const double now = -m_down + (m_up + m_down) * i / samples;
            const bool is = allows(rise, now);
            if (is != was) { // the edge between the two
                double in = is ? now : before, out = is ? before : now;
                for (int k = 0; k < 50; ++k) {
                    const double middle = (in + out) / 2;
                    (allows(rise, middle) ? in : out) = middle;
                }
                if (!range) range = {in, in};
                range->second = std::max(range->second, in);
            }
            if (is) range->second = now;
            before = now;
            was = is;
        }
        return range;
    }
    void addPoses(double rise, FloatRange& range) const {
        const auto pitch = pitches(rise);
        if (!pitch) return;
        const auto [least, greatest] = *pitch;
        range.lowest = std::min(range.lowest, rise);
        range.highest = std::max(range.highest, rise);
        range.noseDown = std::min(range.noseDown, least);
        range.noseUp = std::max(range.noseUp, greatest);
        std::vector<double> all = {least, greatest, (least + greatest) / 2};
        if (least < 0 && greatest > 0) all.push_back(0);
        std::sort(all.begin(), all.end());
        all.erase(std::unique(all.begin(), all.end(), [](double a, double b) { return b - a < 1e-6; }),
                  all.end());
        for (const double noseUp : all)
            if (allows(rise, noseUp) && (std::abs(rise) > 1e-6 || std::abs(noseUp) > 1e-6))
                range.poses.push_back(poseOf(m_pivot, rise, noseUp));
    }
    [[nodiscard]] std::vector<double> rises() const {
        if (m_hinge) return {0};
        const FloatJoint& pin = m_joints.front();
        std::vector<double> all = {-pin.down, (pin.up - pin.down) / 2, 0, pin.up};
        std::sort(all.begin(), all.end());
        all.erase(std::unique(all.begin(), all.end(), [](double a, double b) { return b - a < 1e-6; }),
                  all.end());
        return all;
    }

private:
    const std::vector<FloatJoint>& m_joints;
    const FloatJoint* m_hinge = nullptr;
    Vec3 m_pivot = Vec3::Zero();
    double m_up = 0, m_down = 0; ///< greatest pitch by the given angles
};

} // namespace

FloatRange floatRange(const std::vector<FloatJoint>& joints) {
    FloatRange range;
    if (joints.empty()) return range;
    const Float all(joints);
    range.locked = all.locked();
    if (range.locked) return range;
    for (const double rise : all.rises()) all.addPoses(rise, range);
    return range;
}

double riseAt(const FloatPose& pose, const Vec3& place) {
    return (pose.shell(place) - place).z();
}

Pose seenFromShell(const FloatPose& pose) {
    return inverse(pose.shell);
}

std::string floatWords(const FloatPose& pose, const std::string& rise) {
    std::string words;
    if (std::abs(pose.rise) > 1e-6) words = (pose.rise > 0 ? "raised " : "lowered ") + rise;
    if (std::abs(pose.noseUp) > 1e-6)
        words += (words.empty() ? "" : ", ") + std::string(pose.noseUp > 0 ? "nose up " : "nose down ") +
                 printAngle(std::abs(pose.noseUp));
    return words.empty() ? "at rest" : words;
}

} // namespace slab
