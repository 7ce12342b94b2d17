// Forms drawn anew and doubled.
#include "core/board/formula_text.h"
#include "core/board/moves.h"
#include "core/board/outline_edits.h"
#include "core/board/outline_parts.h"
#include "core/donor/donor.h"
#include "core/lines/lines.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace {

class Drawer {
public:
    Drawer(const NewForm& wanted, const Scope& scope) : m_wanted(wanted), m_scope(scope) {
        for (const Vec2& p : wanted.places) m_box = united(m_box.value_or(Box2{p, p}), {p, p});
    }

    Expected<Form> make() {
        const std::string& kind = m_wanted.kind;
        const std::size_t least = kind == "round" ? 2 : 3;
        if (m_wanted.places.size() < least)
            return fail("outline-short",
                        "A " + kind + " form needs at least " + (least == 2 ? "two" : "three") + " places.",
                        {}, "Click further places before you end the outline.");
        if (kind == "profile" && m_wanted.view == BoardView::side)
            m_form.shape = profile();
        else if (kind == "taper" && m_wanted.view == BoardView::plan)
            m_form.shape = taper();
        else if (kind == "plate")
            m_form.shape = plate();
        else if (kind == "round")
            m_form.shape = round();
        else if (kind == "facet")
            m_form.shape = facet();
        else
            return fail("unknown-kind",
                        "A " + kind + " form is not drawn in the " + viewName(m_wanted.view) + " elevation.",
                        {}, "Draw profile forms in the side elevation, taper forms in the plan.");
        return m_form;
    }

private:
    const NewForm& m_wanted;
    const Scope& m_scope;
    std::optional<Box2> m_box;
    Form m_form;

    [[nodiscard]] Text text(double mm) const { return detail::subjectText(mm, m_scope, m_wanted.step); }
    [[nodiscard]] double extent() const { return m_box->size().maxCoeff(); }
    [[nodiscard]] double size(double share) const {
        return m_wanted.size > 0 ? m_wanted.size : share * extent();
    }

    [[nodiscard]] OutlinePoint point(std::size_t i, bool side) const {
        OutlinePoint p;
        p.name = "p" + std::to_string(i + 1);
        p.x = text(m_wanted.places[i].x());
        (side ? p.z : p.y) = text(m_wanted.places[i].y());
        return p;
    }

    ProfileShape profile() const {
        ProfileShape s;
        for (std::size_t i = 0; i < m_wanted.places.size(); ++i) {
            s.outline.push_back(point(i, true));
            s.outline.back().half_width = text(size(0.2));
        }
        return s;
    }
    TaperShape taper() const {
        TaperShape s;
        for (std::size_t i = 0; i < m_wanted.places.size(); ++i) s.base.push_back(point(i, false));
        s.top = s.base;
        s.base_z = text(m_wanted.from);
        s.top_z = text(m_wanted.from + size(0.5));
        return s;
    }
    /// Outside face towards the eye.
    PlateShape plate() {
        PlateShape s;
        for (std::size_t i = 0; i < m_wanted.places.size(); ++i) s.outline.push_back(point(i, false));
        const Text from = m_wanted.from == 0 ? Text{} : text(m_wanted.from);
        if (m_wanted.view == BoardView::plan)
            m_form.at.z = from;
        else
            m_form.at.roll = "90 deg";
        if (m_wanted.view == BoardView::side) m_form.at.y = from;
        if (m_wanted.view == BoardView::front) {
            m_form.at.yaw = "90 deg";
            m_form.at.x = from;
        }
        return s;
    }
    static Text degrees(double radians) {
        const double value = radians * 180 / std::numbers::pi;
        return printExact(std::round(value * 1e9) / 1e9, Unit::none) + " deg";
    }
    RoundShape round() {
        const Vec2 from = m_wanted.places.front(), way = m_wanted.places.back() - from;
        RoundShape s;
        s.length = text(way.norm());
        s.diameter = text(2 * size(0.2));
        Placement& at = m_form.at;
        const Text across = m_wanted.from == 0 ? Text{} : text(m_wanted.from);
        if (m_wanted.view == BoardView::side) {
            at = {text(from.x()), across, text(from.y()), {}, degrees(std::atan2(way.x(), way.y())), {}, {}};
        } else if (m_wanted.view == BoardView::front) {
            at = {across, text(from.x()), text(from.y()), degrees(std::atan2(-way.x(), way.y())), {}, {}, {}};
        } else {
            at = {text(from.x()),
                  text(from.y()),
                  across,
                  {},
                  "90 deg",
                  degrees(std::atan2(way.y(), way.x())),
                  {}};
        }
        return s;
    }
    /// The outline drawn twice, half the depth to either side of `from`.
    FacetShape facet() const {
        FacetShape s;
        const bool side = m_wanted.view == BoardView::side, front = m_wanted.view == BoardView::front;
        const double depth = size(0.3);
        const std::size_t n = m_wanted.places.size();
        for (const double across : {m_wanted.from - depth / 2, m_wanted.from + depth / 2})
            for (std::size_t i = 0; i < n; ++i) {
                const Vec2& p = m_wanted.places[i];
                OutlinePoint c;
                c.name = (across < m_wanted.from ? "a" : "b") + std::to_string(i + 1);
                c.x = text(front ? across : p.x());
                c.y = text(side ? across : front ? p.x() : p.y());
                c.z = text(side || front ? p.y() : across);
                s.corners.push_back(std::move(c));
            }
        FacetFace near{"near", {}, {}}, far{"far", {}, {}};
        for (std::size_t i = 0; i < n; ++i) {
            near.corners.insert(near.corners.begin(), s.corners[i].name);
            far.corners.push_back(s.corners[n + i].name);
            const std::size_t j = (i + 1) % n;
            s.faces.push_back(
                {"f" + std::to_string(i + 1),
                 {s.corners[i].name, s.corners[j].name, s.corners[n + j].name, s.corners[n + i].name},
                 {}});
        }
        s.faces.push_back(std::move(near));
        s.faces.push_back(std::move(far));
        return s;
    }
};

