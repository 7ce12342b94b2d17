#pragma once
// Colours of the 3D view, the same for Qt3D and the painter.
#include "ui/fit/scene.h"
#include <QColor>

namespace slab::ui {

struct SceneStyle {
    double seeThrough = 0.68; ///< 0 = solid plates, 1 = almost clear
    double pixelRatio = 1;
};

struct ItemLook {
    QColor fill;
    double alpha = 1; ///< below 1: drawn after everything solid, far to near
    QColor line;
    double lineWidth = 1; ///< pixels
    bool operator==(const ItemLook&) const = default;
};

[[nodiscard]] ItemLook lookOf(const SceneItem& item, const SceneStyle& style);
[[nodiscard]] QColor colourOf(FitState state);
[[nodiscard]] QColor gridColour();
[[nodiscard]] QColor colourOf(MarkKind mark);
/// Pixels.
[[nodiscard]] double widthOf(MarkKind mark);
[[nodiscard]] QColor backgroundColour();

/// Lines of the ground grid (2 points each, z = 0) under a box: 250 mm or 1 ft apart, wider for large bodies.
[[nodiscard]] std::vector<Vec3> groundGrid(const Box3& bounds, const UnitStyle& units);

/// Brightness of a face with this outward normal, 0.7 … 1.06: soft daylight from over the left shoulder.
[[nodiscard]] double daylight(const Vec3& normal);

} // namespace slab::ui
