#include "core/plates/planes.h"
#include <cmath>

namespace slab::plates {

Half PlaneTable::add(const Plane& plane) {
    const double atCentre = plane.distance(m_centre);
    const double away = std::abs(atCentre);
    const double tolerance = m_size * 1e-10;
    for (std::size_t i = 0; i < m_planes.size(); ++i) {
        if (std::abs(m_away[i] - away) > tolerance) continue;
        const Plane& known = m_planes[i];
        const double turn = known.normal.dot(plane.normal);
        if (std::abs(turn) < 0.999999) continue;
        const double sign = turn > 0 ? 1.0 : -1.0;
        if ((known.normal - sign * plane.normal).cwiseAbs().maxCoeff() > 2e-10) continue;
        if (std::abs(known.distance(m_centre) - sign * atCentre) > tolerance) continue;
        return {static_cast<int>(i), sign < 0};
    }
    m_planes.push_back(plane);
    m_away.push_back(away);
    return {static_cast<int>(m_planes.size()) - 1, false};
}

} // namespace slab::plates
