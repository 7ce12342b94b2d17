#include "core/lines/handles.h"
#include "core/lines/curve_lines.h"
#include <cmath>

namespace slab::detail {

namespace {

constexpr double leastSeen = 0.05; ///< of a knob's way: what is seen more on edge cannot be dragged by it

Vec3 eyeOf(BoardView view) {
    return view == BoardView::side    ? Vec3(0, -1, 0)
           : view == BoardView::front ? Vec3::UnitX()
                                      : Vec3::UnitZ();
}

/// Collects one form's handles.
class Collector {
public:
    Collector(const Project& project, int form, const Scope& scope, BoardView view)
        : m_form(project.forms[static_cast<std::size_t>(form)]), m_index(form), m_scope(scope), m_view(view),
          m_base("/forms/" + std::to_string(form)) {}

    std::vector<BoardPoint> all(bool everyHandle) {
        const auto place = placeOf(m_form, m_scope);
        if (!place) return {};
        m_place = *place;
        m_every = everyHandle;
        std::visit([&](const auto& s) { shape(s); }, m_form.shape);
        add({m_base, Handle::place}, m_form.name, Vec3::Zero(), {});
        BoardPoint& own = m_found.back();
        own.place = m_place.translation;
        for (int axis = 0; axis < 3; ++axis)
            own.knobs.push_back({m_base + "/at/" + "xyz"[axis], Vec3::Unit(axis)});
        for (BoardPoint& p : m_found) finish(p);
        if (m_form.mirror) reflected();
        return std::move(m_found);
    }

private:
    const Form& m_form;
    int m_index;
    const Scope& m_scope;
    BoardView m_view;
    std::string m_base;
    FormPlace m_place;
    bool m_every = false;
    std::vector<BoardPoint> m_found;

    struct LocalKnob {
        std::string field;
        Vec3 along;
    };

    void add(const PointRef& ref, const std::string& name, const Vec3& local,
             const std::vector<LocalKnob>& knobs) {
        BoardPoint p;
        p.ref = ref;
        p.name = name;
        p.form = m_index;
        p.place = m_place.toBody(local);
        for (const LocalKnob& k : knobs) p.knobs.push_back({k.field, m_place.rotation * k.along});
        m_found.push_back(std::move(p));
    }

    void finish(BoardPoint& p) const {
        p.at = seen(p.place, m_view);
        for (const KnobStep& s : stepsFor(p.knobs, m_view, Vec2::UnitX()))
            p.freeRight = p.freeRight || std::abs(s.step) > 1e-9;
        for (const KnobStep& s : stepsFor(p.knobs, m_view, Vec2::UnitY()))
            p.freeUp = p.freeUp || std::abs(s.step) > 1e-9;
        std::erase_if(p.knobs, [&](const Knob& k) { return seen(k.along, m_view).norm() < leastSeen; });
    }

    void reflected() {
        const std::size_t count = m_found.size();
        for (std::size_t i = 0; i < count; ++i) {
            BoardPoint p = m_found[i];
            p.place.y() = -p.place.y();
            copy(std::move(p));
        }
    }
    void copy(BoardPoint p) {
        p.at = seen(p.place, m_view);
        p.knobs.clear();
        p.freeRight = p.freeUp = false;
        p.mirrored = true;
        m_found.push_back(std::move(p));
    }

    [[nodiscard]] std::string named(const std::vector<OutlinePoint>& points, std::size_t i) const {
        return m_form.name + "/" + pointName(points, i);
    }

    void shape(const ProfileShape& s) {
        const bool side = showsSide(m_form, m_place, m_view);
        std::vector<BoardPoint> starboard;
        for (std::size_t i = 0; i < s.outline.size(); ++i) {
            const OutlinePoint& o = s.outline[i];
            const auto x = lengthOf(o.x, m_scope), z = lengthOf(o.z, m_scope),
                       h = lengthOf(o.half_width, m_scope);
            if (!x || !z) continue;
            const std::string at = m_base + "/outline/" + std::to_string(i);
            const LocalKnob kx{at + "/x", Vec3::UnitX()}, kz{at + "/z", Vec3::UnitZ()};
            if (side || m_every) add({at, Handle::corner}, named(s.outline, i), {*x, 0, *z}, {kx, kz});
            if ((side && !m_every) || !h) continue;
            add({at, Handle::halfWidth}, named(s.outline, i), {*x, *h, *z},
                {{at + "/half_width", Vec3::UnitY()}, kx, kz});
            if (m_every || *h == 0) continue;
            BoardPoint other = m_found.back();
            other.place = m_place.toBody({*x, -*h, *z});
            starboard.push_back(std::move(other));
        }
        curves("outline");
        for (BoardPoint& p : starboard) copy(std::move(p));
    }

