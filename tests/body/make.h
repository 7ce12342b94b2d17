#pragma once
// Short ways to write forms and bodies in tests.
#include "core/body/skin.h"
#include "tests/geometry/seed.h"
#include <array>
#include <cstdio>
#include <gtest/gtest.h>

namespace slab {

/// Exact text of a length in mm.
inline Text mm(double value) {
    char text[40];
    std::snprintf(text, sizeof text, "%.17g mm", value);
    return text;
}

inline OutlinePoint planPoint(const std::string& name, double x, double y) {
    OutlinePoint p;
    p.name = name;
    p.x = mm(x);
    p.y = mm(y);
    return p;
}
inline OutlinePoint sidePoint(const std::string& name, double x, double z, double half) {
    OutlinePoint p;
    p.name = name;
    p.x = mm(x);
    p.z = mm(z);
    p.half_width = mm(half);
    return p;
}
inline OutlinePoint corner(const std::string& name, const Vec3& at) {
    OutlinePoint p;
    p.name = name;
    p.x = mm(at.x());
    p.y = mm(at.y());
    p.z = mm(at.z());
    return p;
}

inline Form named(std::string name, Shape shape) {
    Form form;
    form.name = std::move(name);
    form.shape = std::move(shape);
    return form;
}

/// Box as a taper form: sides starboard (y min), front (x max), port, back.
inline Form boxForm(std::string name, const Vec3& min, const Vec3& max) {
    TaperShape s;
    s.base = {planPoint("starboard", min.x(), min.y()), planPoint("front", max.x(), min.y()),
              planPoint("port", max.x(), max.y()), planPoint("back", min.x(), max.y())};
    s.top = s.base;
    s.base_z = mm(min.z());
    s.top_z = mm(max.z());
    return named(std::move(name), s);
}

inline Project projectOf(std::vector<Form> forms) {
    Project p;
    p.forms = std::move(forms);
    return p;
}

inline ResolvedForms resolvedAt(const Project& project, double scale = 1) {
    std::vector<NamedFormula> formulas;
    for (const Dimension& d : project.dimensions) formulas.push_back({d.name, d.value, d.space});
    return resolveForms(project, evaluateAll(formulas, scale, Unit::mm).scope);
}
inline Body bodyOf(const Project& project, double scale = 1, const MayMerge& mayMerge = {},
                   const std::vector<PieceKey>& keys = {}) {
    return joinForms(resolvedAt(project, scale), mayMerge, keys);
}

inline const Finding* find(const std::vector<Finding>& findings, const std::string& code) {
    for (const Finding& f : findings)
        if (f.code == code) return &f;
    return nullptr;
}
inline std::string report(const std::vector<Finding>& findings) {
    std::string text;
    for (const Finding& f : findings) text += f.code + ": " + f.message + "\n";
    return text;
}

inline const SkinFace* face(const Skin& skin, const std::string& name) {
    for (const SkinFace& f : skin.faces)
        if (f.name == name) return &f;
    return nullptr;
}
inline std::vector<std::string> faceNames(const Skin& skin) {
    std::vector<std::string> names;
    for (const SkinFace& f : skin.faces) names.push_back(f.name);
    std::sort(names.begin(), names.end());
    return names;
}
inline const SkinEdge* edge(const Skin& skin, const std::string& a, const std::string& b) {
    for (const SkinEdge& e : skin.edges) {
        const std::string& l = skin.faces[static_cast<std::size_t>(e.left)].name;
        const std::string& r = skin.faces[static_cast<std::size_t>(e.right)].name;
        if ((l == a && r == b) || (l == b && r == a)) return &e;
    }
    return nullptr;
}
inline double areaOf(const Skin& skin, const std::string& name) {
    Polyhedron all{skin.vertices, {}};
    const SkinFace* f = face(skin, name);
    return f ? faceArea(all, PolyFace{f->plane, f->loops, f->name}) : -1;
}
/// Every skin is closed and every corner lies on its planes.
inline double worstOffPlane(const Skin& skin) {
    double worst = 0;
    for (const SkinFace& f : skin.faces)
        for (const auto& loop : f.loops)
            for (int v : loop)
                worst =
                    std::max(worst, std::abs(f.plane.distance(skin.vertices[static_cast<std::size_t>(v)])));
    return worst;
}
inline double degrees(double radians) {
    return radians * 180 / 3.14159265358979323846;
}

/// The only solid of a project of one form without findings; fails the test if there is none.
inline const FormSolid& only(const ResolvedForms& forms) {
    static const FormSolid none;
    EXPECT_TRUE(forms.findings.empty()) << forms.findings.front().message;
    EXPECT_EQ(forms.solids.size(), 1U);
    return forms.solids.empty() ? none : forms.solids.front();
}
inline Form profile(std::string name, std::vector<OutlinePoint> outline) {
    return named(std::move(name), ProfileShape{std::move(outline), {}});
}

} // namespace slab
