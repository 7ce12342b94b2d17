#pragma once
// The sharing rule at a single point, written from the rule alone: no cells, no plane table, nothing of
// core/plates.
#include "core/plates/plate.h"
#include <map>

namespace slab::test {

class PointModel {
public:
    /// @param whole  the whole shell: bisector cuts and near-flat mitres do not hold a zone back, so the
    /// steps behind
    ///               bisector cuts belong to it
    PointModel(const Body& body, const PlateRules& rules, bool whole = false);
    /// Some zone holds the point.
    [[nodiscard]] bool inShell(const Vec3& p) const;
    [[nodiscard]] bool inZone(int face, const Vec3& p) const;
    [[nodiscard]] bool inSkin(const Vec3& p) const;
    /// Distance to the nearest plane that bounds any zone of a face whose slab is near: points nearer than
    /// 1e-5 to one are on a border and say nothing.
    [[nodiscard]] double leastPlaneDistance(const Vec3& p) const;

private:
    struct Line {
        Plane plane; ///< zone lies where plane.distance <= 0
        Vec3 own;    ///< a point of the face's own edge
        Vec3 along;
        bool link = false;
    };
    [[nodiscard]] std::vector<Line> linesOf(int face, const std::vector<int>& loop) const;
    [[nodiscard]] Plane boundary(int face, const SkinEdge& edge) const;

    const Body& m_body;
    const PlateRules& m_rules;
    bool m_whole;
    Polyhedron m_solid;
    std::map<std::pair<int, int>, const SkinEdge*> m_edges;
    std::vector<std::vector<std::vector<Line>>> m_lines; ///< by face and loop
    std::vector<Plane> m_all;
};

} // namespace slab::test
