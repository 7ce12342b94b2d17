#include "core/board/board.h"
#include "core/board/mechanism_shapes.h"
#include "core/board/silhouette.h"
#include "core/lines/curve_lines.h"
#include "core/lines/handles.h"
#include "core/lines/lines.h"
#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <set>

namespace slab {

namespace {

/// Draws one form's edges into an elevation.
class EdgeDrawer {
public:
    EdgeDrawer(const Project& project, int form, const Scope& scope, BoardElevation& out)
        : m_form(project.forms[static_cast<std::size_t>(form)]), m_index(form), m_scope(scope), m_out(out),
          m_base("/forms/" + std::to_string(form)) {
        for (std::size_t i = 0; i < out.points.size(); ++i)
            if (!out.points[i].mirrored) m_points.emplace(out.points[i].ref, static_cast<int>(i));
    }

    void run() {
        const auto place = detail::placeOf(m_form, m_scope);
        if (!place) return;
        m_place = *place;
        const std::size_t first = m_out.edges.size();
        std::visit([&](const auto& s) { shape(s); }, m_form.shape);
        // In the side elevation a reflected copy lies behind its twin.
        if (!m_form.mirror || m_out.view == BoardView::side) return;
        const std::size_t last = m_out.edges.size();
        for (std::size_t i = first; i < last; ++i) {
            BoardEdge e = m_out.edges[i];
            const int axis = m_out.view == BoardView::front ? 0 : 1;
            for (Vec2& p : e.facets) p[axis] = -p[axis];
            for (Vec2& p : e.line) p[axis] = -p[axis];
            e.pointer.clear();
            e.from = e.to = -1;
            e.mirrored = true;
            m_out.edges.push_back(std::move(e));
        }
    }

private:
    const Form& m_form;
    int m_index;
    const Scope& m_scope;
    BoardElevation& m_out;
    std::string m_base;
    detail::FormPlace m_place;
    std::map<PointRef, int> m_points;

    [[nodiscard]] int pointAt(const PointRef& ref) const {
        const auto at = m_points.find(ref);
        return at == m_points.end() ? -1 : at->second;
    }
    [[nodiscard]] Vec2 toView(const Vec3& local) const { return seen(m_place.toBody(local), m_out.view); }

    BoardEdge& draw(const std::string& side, std::vector<Vec2> line) {
        BoardEdge e;
        e.name = m_form.name + "/" + side;
        e.form = m_index;
        e.line = std::move(line);
        m_out.edges.push_back(std::move(e));
        return m_out.edges.back();
    }

    /// A closed outline whose points lie at `at`; curved edges are replaced by their curves.
    void loop(const std::string& list, Handle handle, const std::vector<Vec3>& at,
              const std::vector<detail::CurvedEdge>& curves, const Vec3& lift) {
        const auto& points = *detail::pointsOf(m_form, list);
        const detail::Local local = detail::localOf(m_form);
        for (std::size_t i = 0; i < points.size(); ++i) {
            const std::size_t next = (i + 1) % points.size();
            std::vector<Vec2> line{toView(at[i]), toView(at[next])}, facets;
            for (const detail::CurvedEdge& c : curves)
                if (c.edge == static_cast<int>(i)) {
                    line.clear();
                    for (const Vec2& p : c.line) line.push_back(toView(local.at(p) + lift));
                    for (const Vec2& p : c.facets) facets.push_back(toView(local.at(p) + lift));
                }
            BoardEdge& e = draw(detail::sideName(points, i), std::move(line));
            const std::string base = m_base + "/" + list + "/";
            e.pointer = base + std::to_string(i);
            e.facets = std::move(facets);
            e.from = pointAt({e.pointer, handle});
            e.to = pointAt({base + std::to_string(next), handle});
        }
    }

    std::vector<Vec3> placesOf(const Ring& ring, const Vec3& lift) const {
        const detail::Local local = detail::localOf(m_form);
        std::vector<Vec3> places;
        for (const Vec2& p : ring) places.push_back(local.at(p) + lift);
        return places;
    }

    void shape(const ProfileShape& s) {
        const auto ring = detail::ringOf(m_form, "outline", m_scope);
        if (!ring || ring->empty()) return;
        std::vector<Vec3> port = placesOf(*ring, Vec3::Zero()), starboard = port;
        if (detail::showsSide(m_form, m_place, m_out.view)) {
            loop("outline", Handle::corner, port, detail::curvedEdges(m_form, "outline", m_scope),
                 Vec3::Zero());
            return;
        }
        for (std::size_t i = 0; i < s.outline.size(); ++i) {
            const auto half = detail::lengthOf(s.outline[i].half_width, m_scope);
            if (!half) return;
            port[i].y() = *half;
            starboard[i].y() = -*half;
        }
        loop("outline", Handle::halfWidth, port, {}, Vec3::Zero());
        for (std::size_t i = 0; i < port.size(); ++i) {
            draw(detail::sideName(s.outline, i),
                 {toView(starboard[i]), toView(starboard[(i + 1) % port.size()])})
                .mirrored = true;
            draw(detail::pointName(s.outline, i), {toView(starboard[i]), toView(port[i])});
        }
    }

