#pragma once
// Forms -> skin. resolveForms() reads the formulas and makes each form a closed solid with exactly flat,
// named sides; joinForms() snaps near planes together, joins the solids that touch, and names the faces;
// rescaled() spares the joining while only the scale moves. Plate and round forms are passed on as they are.
#include "core/base/finding.h"
#include "core/base/job.h"
#include "core/document/project.h"
#include "core/geometry/polygon.h"
#include "core/geometry/polyhedron.h"
#include <functional>

namespace slab {

/// One planar face of a skin, at build size.
struct SkinFace {
    std::string name;                 ///< "hull/port", pieces "hull/port#2"
    std::string form;                 ///< "hull"
    std::vector<std::string> aliases; ///< other form/sides merged into it
    int body = 0;                     ///< index of its closed skin
    Plane plane;
    std::vector<std::vector<int>> loops; ///< vertex indices; outer counter-clockwise from outside, then holes
    bool operator==(const SkinFace&) const = default;
};

/// An edge between exactly two faces. From `a` to `b` the face `left` has it counter-clockwise.
struct SkinEdge {
    int a = 0, b = 0;
    int left = 0, right = 0;
    double dihedral = 0; ///< through the inside, (0, 2π); > π on a valley
    bool operator==(const SkinEdge&) const = default;
};

/// All closed skins: body 0..n-1; joined forms that touch make one body, each standing form its own.
struct Skin {
    std::vector<Vec3> vertices;
    std::vector<SkinFace> faces;
    std::vector<SkinEdge> edges;
    int bodies = 0;
    bool operator==(const Skin&) const = default;
};

/// A plate form: one flat plate, outside face on the plane w = 0 of its frame, growing towards -w.
struct FreePlate {
    std::string name; ///< "rub rail port/plate"
    std::string form;
    Frame frame;
    Polygon outline; ///< u, v
    bool operator==(const FreePlate&) const = default;
};

/// A round form: cylinder or cone, never joined.
struct RoundPart {
    std::string name; ///< form name
    Vec3 base = Vec3::Zero(), top = Vec3::Zero();
    double radius = 0, topRadius = 0, wall = 0, gap = 0;
    bool cuts = true;
    std::string part;
    bool operator==(const RoundPart&) const = default;
};

/// What is left of a curved edge after its facets.
struct CurveFit {
    std::string form, side; ///< facets are named "side~1", …
    int facets = 1;
    double deviation = 0; ///< greatest distance of the curve from its facets, mm
    bool operator==(const CurveFit&) const = default;
};

struct Body {
    Skin skin;
    std::vector<FreePlate> plates;
    std::vector<RoundPart> rounds;
    double volume = 0, area = 0; ///< of the skin, mm³ and mm²
    Box3 bounds;                 ///< of everything
    std::vector<CurveFit> curves;
    std::vector<PieceKey> pieces; ///< keys of #n pieces as named now, to be saved with the document
    std::vector<Finding> findings;
    bool operator==(const Body&) const = default;
};

/// Forms with formulas read, before joining. Plain numbers at build size.
struct FormSolid {
    std::string form; ///< with " port"/" starboard" when mirrored
    Polyhedron solid; ///< closed; face names are sides ("port")
    bool standing = false;
    bool scales = true; ///< every coordinate is subject × scale, so the joined skin can be rescaled
    bool operator==(const FormSolid&) const = default;
};
struct ResolvedForms {
    std::vector<FormSolid> solids;
    std::vector<FreePlate> plates;
    std::vector<RoundPart> rounds;
    std::vector<CurveFit> curves;
    double scale = 1;
    UnitStyle units; ///< for messages
    std::vector<Finding> findings;
    bool operator==(const ResolvedForms&) const = default;
};

/// Reads every form's formulas and makes its solid. A form that cannot be made gives a finding and is left
/// out.
[[nodiscard]] ResolvedForms resolveForms(const Project& project, const Scope& scope);

/// Asked for two face names: may coplanar touching faces become one plate (same material, no seam)?
using MayMerge = std::function<bool(const std::string&, const std::string&)>;

/// Joins the forms to one skin: snap near-coincident planes, fuse, merge coplanar faces, name, check.
/// @error never; what goes wrong is in Body::findings, and what is sound stays
[[nodiscard]] Body joinForms(const ResolvedForms& forms, const MayMerge& mayMerge,
                             const std::vector<PieceKey>& keys = {}, const Job& job = {});

/// The same body at another scale, without joining again. Needs every joined form to have `scales`; plates
/// and rounds come from `forms`, which was resolved at the new scale.
[[nodiscard]] Body rescaled(const Body& unit, double unitScale, const ResolvedForms& forms);

/// Neighbour edges and dihedrals from faces; used by joinForms and by tests that make skins by hand.
/// @error "not-closed", "edge-contact"
[[nodiscard]] Expected<Skin> makeSkin(const Polyhedron& solid);
/// Polyhedron of one body (or of all, body = -1).
[[nodiscard]] Polyhedron toPolyhedron(const Skin& skin, int body = -1);

} // namespace slab