    void shape(const PlateShape& s) {
        flat(s.outline, "outline", 0, {});
        curves("outline");
    }

    void shape(const TaperShape& s) {
        const auto base = lengthOf(s.base_z, m_scope), top = lengthOf(s.top_z, m_scope);
        if (base) flat(s.base, "base", *base, {{m_base + "/base_z", Vec3::UnitZ()}});
        if (top) flat(s.top, "top", *top, {{m_base + "/top_z", Vec3::UnitZ()}});
        if (base) curves("base", *base);
    }

    void flat(const std::vector<OutlinePoint>& points, const std::string& list, double z,
              const std::vector<LocalKnob>& more) {
        for (std::size_t i = 0; i < points.size(); ++i) {
            const auto x = lengthOf(points[i].x, m_scope), y = lengthOf(points[i].y, m_scope);
            if (!x || !y) continue;
            const std::string at = m_base + "/" + list + "/" + std::to_string(i);
            std::vector<LocalKnob> knobs{{at + "/x", Vec3::UnitX()}, {at + "/y", Vec3::UnitY()}};
            knobs.insert(knobs.end(), more.begin(), more.end());
            add({at, Handle::corner}, named(points, i), {*x, *y, z}, knobs);
        }
    }

    void shape(const FacetShape& s) {
        for (std::size_t i = 0; i < s.corners.size(); ++i) {
            const OutlinePoint& o = s.corners[i];
            const auto x = lengthOf(o.x, m_scope), y = lengthOf(o.y, m_scope), z = lengthOf(o.z, m_scope);
            if (!x || !y || !z) continue;
            const std::string at = m_base + "/corners/" + std::to_string(i);
            add({at, Handle::corner}, named(s.corners, i), {*x, *y, *z},
                {{at + "/x", Vec3::UnitX()}, {at + "/y", Vec3::UnitY()}, {at + "/z", Vec3::UnitZ()}});
        }
    }

    void shape(const RoundShape& s) {
        const auto d = lengthOf(s.diameter, m_scope), length = lengthOf(s.length, m_scope);
        const auto top = s.top_diameter.empty() ? d : lengthOf(s.top_diameter, m_scope);
        if (!d || !length || !top) return;
        add({m_base, Handle::roundEnd}, m_form.name + "/end", {0, 0, *length},
            {{m_base + "/length", Vec3::UnitZ()}});
        // Where its outline is seen: across the axis in the view.
        const Vec3 eye = m_place.rotation.transpose() * eyeOf(m_view);
        Vec3 out = eye.cross(Vec3::UnitZ());
        if (out.norm() < 0.1)
            out = m_place.rotation.transpose() * (m_view == BoardView::front ? Vec3::UnitY() : Vec3::UnitX());
        out.normalize();
        add({m_base, Handle::radius}, m_form.name + "/radius", out * (*d / 2),
            {{m_base + "/diameter", out / 2}});
        add({m_base, Handle::topRadius}, m_form.name + "/end radius", Vec3(0, 0, *length) + out * (*top / 2),
            {{m_base + "/top_diameter", out / 2}});
    }

