#pragma once
// Everything on the board that can be taken hold of, in body axes. Private to this room and the drawing
// board.
#include "core/document/sides.h"
#include "core/geometry/polygon.h"
#include "core/lines/view.h"
#include <optional>

namespace slab::detail {

struct FormPlace {
    Mat3 rotation = Mat3::Identity();
    Vec3 translation = Vec3::Zero();
    [[nodiscard]] Vec3 toBody(const Vec3& p) const { return translation + rotation * p; }
};

/// A length formula at build size; nothing where it has no value. Empty text = 0.
[[nodiscard]] std::optional<double> lengthOf(const Text& text, const Scope& scope,
                                             Space space = Space::subject);
/// Where something stands; nothing if one of its formulas has no value.
[[nodiscard]] std::optional<FormPlace> placeOf(const Placement& at, const Scope& scope,
                                               Space space = Space::subject);
[[nodiscard]] std::optional<FormPlace> placeOf(const Form& form, const Scope& scope);

/// A form's own plane: two coordinates of its points.
struct Local {
    Vec3 right = Vec3::UnitX(), up = Vec3::UnitY(); ///< in the form's axes
    const char* rightField = "x";
    const char* upField = "y";
    [[nodiscard]] Vec3 at(const Vec2& p) const { return right * p.x() + up * p.y(); }
};
/// Side plane (x, z) of a profile form, plan plane (x, y) of taper and plate forms.
[[nodiscard]] Local localOf(const Form& form);

/// The handles of a form as they show in a view, those of its mirrored copies last.
[[nodiscard]] std::vector<BoardPoint> handlesOf(const Project& project, int form, const Scope& scope,
                                                BoardView view);
/// One handle, whether or not the view shows it.
[[nodiscard]] std::optional<BoardPoint> handleAt(const Project& project, const PointRef& ref,
                                                 const Scope& scope, BoardView view);
/// A profile form is seen from its side, so that its outline and not its half-widths are drawn.
[[nodiscard]] bool showsSide(const Form& form, const FormPlace& place, BoardView view);

/// Steps of the knobs' fields that carry a handle by `delta` in a view: two knobs where two ways are free,
/// else the one that is seen best. Empty = nothing moves it.
struct KnobStep {
    const Knob* knob = nullptr;
    double step = 0;
};
[[nodiscard]] std::vector<KnobStep> stepsFor(const std::vector<Knob>& knobs, BoardView view,
                                             const Vec2& delta);

/// The formula at a pointer below forms, mechanisms and dimensions; null if there is none.
[[nodiscard]] Text* textAt(Project& project, const std::string& pointer);
/// Form, list and position that a pointer such as "/forms/0/outline/3" names; list and position may be
/// missing.
struct Place {
    int form = -1;
    std::string list;
    int index = -1;
    std::vector<std::string> rest; ///< further tokens
};
[[nodiscard]] std::optional<Place> placeIn(const std::string& pointer);
/// A form's list of points by its name; null if the form has none of that name.
[[nodiscard]] std::vector<OutlinePoint>* pointsOf(Form& form, const std::string& list);
[[nodiscard]] const std::vector<OutlinePoint>* pointsOf(const Form& form, const std::string& list);
[[nodiscard]] std::vector<Curve>* curvesOf(Form& form);
[[nodiscard]] const std::vector<Curve>* curvesOf(const Form& form);
/// The names of the lists of points that a form has, in order.
[[nodiscard]] std::vector<std::string> listsOf(const Form& form);

/// The edge of an outline that a curve replaces, or -1.
[[nodiscard]] int edgeOf(const Curve& curve, const std::vector<OutlinePoint>& points);
/// Points of a list in the form's plane; nothing if a formula has no value.
[[nodiscard]] std::optional<Ring> ringOf(const Form& form, const std::string& list, const Scope& scope);

} // namespace slab::detail
