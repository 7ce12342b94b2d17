#include "ui/board/board_desk.h"
#include "core/board/mechanism_moves.h"
#include "core/evaluate/stages.h"
#include "ui/chosen/mechanism_deeds.h"
#include "ui/window/titles.h"
#include <algorithm>
#include <charconv>
#include <cstdlib>

namespace slab::ui {

namespace {

double largest(const BoardScene& scene) {
    double size = 0;
    for (const BoardElevation& e : scene.views)
        size = std::max({size, e.bounds.size().x(), e.bounds.size().y()});
    return size;
}

/// Room to draw a body of the usual size on, while there is none: mm at build size.
void makeRoom(BoardScene& scene) {
    const Box2 rooms[] = {{Vec2(-800, 0), Vec2(2400, 1500)},
                          {Vec2(-700, 0), Vec2(700, 1500)},
                          {Vec2(-800, -700), Vec2(2400, 700)}};
    for (std::size_t i = 0; i < 3; ++i) scene.views[i].bounds = united(scene.views[i].bounds, rooms[i]);
}

/// The same places on the sheet for what the scene has become.
BoardSheet grown(BoardSheet sheet, const BoardScene& scene) {
    for (std::size_t i = 0; i < 3; ++i)
        sheet.area[i] = {scene.views[i].bounds.min + sheet.origin[i],
                         scene.views[i].bounds.max + sheet.origin[i]};
    return sheet;
}

bool sensible(const BoardSheet& sheet, double gap) {
    const double across = sheet.area[1].min.x() - std::max(sheet.area[0].max.x(), sheet.area[2].max.x());
    const double down = std::min(sheet.area[0].min.y(), sheet.area[1].min.y()) - sheet.area[2].max.y();
    return across > gap * 0.4 && across < gap * 3 && down > gap * 0.4 && down < gap * 3;
}

} // namespace

int formOf(const std::string& pointer) {
    constexpr std::string_view head = "/forms/";
    if (pointer.compare(0, head.size(), head) != 0) return -1;
    int index = -1;
    std::from_chars(pointer.data() + head.size(), pointer.data() + pointer.size(), index);
    return index;
}

BoardDesk::BoardDesk(Session* session, QObject* parent) : QObject(parent), m_session(session) {
    connect(session, &Session::projectChanged, this, &BoardDesk::refresh);
    connect(session, &Session::evaluationChanged, this, &BoardDesk::refresh);
    connect(session, &Session::selectionChanged, this, &BoardDesk::followSelection);
    refresh();
}

void BoardDesk::refresh() {
    const Project& now = project();
    if (m_open != m_session->openDocument()) {
        m_open = m_session->openDocument();
        m_choice = {}; // indices of another document
        m_names.clear();
    }
    std::vector<Finding> findings;
    const auto scale = readScale(now.scale);
    m_scope = resolveScope(now, scale ? *scale : 1, findings);
    m_scene = boardScene(now, m_session->evaluation(), m_features);
    for (BoardElevation& view : m_scene.views) {
        std::erase_if(view.shapes, [&](const BoardShape& s) { return !isShown(s.kind); });
        if (!isShown("dimension")) view.dimensions.clear();
        if (!isShown("mechanism")) view.marks.clear(), view.grips.clear();
    }
    m_crossings = crossingsOf(m_scene);
    if (now.forms.empty()) makeRoom(m_scene);
    for (std::size_t i = 0; i < 3; ++i)
        if (m_room[i]) m_scene.views[i].bounds = united(m_scene.views[i].bounds, *m_room[i]);
    if (m_document != m_session->shownDocument()) {
        m_document = m_session->shownDocument();
        m_placed = false;
    }
    place();
    keepChoice();
    Q_EMIT sceneChanged();
}

void BoardDesk::place() {
    const double gap = std::max(largest(m_scene) * 0.16, 1.0);
    if (m_placed) {
        m_sheet = grown(m_sheet, m_scene);
        if (m_held || sensible(m_sheet, gap)) return;
    }
    m_sheet = layOut(m_scene, gap);
    m_placed = hasAnything();
}

bool BoardDesk::hasAnything() const {
    return !project().forms.empty() || !project().pictures.empty();
}

void BoardDesk::hold(bool on) {
    m_held = on;
    if (on) return;
    const BoardSheet before = m_sheet;
    place();
    if (!(before == m_sheet)) Q_EMIT sceneChanged();
}

void BoardDesk::setShown(const std::string& kind, bool shown) {
    if (shown == isShown(kind)) return;
    if (shown)
        m_hidden.erase(kind);
    else
        m_hidden.insert(kind);
    refresh();
}

void BoardDesk::setPictures(std::vector<BoardFeature> features, PictureRoom room) {
    m_features = std::move(features);
    m_room = room;
    refresh();
}

/// A form that is chosen elsewhere, or just pasted, takes the place of another one's points.
void BoardDesk::followSelection() {
    const QString form = m_session->selection().form;
    if (!form.isEmpty() && (!m_choice.points.empty() || !m_choice.edges.empty())) {
        const int own = severalForms().isEmpty() ? chosenForm() : -1;
        const bool same = own >= 0 && own < static_cast<int>(project().forms.size()) &&
                          QString::fromStdString(project().forms[static_cast<std::size_t>(own)].name) == form;
        if (!same) {
            m_choice = BoardChoice{m_choice.view, {}, {}, -1, -1, -1};
            rememberNames();
        }
    }
    Q_EMIT choiceChanged();
}

void BoardDesk::choose(BoardChoice choice) {
    if (choice == m_choice) return;
    m_choice = std::move(choice);
    rememberNames();
    if (!m_choice.empty() && !chosenPart().empty()) m_session->select({});
    const int form = m_choice.points.empty() && m_choice.edges.empty() ? -1 : chosenForm();
    if (const QStringList several = severalForms(); several != m_session->selection().forms) {
        Selection selection;
        selection.forms = several;
        m_session->select(selection);
    }
    if (form >= 0 && form < static_cast<int>(project().forms.size())) {
        Selection selection = m_session->selection();
        const QString name = QString::fromStdString(project().forms[static_cast<std::size_t>(form)].name);
        if (selection.form != name) {
            selection = {};
            selection.form = name;
            m_session->select(selection);
        }
    }
    Q_EMIT choiceChanged();
}

/// Names of the forms that chosen points and edges belong to; empty for one.
QStringList BoardDesk::severalForms() const {
    std::set<int> forms;
    for (const PointRef& ref : m_choice.points) forms.insert(formOf(ref.pointer));
    for (const std::string& edge : m_choice.edges) forms.insert(formOf(edge));
    QStringList names;
    for (const int form : forms)
        if (form >= 0 && form < static_cast<int>(project().forms.size()))
            names << QString::fromStdString(project().forms[static_cast<std::size_t>(form)].name);
    return names.size() > 1 ? names : QStringList();
}

std::vector<PointRef> BoardDesk::movedPoints() const {
    std::vector<PointRef> all = chosenPoints();
    const BoardElevation& view = m_scene.of(m_choice.view);
    const auto listOf = [](const PointRef& ref) { return ref.pointer.substr(0, ref.pointer.rfind('/')); };
    for (std::size_t i = all.size(); i-- > 0;) {
        const PointRef ref = all[i];
        // Corners of facets are free of each other.
        if (ref.handle != Handle::corner || ref.pointer.find("/corners/") != std::string::npos) continue;
        for (std::size_t k = 0; k < view.points.size(); ++k) {
            if (view.points[k].mirrored || !(view.points[k].ref == ref)) continue;
            for (const int twin : together(view, static_cast<int>(k))) {
                const PointRef& other = view.points[static_cast<std::size_t>(twin)].ref;
                if (listOf(other) == listOf(ref) && std::find(all.begin(), all.end(), other) == all.end())
                    all.push_back(other);
            }
        }
    }
    return all;
}

std::string BoardDesk::chosenPart() const {
    std::string part = m_session->selection().part.toStdString();
    const auto there = [&](std::string_view list, std::size_t count) {
        return part.starts_with(list) &&
               static_cast<std::size_t>(std::atoi(part.c_str() + list.size())) < count;
    };
    if (there("/frames/", project().frames.size()) || there("/openings/", project().openings.size()))
        return part;
    return isShown("mechanism") ? chosenMechanism(*m_session) : std::string();
}

bool BoardDesk::isGripShown(const GripRef& grip) const {
    const std::string part = chosenPart();
    const std::string own = m_choice.empty() ? mechanismIn(project(), part) : std::string();
    if (own.empty() || mechanismIn(project(), grip.pointer) != own) return false;
    return grip.pointer == own || grip.pointer == part || grip.key == "at"; // a wheel's size only of that one
}

void BoardDesk::rememberNames() {
    m_names.clear();
    for (const PointRef& ref : m_choice.points) {
        const BoardPoint* point = find(m_scene, m_choice.view, ref);
        m_names.push_back(point ? point->name : std::string());
    }
}

void BoardDesk::keepChoice() {
    BoardChoice kept = m_choice;
    const BoardElevation& view = m_scene.of(kept.view);
    kept.points.clear();
    for (std::size_t i = 0; i < m_choice.points.size(); ++i) {
        const PointRef& ref = m_choice.points[i];
        const BoardPoint* point = find(m_scene, kept.view, ref);
        if (point && (m_names[i].empty() || point->name == m_names[i])) {
            kept.points.push_back(ref);
            continue;
        }
        // Points before it came or went: it is the one of its name, or the one that took its place.
        const auto named = std::find_if(view.points.begin(), view.points.end(), [&](const BoardPoint& p) {
            return !p.mirrored && p.name == m_names[i] && p.ref.handle == ref.handle;
        });
        if (named != view.points.end())
            kept.points.push_back(named->ref);
        else if (point)
            kept.points.push_back(ref);
    }
    std::erase_if(kept.edges, [&](const std::string& pointer) {
        return std::none_of(view.edges.begin(), view.edges.end(),
                            [&](const BoardEdge& e) { return e.pointer == pointer && !e.mirrored; });
    });
    if (kept.dimension >= static_cast<int>(project().lines.size())) kept.dimension = -1;
    if (kept.picture >= static_cast<int>(project().pictures.size())) kept.picture = -1;
    const auto picture = static_cast<std::size_t>(std::max(kept.picture, 0));
    if (kept.picture < 0 || kept.reading >= static_cast<int>(project().pictures[picture].lines.size()))
        kept.reading = -1;
    m_choice = std::move(kept);
    rememberNames();
    Q_EMIT choiceChanged();
}

bool BoardDesk::isChosen(const PointRef& ref) const {
    return std::find(m_choice.points.begin(), m_choice.points.end(), ref) != m_choice.points.end();
}

bool BoardDesk::isEdgeChosen(const std::string& pointer) const {
    return std::find(m_choice.edges.begin(), m_choice.edges.end(), pointer) != m_choice.edges.end();
}

int BoardDesk::chosenForm() const {
    int form = -1;
    bool several = false;
    const auto see = [&](const std::string& pointer) {
        const int of = formOf(pointer);
        several = several || (form >= 0 && of != form);
        form = of;
    };
    for (const PointRef& ref : m_choice.points) see(ref.pointer);
    for (const std::string& pointer : m_choice.edges) see(pointer);
    if (several) return -1;
    if (form >= 0) return form;
    const std::string name = m_session->selection().form.toStdString();
    for (std::size_t i = 0; i < project().forms.size() && !name.empty(); ++i)
        if (project().forms[i].name == name) return static_cast<int>(i);
    return -1;
}

std::vector<PointRef> BoardDesk::chosenPoints() const {
    std::vector<PointRef> all = m_choice.points;
    const BoardElevation& view = m_scene.of(m_choice.view);
    const auto add = [&](int index) {
        if (index < 0) return;
        const PointRef& ref = view.points[static_cast<std::size_t>(index)].ref;
        if (std::find(all.begin(), all.end(), ref) == all.end()) all.push_back(ref);
    };
    for (const BoardEdge& edge : view.edges)
        if (!edge.mirrored && !edge.pointer.empty() && isEdgeChosen(edge.pointer))
            add(edge.from), add(edge.to);
    // A whole outline takes along what its splines and ellipses run through.
    std::set<int> forms;
    for (const PointRef& ref : all) forms.insert(formOf(ref.pointer));
    for (const int form : forms) {
        const std::vector<PointRef> corners = pointsOf(form, m_choice.view);
        const bool whole =
            corners.size() > 2 && std::all_of(corners.begin(), corners.end(), [&](const auto& ref) {
                return std::find(all.begin(), all.end(), ref) != all.end();
            });
        if (!whole) continue;
        for (const PointRef& ref : outlineOf(form, m_choice.view))
            if (std::find(all.begin(), all.end(), ref) == all.end()) all.push_back(ref);
    }
    return all;
}

std::vector<PointRef> BoardDesk::pointsOf(int form, BoardView view) const {
    std::vector<PointRef> all;
    for (const BoardPoint& p : m_scene.of(view).points)
        if (p.form == form && !p.mirrored && p.ref.handle == Handle::corner) all.push_back(p.ref);
    return all;
}

std::vector<PointRef> BoardDesk::outlineOf(int form, BoardView view) const {
    std::vector<PointRef> all = pointsOf(form, view);
    if (form < 0 || form >= static_cast<int>(project().forms.size())) return all;
    const std::vector<Curve>* curves = std::visit(
        [](const auto& shape) -> const std::vector<Curve>* {
            if constexpr (requires { shape.curves; })
                return &shape.curves;
            else
                return nullptr;
        },
        project().forms[static_cast<std::size_t>(form)].shape);
    for (const BoardPoint& p : m_scene.of(view).points) {
        if (p.form != form || p.mirrored || p.ref.handle != Handle::curve || !curves) continue;
        const std::size_t at = p.ref.pointer.find("/curves/");
        if (at == std::string::npos) continue;
        const auto index = static_cast<std::size_t>(std::stoi(p.ref.pointer.substr(at + 8)));
        if (index < curves->size() && (*curves)[index].kind != CurveKind::arc) all.push_back(p.ref);
    }
    return all;
}

bool BoardDesk::apply(const Expected<Edit>& edit) {
    if (!edit) {
        Q_EMIT told(errorWords(edit.error()));
        return false;
    }
    return m_session->apply(*edit);
}

} // namespace slab::ui