    void shape(const TaperShape& s) {
        const auto base = detail::ringOf(m_form, "base", m_scope),
                   top = detail::ringOf(m_form, "top", m_scope);
        const auto baseZ = detail::lengthOf(s.base_z, m_scope), topZ = detail::lengthOf(s.top_z, m_scope);
        if (!base || !top || !baseZ || !topZ) return;
        const Vec3 low(0, 0, *baseZ), high(0, 0, *topZ);
        const auto below = placesOf(*base, low), above = placesOf(*top, high);
        loop("base", Handle::corner, below, detail::curvedEdges(m_form, "base", m_scope), low);
        loop("top", Handle::corner, above, detail::curvedEdges(m_form, "top", m_scope), high);
        for (std::size_t i = 0; i < std::min(below.size(), above.size()); ++i) {
            BoardEdge& e = draw(detail::pointName(s.base, i), {toView(below[i]), toView(above[i])});
            e.from = pointAt({m_base + "/base/" + std::to_string(i), Handle::corner});
            e.to = pointAt({m_base + "/top/" + std::to_string(i), Handle::corner});
        }
    }

    void shape(const PlateShape&) {
        const auto ring = detail::ringOf(m_form, "outline", m_scope);
        if (ring)
            loop("outline", Handle::corner, placesOf(*ring, Vec3::Zero()),
                 detail::curvedEdges(m_form, "outline", m_scope), Vec3::Zero());
    }

    void shape(const FacetShape& s) {
        std::map<std::string, int> number;
        std::vector<std::optional<Vec3>> at;
        for (std::size_t i = 0; i < s.corners.size(); ++i) {
            number.emplace(detail::pointName(s.corners, i), static_cast<int>(i));
            const auto x = detail::lengthOf(s.corners[i].x, m_scope),
                       y = detail::lengthOf(s.corners[i].y, m_scope),
                       z = detail::lengthOf(s.corners[i].z, m_scope);
            at.push_back(x && y && z ? std::optional(Vec3(*x, *y, *z)) : std::nullopt);
        }
        std::set<std::pair<int, int>> drawn;
        for (const FacetFace& face : s.faces)
            for (std::size_t i = 0; i < face.corners.size(); ++i) {
                const auto a = number.find(face.corners[i]),
                           b = number.find(face.corners[(i + 1) % face.corners.size()]);
                if (a == number.end() || b == number.end() ||
                    !drawn.insert(std::minmax(a->second, b->second)).second)
                    continue;
                const auto &p = at[static_cast<std::size_t>(a->second)],
                           &q = at[static_cast<std::size_t>(b->second)];
                if (!p || !q) continue;
                BoardEdge& e = draw(face.name, {toView(*p), toView(*q)});
                e.from = pointAt({m_base + "/corners/" + std::to_string(a->second), Handle::corner});
                e.to = pointAt({m_base + "/corners/" + std::to_string(b->second), Handle::corner});
            }
    }

