#include "core/mechanisms/motion.h"
#include "core/units/units.h"
#include <Eigen/Geometry>

namespace slab {

Pose poseAt(const Motion& motion, const std::vector<double>& values) {
    Pose pose;
    for (std::size_t i = 0; i < motion.moves.size(); ++i) {
        const Move& m = motion.moves[i];
        const double value = i < values.size() ? values[i] : 0;
        if (value == 0) continue; // to the bit where it stands
        if (m.slides) {
            pose.shift += value * m.axis;
            continue;
        }
        const Mat3 turn = Eigen::AngleAxisd(value, m.axis).toRotationMatrix();
        pose.turn = turn * pose.turn;
        pose.shift = m.at + turn * (pose.shift - m.at);
    }
    return pose;
}

Pose shownPose(const Motion& motion) {
    std::vector<double> values;
    for (const Move& m : motion.moves) values.push_back(m.shown);
    return poseAt(motion, values);
}

std::string poseWords(const Motion& motion, const std::vector<double>& values) {
    std::string words;
    for (std::size_t i = motion.moves.size(); i-- > 0;) {
        const double given = i < values.size() ? values[i] : 0;
        const double value = motion.moves[i].inverse ? 0 - given : given; // never -0
        if (!words.empty()) words += ", ";
        const UnitStyle fine{Unit::mm, 16, 1, true};
        words += motion.moves[i].words + " " +
                 (motion.moves[i].slides ? printLength(value, fine) : printAngle(value));
    }
    return words;
}

} // namespace slab
