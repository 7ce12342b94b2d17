#pragma once
// The curved sides of the forms as they are before facets, to be compared with the flat body.
#include "core/body/reader.h"

namespace slab {

/// The surface that a curved edge sweeps out: straight rulings across a profile form, or from base to top of
/// a taper form, placed in the body at build size.
struct CurvedSide {
    std::string form, side; ///< its facets are plates "form/side~1", … ("form/side" when there is one)
    std::size_t formIndex = 0, curveIndex = 0; ///< document: "/forms/formIndex/curves/curveIndex"
    CurvePath path, top;                       ///< plan or side view; `top` empty = a profile form
    std::vector<double> breaks;                ///< parameters of the facets' corners, ends included
    std::vector<double> halves;                ///< profile: half-widths at the breaks
    double baseZ = 0, topZ = 0;                ///< taper
    Frame frame;                               ///< of the form
    bool mirrored = false;                     ///< reflected in y = 0 after that

    /// @param t  parameter of the path, @param v  0..1 along the ruling
    [[nodiscard]] Vec3 at(double t, double v) const;
};

/// Curved sides of all forms that become part of the skin; those of plate forms only shape an outline and are
/// left out, and so is a form that cannot be read (resolveForms() tells why).
[[nodiscard]] std::vector<CurvedSide> curvedSides(const Project& project, const Scope& scope);

/// The largest moves of traced forms that were made flat, for forms in document order.
[[nodiscard]] std::vector<FlatMove> flatMoves(const Project& project, const Scope& scope);

} // namespace slab
