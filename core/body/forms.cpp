#include "core/body/forms.h"
#include <algorithm>
#include <cmath>

namespace slab {

Standing readPlacement(FormReader& reader, const Placement& at) {
    const double roll = reader.angle(at.roll, "at/roll"), pitch = reader.angle(at.pitch, "at/pitch"),
                 yaw = reader.angle(at.yaw, "at/yaw");
    Standing s;
    s.translation = {reader.length(at.x, "at/x"), reader.length(at.y, "at/y"), reader.length(at.z, "at/z")};
    if (roll != 0 || pitch != 0 || yaw != 0)
        s.rotation = (Eigen::AngleAxisd(yaw, Vec3::UnitZ()) * Eigen::AngleAxisd(pitch, Vec3::UnitY()) *
                      Eigen::AngleAxisd(roll, Vec3::UnitX()))
                         .toRotationMatrix();
    // Quarter turns come out exactly, so that flat stays flat.
    for (double& r : s.rotation.reshaped())
        if (std::abs(r - std::round(r)) < 1e-15) r = std::round(r);
    return s;
}

std::string handName(const Form& form, bool other) {
    return !form.mirror ? form.name : form.name + (other ? " starboard" : " port");
}

std::vector<Arc> topArcs(std::vector<Arc> arcs, const Corners& base, const Corners& top,
                         std::vector<CurveFit>& fits) {
    const auto chord = [](const Corners& c, std::size_t i) {
        return (c[(i + 1) % c.size()].at - c[i].at).norm();
    };
    for (std::size_t k = 0; k < arcs.size(); ++k) {
        Arc& arc = arcs[k];
        const double ratio = chord(top, arc.edge) / chord(base, arc.edge);
        arc.bulge *= std::isfinite(ratio) ? ratio : 0;
        if (!arc.path.empty())
            arc.path = fitted(arc.path, top[arc.edge].at, top[(arc.edge + 1) % top.size()].at);
        if (k < fits.size() && std::isfinite(ratio)) fits[k].deviation *= std::max(1.0, ratio);
    }
    return arcs;
}

} // namespace slab
