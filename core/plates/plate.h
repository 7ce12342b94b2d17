#pragma once
// A plate is one skin face with a material, growing inward; a panel is a plate laid flat.
#include "core/base/shared_list.h"
#include "core/body/skin.h"
#include "core/geometry/convex.h"
#include "core/plates/panel.h"
#include "core/plates/rules.h"

namespace slab {

/// A board: of a skin face, a plate form, a frame … What is cut from no sheet, as sticks of timber are, has
/// no outlines, and so no panel.
struct Plate {
    std::string name;
    std::string form;
    int face = -1; ///< index in Body::skin.faces, or -1 for a plate form
    std::string stock;
    double thickness = 0;
    int rank = 0; ///< 0 is the highest
    Frame frame;  ///< panel to body; w outward; outer face at w = 0, inner at w = -thickness
    PanelLoop boundary;
    std::vector<PanelLoop> holes;
    std::vector<FaceRest> rests;   ///< plate forms only
    std::vector<Contact> contacts; ///< plate forms that stand or lie on it
    std::vector<GuideLine> guides{};
    Polyhedron solid;               ///< body axes
    std::vector<ConvexSolid> cells; ///< the solid as convex pieces, for live distances
    double volume = 0;              ///< of the solid, mm³
    double density = 0;             ///< kg/m³, of what is cut from no sheet; else 0
    bool operator==(const Plate&) const = default;
};

/// Copies share their plates: few steps change one that another step made.
using PlateList = SharedList<Plate>;

/// Space in the shell that no plate fills, or that two fill.
struct Misfit {
    std::vector<std::string> plates;
    double volume = 0; ///< mm³
    Vec3 at = Vec3::Zero();
    bool operator==(const Misfit&) const = default;
};

/// One skin edge and what was decided there, for the views.
struct JointInfo {
    std::string a, b; ///< plate names; for cover, a covers b
    JointKind kind = JointKind::cover;
    bool forced = false; ///< by an override
    double dihedral = 0;
    Vec3 from = Vec3::Zero(), to = Vec3::Zero();
    double step = 0; ///< inner step left by a bisector cut, mm
    int mark = 0;
    std::string why; ///< plain words: why this joint ("hull/deck ranks above hull/port", "near flat: mitred")
    bool operator==(const JointInfo&) const = default;
};

struct PlateSet {
    PlateList plates;
    std::vector<Misfit> gaps, overlaps;
    std::vector<JointInfo> joints;
    std::vector<Panel> blanks; ///< plates joined by folds, each blank once; makePanels() finds the copies
    std::vector<Finding> findings;
    bool operator==(const PlateSet&) const = default;
};

/// The sharing rule of the shell: highest rank first, equals by least depth / thickness; then openings.
///
/// Σ plate volumes + Σ gaps = shell; no two plates have a common volume above 1e-6 mm³.
[[nodiscard]] PlateSet buildPlates(const Body& body, const PlateRules& rules, const Job& job = {});

/// Ranks and materials from the document for this body.
[[nodiscard]] PlateRules resolveRules(const Project& project, const Scope& scope, const Body& body,
                                      std::vector<Finding>& findings);

[[nodiscard]] std::vector<Panel> makePanels(const PlateSet& plates);

} // namespace slab