    void shape(const RoundShape& s) {
        const auto d = detail::lengthOf(s.diameter, m_scope), length = detail::lengthOf(s.length, m_scope);
        const auto top = s.top_diameter.empty() ? d : detail::lengthOf(s.top_diameter, m_scope);
        if (!d || !length || !top) return;
        std::vector<Vec2> all;
        for (const auto& [z, radius, name] :
             {std::tuple(0.0, *d / 2, "base"), std::tuple(*length, *top / 2, "end")}) {
            std::vector<Vec2> circle;
            for (int i = 0; i <= 48; ++i) {
                const double a = 2 * std::numbers::pi * i / 48;
                circle.push_back(toView({radius * std::cos(a), radius * std::sin(a), z}));
            }
            all.insert(all.end(), circle.begin(), circle.end());
            draw(name, std::move(circle));
        }
        Ring hull = convexHull(std::move(all));
        if (hull.empty()) return;
        hull.push_back(hull.front());
        draw("side", std::move(hull));
    }
};

void addSkin(BoardElevation& out, const Body& body) {
    const auto name = [&](int face) { return body.skin.faces[static_cast<std::size_t>(face)].name; };
    for (const SkinEdge& e : body.skin.edges)
        out.skin.push_back({seen(body.skin.vertices[static_cast<std::size_t>(e.a)], out.view),
                            seen(body.skin.vertices[static_cast<std::size_t>(e.b)], out.view), name(e.left),
                            name(e.right)});
}

void addOpenings(BoardElevation& out, const Project& project, const PlateSet& plates) {
    const auto entry = [&](const std::string& name) -> std::string {
        for (std::size_t i = 0; i < project.openings.size(); ++i)
            if (project.openings[i].name == name) return "/openings/" + std::to_string(i);
        return {}; // cut by a form
    };
    for (const Plate& plate : plates.plates)
        for (const PanelLoop& hole : plate.holes) {
            if (hole.opening.empty()) continue;
            Ring ring;
            for (const Vec2& p : hole.outer) ring.push_back(seen(plate.frame.toBody(p), out.view));
            out.shapes.push_back({hole.opening, "opening", {std::move(ring)}, entry(hole.opening)});
        }
}

/// A stretch of a line: at + way * [from, to].
struct Stretch {
    double from = std::numeric_limits<double>::infinity(), to = -from;
    void take(double at) {
        from = std::min(from, at);
        to = std::max(to, at);
    }
};
/// The boards that are cut for a frame, along the line that its plane makes in the elevation; before they are
/// made, what the plane cuts of the skin.
std::vector<Stretch> stretchesOf(const Rib& rib, const Evaluation& evaluation, const BoardView view,
                                 const std::array<Vec3, 2>& plane, const Vec2& way) {
    std::vector<Stretch> out;
    const auto& [normal, at] = plane;
    const auto along = [&](const Vec3& p) { return seen(Vec3(p - at), view).dot(way); };
    if (evaluation.plates)
        for (const Plate& board : evaluation.plates->plates) {
            if (board.form != "frames/" + rib.name) continue;
            out.emplace_back();
            for (const Vec2& p : board.boundary.outer) out.back().take(along(board.frame.toBody(p)));
        }
    if (!out.empty()) return out;
    Stretch all;
    const Skin& skin = evaluation.body->skin;
    for (const SkinEdge& e : skin.edges) {
        const Vec3 &a = skin.vertices[static_cast<std::size_t>(e.a)],
                   &b = skin.vertices[static_cast<std::size_t>(e.b)];
        const double from = normal.dot(a - at), to = normal.dot(b - at);
        if (from * to > 0 || from == to) continue;
        all.take(along(a + (b - a) * (from / (from - to))));
    }
    if (all.from < all.to) out.push_back(all);
    return out;
}

/// Where a frame's plane meets the elevation: a line as long as each board that is cut there.
void addFrames(BoardElevation& out, const Project& project, const Scope& scope,
               const Evaluation& evaluation) {
    const auto angle = [&](const Text& text) {
        const auto value = evaluate(text.empty() ? "0" : text, scope, Space::subject, Kind::angle);
        return value ? value->value : 0;
    };
    const Vec3 eye = out.view == BoardView::side    ? Vec3::UnitY()
                     : out.view == BoardView::front ? Vec3::UnitX()
                                                    : Vec3::UnitZ();
    for (std::size_t i = 0; i < project.frames.size(); ++i) {
        const Rib& rib = project.frames[i];
        const auto station = detail::lengthOf(rib.station, scope);
        if (rib.off || !station) continue;
        const int axis = rib.axis == "y" ? 1 : rib.axis == "z" ? 2 : 0;
        const Mat3 turn = (Eigen::AngleAxisd(angle(rib.yaw), Vec3::UnitZ()) *
                           Eigen::AngleAxisd(angle(rib.pitch), Vec3::UnitY()))
                              .toRotationMatrix();
        const Vec3 normal = turn * Vec3::Unit(axis), along = normal.cross(eye);
        if (along.norm() < 0.5) continue; // seen flat: its outline is drawn where frames are
        const Box3& all = evaluation.body->bounds;
        Vec3 middle = (all.min + all.max) / 2;
        middle -= normal * (normal.dot(middle - Vec3::Unit(axis) * *station));
        const Vec2 at = seen(middle, out.view), way = seen(along, out.view).normalized();
        BoardShape shape{rib.name, "frame", {}, "/frames/" + std::to_string(i)};
        for (const Stretch& s : stretchesOf(rib, evaluation, out.view, {normal, middle}, way))
            shape.rings.push_back({at + way * s.from, at + way * s.to});
        if (!shape.rings.empty()) out.shapes.push_back(std::move(shape));
    }
}

BoardDimension drawn(const DimensionLine& line, const std::array<Vec2, 2>& ends, BoardView view,
                     double offset) {
    BoardDimension d;
    d.name = line.name;
    d.drives = line.drives;
    d.from = d.lineFrom = ends[0];
    d.to = d.lineTo = ends[1];
    const int flat = line.along == axisOf(view, 0) ? 0 : line.along == axisOf(view, 1) ? 1 : -1;
    if (flat < 0) {
        const Vec2 way = d.to - d.from;
        const Vec2 out =
            way.norm() > 1e-9 ? Vec2(Vec2(-way.y(), way.x()).normalized() * offset) : Vec2(0, offset);
        d.lineFrom += out;
        d.lineTo += out;
        return d;
    }
    // Along an axis: outside both points, on the side that the offset's sign says.
    const int other = 1 - flat;
    const double far =
        offset >= 0 ? std::max(d.from[other], d.to[other]) : std::min(d.from[other], d.to[other]);
    d.lineFrom[other] = d.lineTo[other] = far + offset;
    return d;
}

void addDimensions(BoardScene& scene, const Project& project, const Scope& scope) {
    constexpr double usual = 150; // mm of the subject, between a point and its dimension line
    for (std::size_t i = 0; i < project.lines.size(); ++i) {
        const DimensionLine& line = project.lines[i];
        const auto view = parseView(line.view);
        const auto value = lengthOf(project, scope, line);
        if (!view || !value) continue;
        const auto from = pointNamed(project, scope, line.from), to = pointNamed(project, scope, line.to);
        const auto offset =
            line.offset.empty() ? std::optional(usual * scope.scale) : detail::lengthOf(line.offset, scope);
        BoardDimension d = drawn(line, {seen(*from, *view), seen(*to, *view)}, *view, offset.value_or(0));
        d.index = static_cast<int>(i);
        d.value = *value;
        d.figure = printLength(*value, scene.units);
        const auto driven = scope.values.find(line.drives);
        d.whole = driven != scope.values.end() && std::abs(driven->second.value - *value) < 0.05; // mm
        if (std::abs(scope.scale - 1) > 1e-12)
            d.figure += " (" + printLength(*value / scope.scale, scene.units) + ")";
        scene.views[static_cast<std::size_t>(*view)].dimensions.push_back(std::move(d));
    }
}

void measureBounds(BoardElevation& out) {
    const auto add = [&](const Vec2& p) { out.bounds = united(out.bounds, {p, p}); };
    for (const BoardPoint& p : out.points) add(p.at);
    for (const BoardEdge& e : out.edges)
        for (const Vec2& p : e.line) add(p);
    for (const BoardLine& l : out.skin) {
        add(l.from);
        add(l.to);
    }
    for (const BoardShape& s : out.shapes)
        for (const Ring& r : s.rings)
            for (const Vec2& p : r) add(p);
    for (const BoardDimension& d : out.dimensions) {
        add(d.lineFrom);
        add(d.lineTo);
    }
    for (const BoardFeature& f : out.features) add(f.at);
    for (const BoardMark& m : out.marks)
        for (const Vec2& p : m.line) add(p);
}

} // namespace

BoardScene boardScene(const Project& project, const Evaluation& evaluation,
                      const std::vector<BoardFeature>& features) {
    BoardScene scene;
    scene.scale = evaluation.scale;
    scene.units = evaluation.units;
    const Scope own = evaluation.scope ? Scope{} : scopeOf(project, evaluation.scale);
    const Scope& scope = evaluation.scope ? *evaluation.scope : own;
    for (const BoardView view : boardViews) {
        BoardElevation& out = scene.views[static_cast<std::size_t>(view)];
        out.view = view;
        for (std::size_t i = 0; i < project.forms.size(); ++i) {
            if (project.forms[i].off) continue;
            for (BoardPoint& p : detail::handlesOf(project, static_cast<int>(i), scope, view))
                if (!(p.mirrored && view == BoardView::side)) out.points.push_back(std::move(p));
        }
        for (std::size_t i = 0; i < project.forms.size(); ++i)
            if (!project.forms[i].off) EdgeDrawer(project, static_cast<int>(i), scope, out).run();
        if (evaluation.body) {
            addSkin(out, *evaluation.body);
            addFrames(out, project, scope, evaluation);
        }
        if (evaluation.plates) addOpenings(out, project, *evaluation.plates);
        detail::addMechanisms(out, project, scope, evaluation);
        if (evaluation.donor)
            for (const FitSolid& s : evaluation.donor->solids)
                out.shapes.push_back({s.name, s.group, {detail::silhouette(s.shape, view)}});
        for (const BoardFeature& f : features)
            if (f.view == view) out.features.push_back(f);
    }
    addDimensions(scene, project, scope);
    for (BoardElevation& out : scene.views) measureBounds(out);
    scene.findings = lineFindings(project, scope);
    return scene;
}

const BoardPoint* find(const BoardScene& scene, BoardView view, const PointRef& ref) {
    for (const BoardPoint& p : scene.of(view).points)
        if (!p.mirrored && p.ref == ref) return &p;
    return nullptr;
}

} // namespace slab