    /// Handles of the curves of a list that lies at a height of the form.
    void curves(const std::string& list, double height = 0) {
        const Local local = localOf(m_form);
        if (std::holds_alternative<ProfileShape>(m_form.shape) && !m_every &&
            !showsSide(m_form, m_place, m_view))
            return;
        const Vec3 lift(0, 0, height);
        const auto* points = pointsOf(m_form, list);
        for (const CurvedEdge& e : curvedEdges(m_form, list, m_scope)) {
            const std::string at = m_base + "/curves/" + std::to_string(e.curve);
            const std::string name = named(*points, static_cast<std::size_t>(e.edge)) + " curve";
            const auto kind = (*curvesOf(m_form))[static_cast<std::size_t>(e.curve)].kind;
            const auto both = [&](const std::string& of) {
                return std::vector<LocalKnob>{{of + "/" + local.rightField, local.right},
                                              {of + "/" + local.upField, local.up}};
            };
            if (kind == CurveKind::arc)
                add({at, Handle::curve}, name, local.at(e.handle) + lift,
                    {{at + "/bulge", local.at(e.handleAlong)}});
            else if (kind == CurveKind::ellipse)
                add({at, Handle::curve}, name, local.at(e.handle) + lift, both(at));
            for (std::size_t i = 0; i < e.through.size(); ++i) {
                const std::string of = at + "/through/" + std::to_string(i);
                add({of, Handle::curve}, name + " " + std::to_string(i + 1), local.at(e.through[i]) + lift,
                    both(of));
            }
        }
    }
};

} // namespace

std::optional<double> lengthOf(const Text& text, const Scope& scope, Space space) {
    if (text.find_first_not_of(" \t\r\n") == std::string::npos) return 0;
    const auto value = evaluate(text, scope, space, Kind::length);
    if (!value || !std::isfinite(value->value)) return {};
    return value->value;
}

std::optional<FormPlace> placeOf(const Placement& at, const Scope& scope, Space space) {
    const auto angle = [&](const Text& text) -> std::optional<double> {
        if (text.find_first_not_of(" \t\r\n") == std::string::npos) return 0;
        const auto value = evaluate(text, scope, space, Kind::angle);
        if (!value) return {};
        return value->value;
    };
    const auto roll = angle(at.roll), pitch = angle(at.pitch), yaw = angle(at.yaw);
    const auto x = lengthOf(at.x, scope, space), y = lengthOf(at.y, scope, space),
               z = lengthOf(at.z, scope, space);
    if (!roll || !pitch || !yaw || !x || !y || !z) return {};
    FormPlace place;
    place.translation = {*x, *y, *z};
    place.rotation = (Eigen::AngleAxisd(*yaw, Vec3::UnitZ()) * Eigen::AngleAxisd(*pitch, Vec3::UnitY()) *
                      Eigen::AngleAxisd(*roll, Vec3::UnitX()))
                         .toRotationMatrix();
    // Quarter turns come out exactly, as resolveForms() has them.
    for (double& r : place.rotation.reshaped())
        if (std::abs(r - std::round(r)) < 1e-15) r = std::round(r);
    return place;
}

std::optional<FormPlace> placeOf(const Form& form, const Scope& scope) {
    return placeOf(form.at, scope);
}

Local localOf(const Form& form) {
    if (std::holds_alternative<ProfileShape>(form.shape)) return {Vec3::UnitX(), Vec3::UnitZ(), "x", "z"};
    return {};
}

bool showsSide(const Form& form, const FormPlace& place, BoardView view) {
    return !std::holds_alternative<ProfileShape>(form.shape) ||
           std::abs(place.rotation.col(1).dot(eyeOf(view))) > 0.7;
}

std::optional<Ring> ringOf(const Form& form, const std::string& list, const Scope& scope) {
    const auto* points = pointsOf(form, list);
    if (!points) return {};
    const bool side = std::holds_alternative<ProfileShape>(form.shape);
    Ring ring;
    for (const OutlinePoint& p : *points) {
        const auto x = lengthOf(p.x, scope), up = lengthOf(side ? p.z : p.y, scope);
        if (!x || !up) return {};
        ring.emplace_back(*x, *up);
    }
    return ring;
}

std::vector<BoardPoint> handlesOf(const Project& project, int form, const Scope& scope, BoardView view) {
    return Collector(project, form, scope, view).all(false);
}

std::optional<BoardPoint> handleAt(const Project& project, const PointRef& ref, const Scope& scope,
                                   BoardView view) {
    const auto place = placeIn(ref.pointer);
    if (!place || place->form >= static_cast<int>(project.forms.size())) return {};
    for (BoardPoint& p : Collector(project, place->form, scope, view).all(true))
        if (p.ref == ref && !p.mirrored) return std::move(p);
    return {};
}

std::vector<KnobStep> stepsFor(const std::vector<Knob>& knobs, BoardView view, const Vec2& delta) {
    std::vector<std::pair<const Knob*, Vec2>> ways;
    for (const Knob& k : knobs)
        if (const Vec2 way = seen(k.along, view); way.norm() >= leastSeen) ways.emplace_back(&k, way);
    std::size_t first = 0, second = 0;
    double best = 0;
    for (std::size_t i = 0; i < ways.size(); ++i)
        for (std::size_t j = i + 1; j < ways.size(); ++j) {
            const Vec2 &a = ways[i].second, &b = ways[j].second;
            if (std::abs(cross2(a.normalized(), b.normalized())) < leastSeen ||
                std::abs(cross2(a, b)) <= best + 1e-12)
                continue;
            best = std::abs(cross2(a, b));
            first = i;
            second = j;
        }
    if (best > 0) {
        const Vec2 &a = ways[first].second, &b = ways[second].second;
        const double det = cross2(a, b);
        return {{ways[first].first, cross2(delta, b) / det}, {ways[second].first, cross2(a, delta) / det}};
    }
    const std::pair<const Knob*, Vec2>* longest = nullptr;
    for (const auto& w : ways)
        if (!longest || w.second.norm() > longest->second.norm() + 1e-9) longest = &w;
    if (!longest) return {};
    return {{longest->first, delta.dot(longest->second) / longest->second.squaredNorm()}};
}

} // namespace slab::detail