/// A plate name or pattern of the copied form, under the copy's name; nothing if it is of another.
std::optional<std::string> copied(const std::string& pattern, const std::string& from,
                                  const std::string& to) {
    for (const std::string hand : {"", " port", " starboard", " *"})
        if (pattern.starts_with(from + hand + "/")) return to + pattern.substr(from.size());
    return {};
}

Expected<Project> doubled(const Project& project, int index, const Form& placed) {
    if (index < 0 || index >= static_cast<int>(project.forms.size()))
        return fail("no-such-point", "There is no such form.", {}, "Choose the form again.");
    Project next = project;
    const std::string from = project.forms[static_cast<std::size_t>(index)].name,
                      to = freshFormName(project, from);
    Form copy = placed;
    copy.name = to;
    next.forms.insert(next.forms.begin() + index + 1, std::move(copy));
    std::vector<PlateMaterial> plates;
    for (const PlateMaterial& m : project.materials.plates) {
        plates.push_back(m);
        if (const auto name = copied(m.plates, from, to)) plates.push_back({*name, m.stock});
    }
    next.materials.plates = std::move(plates);
    std::vector<std::string> order;
    for (const std::string& o : project.joints.order) {
        order.push_back(o);
        if (const auto name = copied(o, from, to)) order.push_back(*name);
    }
    next.joints.order = std::move(order);
    for (const EdgeJoint& e : project.joints.edges) {
        const auto a = copied(e.a, from, to), b = copied(e.b, from, to);
        if (!a || !b) continue;
        EdgeJoint joint = e;
        joint.a = *a;
        joint.b = *b;
        next.joints.edges.push_back(std::move(joint));
    }
    return next;
}

} // namespace

std::string freshFormName(const Project& project, const std::string& like) {
    const auto taken = [&](const std::string& name) {
        return std::any_of(project.forms.begin(), project.forms.end(), [&](const Form& f) {
            const auto names = detail::handNames(f);
            return f.name == name || std::find(names.begin(), names.end(), name) != names.end();
        });
    };
    if (!taken(like)) return like;
    std::string stem = like;
    if (const auto blank = stem.rfind(' ');
        blank != std::string::npos && blank + 1 < stem.size() &&
        stem.find_first_not_of("0123456789", blank + 1) == std::string::npos)
        stem.resize(blank);
    for (int n = 2;; ++n)
        if (std::string name = stem + " " + std::to_string(n); !taken(name)) return name;
}

namespace {

/// Thickness of the sheet that plates are made of as a rule; without one a usual board's.
double usualThickness(const Project& project, const Scope& scope) {
    constexpr double usual = 13; // mm: half-inch foam, common practice
    double thickest = 0;
    for (const SheetStock& sheet : project.stock.sheets) {
        const auto value = evaluate(sheet.thickness, scope, Space::build, Kind::length);
        if (!value) continue;
        if (sheet.name == project.materials.fallback) return value->value;
        thickest = std::max(thickest, value->value);
    }
    return thickest > 0 ? thickest : usual;
}

/// Half the width that what stands inside a side outline needs, with its clearance and the plate: donor and
/// rider go into a new body as a matter of course. To 10 mm or an inch of the subject. 0 = nothing stands
/// there.
double halfAround(const Project& project, const Scope& scope, const std::vector<Vec2>& outline) {
    double half = 0;
    for (const FitSolid& solid : resolveDonor(project, scope).solids) {
        const Box3 box = bounds(solid.shape);
        const Vec3 middle = (box.min + box.max) / 2;
        if (!contains(outline, Vec2(middle.x(), middle.z()))) continue;
        half = std::max({half, -box.min.y() + solid.clearance, box.max.y() + solid.clearance});
    }
    if (!(half > 0) || !(scope.scale > 0)) return 0;
    const double step = scope.unit == Unit::in || scope.unit == Unit::ft ? 25.4 : 10;
    return std::ceil((half + usualThickness(project, scope)) / scope.scale / step - 1e-9) * step *
           scope.scale;
}

} // namespace

Expected<Edit> addForm(const Project& project, const Scope& scope, const NewForm& drawn) {
    NewForm wanted = drawn;
    if (wanted.kind == "profile" && !(wanted.size > 0))
        wanted.size = halfAround(project, scope, wanted.places);
    auto form = Drawer(wanted, scope).make();
    if (!form) return Unexpected(form.error());
    form->name = wanted.name.empty() ? freshFormName(project, wanted.kind) : wanted.name;
    return detail::formEdit(project, "Add form " + form->name,
                            [form = *form](const Project& p) -> Expected<Project> {
                                if (std::any_of(p.forms.begin(), p.forms.end(),
                                                [&](const Form& f) { return f.name == form.name; }))
                                    return fail("name-taken", "There is already a form " + form.name + ".",
                                                {}, "Choose another name.");
                                Project next = p;
                                next.forms.push_back(form);
                                return next;
                            });
}

Expected<Edit> duplicateForm(const Project& project, const Scope& scope, BoardView view, int form,
                             const Vec2& delta) {
    const auto moved = moveForm(project, scope, view, form, delta);
    if (!moved) return moved;
    const auto placed = moved->apply(project);
    if (!placed) return Unexpected(placed.error());
    const Form copy = placed->forms[static_cast<std::size_t>(form)];
    return detail::formEdit(project, "Duplicate " + copy.name,
                            [form, copy](const Project& p) { return doubled(p, form, copy); });
}

} // namespace slab
