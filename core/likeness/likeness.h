#pragma once
// How like its curved subject the flat body is, and how that grows with the number of plates.
#include "core/base/job.h"
#include "core/body/skin.h"
#include "core/document/edit.h"
#include <string>
#include <vector>

namespace slab {

/// Distance between the curved sides of the forms and the facets that stand for them, mm, where neither lies
/// inside another form.
struct Likeness {
    int curves = 0;      ///< curved sides that were compared, both hands counted
    double greatest = 0; ///< the furthest that the curved side lies from its facets, or they from it
    double mean = 0;     ///< over the area of the curved sides and of their facets
    bool operator==(const Likeness&) const = default;
};

/// Each curved side against its facets and the other way round, at the nodes of Gauss's rule. Curves of plate
/// forms shape an outline only and make no plates: they are left out, as are round forms, which stay round.
/// @source  full circle of n facets, by integration: greatest R (1 − cos a), a = π/n; mean over the circle's
///          side R (sin a / a − cos a), over the facets R − R (1 + cos² a asinh(tan a) / sin a) / 2
[[nodiscard]] Likeness likenessOf(const Project& project, const Scope& scope);

/// A curve of the document and the facets that it is given.
struct CurveFacets {
    std::size_t form = 0, curve = 0; ///< "/forms/form/curves/curve"
    int facets = 1;
    bool operator==(const CurveFacets&) const = default;
};
/// One way to choose the facets of all curves.
struct LikenessPoint {
    int plates = 0; ///< faces of the skin that have a material
    double greatest = 0, mean = 0;
    std::string how; ///< "as drawn", "one facet each", "0.5 times the facets", "within 12 mm"
    std::vector<CurveFacets> facets;
    bool operator==(const LikenessPoint&) const = default;
};
struct LikenessSurvey {
    LikenessPoint now;                 ///< the document as it is
    std::vector<LikenessPoint> points; ///< rising plates, falling greatest and mean; empty without curves
    bool operator==(const LikenessSurvey&) const = default;
};

/// Facets of all curves together, from one each to fine: shares of those in the document, and as few as keep
/// to one chord error. What costs as many plates without being more like is left out. The same on every run;
/// a stopped one has the points that were ready.
/// @param scope  of the project at its scale
[[nodiscard]] LikenessSurvey surveyLikeness(const Project& project, const Scope& scope, const Job& job = {});

/// Gives the curves the facets of a point; their tolerances are emptied.
/// @error "curve-gone" if the document no longer has one of them
[[nodiscard]] Edit setFacets(const LikenessPoint& point);

} // namespace slab
