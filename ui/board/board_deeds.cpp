#include "ui/board/board_deeds.h"
#include "core/board/mechanism_moves.h"
#include "core/board/moves.h"
#include "core/board/part_edits.h"
#include "core/picture/edits.h"
#include "ui/chosen/mechanism_deeds.h"
#include "ui/tables/table_edits.h"
#include <algorithm>

namespace slab::ui {

namespace {

const BoardEdge* edgeNamed(const BoardDesk& desk, BoardView view, const std::string& pointer) {
    for (const BoardEdge& edge : desk.scene().of(view).edges)
        if (edge.pointer == pointer && !edge.mirrored) return &edge;
    return nullptr;
}

Vec2 middleOf(const BoardEdge& edge) {
    if (edge.line.size() > 2) return edge.line[edge.line.size() / 2];
    return edge.line.size() == 2 ? Vec2((edge.line[0] + edge.line[1]) / 2) : Vec2::Zero();
}

Box2 boxOf(const BoardDesk& desk, BoardView view, const std::vector<PointRef>& refs) {
    Box2 box{Vec2::Constant(1e300), Vec2::Constant(-1e300)};
    for (const PointRef& ref : refs)
        if (const BoardPoint* p = find(desk.scene(), view, ref)) box = united(box, {p->at, p->at});
    return box;
}

bool refuse(BoardDesk& desk, const char* code, const std::string& words, const char* remedy) {
    return desk.apply(tl::make_unexpected(Error{code, words, {}, remedy}));
}

bool removePlace(BoardDesk& desk, const std::string& pointer, const std::string& label) {
    const bool done = desk.apply(removeValue(pointer, label));
    if (done) desk.chooseNone();
    return done;
}

/// A frame, an opening or a mechanism by its place.
bool removePart(BoardDesk& desk, const std::string& pointer) {
    if (!mechanismIn(desk.project(), pointer).empty()) {
        QString told;
        const bool done = deleteChosenMechanism(*desk.session(), &told);
        if (done && !told.isEmpty()) Q_EMIT desk.told(told, true);
        return done;
    }
    const Project& project = desk.project();
    const auto index = static_cast<std::size_t>(std::stoi(pointer.substr(pointer.rfind('/') + 1)));
    const bool done = desk.apply(removeValue(
        pointer, pointer.starts_with("/frames/") ? "Delete frame " + project.frames[index].name
                                                 : "Delete opening " + project.openings[index].name));
    if (done) desk.session()->select({});
    return done;
}

} // namespace

bool insertAt(BoardDesk& desk, BoardView view, const std::string& edge, const Vec2& at, double step) {
    if (!desk.apply(insertPoint(desk.project(), desk.scope(), view, edge, at, step))) return false;
    const std::size_t slash = edge.rfind('/');
    const int index = std::stoi(edge.substr(slash + 1));
    desk.choose(
        {view, {{edge.substr(0, slash + 1) + std::to_string(index + 1), Handle::corner}}, {}, -1, -1});
    return true;
}

bool insertCornerAt(BoardDesk& desk, BoardView view, const std::array<PointRef, 2>& ends, const Vec2& at) {
    if (!desk.apply(insertCorner(desk.project(), desk.scope(), view, ends, at))) return false;
    const auto form = static_cast<std::size_t>(formOf(ends[0].pointer));
    const auto& facets = std::get<FacetShape>(desk.project().forms[form].shape);
    desk.choose({view,
                 {{"/forms/" + std::to_string(form) + "/corners/" + std::to_string(facets.corners.size() - 1),
                   Handle::corner}},
                 {},
                 -1,
                 -1});
    return true;
}

bool insertInChosen(BoardDesk& desk) {
    const BoardChoice choice = desk.choice();
    if (choice.edges.empty() && choice.points.size() == 2) {
        const BoardPoint* a = find(desk.scene(), choice.view, choice.points[0]);
        const BoardPoint* b = find(desk.scene(), choice.view, choice.points[1]);
        const int form = formOf(choice.points[0].pointer);
        if (a && b && form >= 0 &&
            std::holds_alternative<FacetShape>(desk.project().forms[static_cast<std::size_t>(form)].shape))
            return insertCornerAt(desk, choice.view, {choice.points[0], choice.points[1]},
                                  (a->at + b->at) / 2);
    }
    if (choice.edges.size() != 1)
        return refuse(desk, "no-edge", "There is no edge to put a point in.", "Choose one edge first.");
    const BoardEdge* edge = edgeNamed(desk, choice.view, choice.edges.front());
    return edge && insertAt(desk, choice.view, choice.edges.front(), middleOf(*edge), 0);
}

namespace {

/// Edges go with their points, donor and rider belong to no one's drawing.
bool refuseToDelete(BoardDesk& desk) {
    if (!desk.choice().edges.empty())
        return refuse(
            desk, "edge-stays", "An edge cannot be deleted by itself: it joins two points.",
            "Choose a point at its end to delete that, or the cross of the form to delete all of it.");
    const std::string solid = desk.session()->selection().solid.toStdString();
    if (!solid.empty())
        return refuse(
            desk, "solid-stays", solid + " is not drawn here and cannot be deleted here.",
            "Click a point, a dimension line, a frame, an opening, a mechanism or a picture first.");
    return refuse(desk, "nothing-chosen", "Nothing is chosen that can be deleted.",
                  "Click points first; Shift and click for several.");
}

} // namespace

bool removeChosen(BoardDesk& desk) {
    const BoardChoice choice = desk.choice();
    const Project& project = desk.project();
    if (choice.empty() && !desk.chosenPart().empty()) return removePart(desk, desk.chosenPart());
    if (choice.dimension >= 0)
        return removePlace(desk, "/dimension_lines/" + std::to_string(choice.dimension),
                           "Delete dimension line");
    if (choice.reading >= 0) {
        const int picture = choice.picture;
        const bool done = desk.apply(
            removeValue("/pictures/" + std::to_string(picture) + "/lines/" + std::to_string(choice.reading),
                        "Delete line on picture"));
        if (done) desk.choose({choice.view, {}, {}, -1, picture, -1});
        return done;
    }
    if (choice.picture >= 0)
        return removePlace(desk, "/pictures/" + std::to_string(choice.picture),
                           "Delete picture " +
                               project.pictures[static_cast<std::size_t>(choice.picture)].name);
    if (choice.points.empty()) return refuseToDelete(desk);
    if (choice.points.size() == 1 && choice.points.front().handle != Handle::corner &&
        choice.points.front().handle != Handle::curve && formOf(choice.points.front().pointer) >= 0) {
        const auto form = static_cast<std::size_t>(formOf(choice.points.front().pointer));
        return removePlace(desk, "/forms/" + std::to_string(form), "Delete " + project.forms[form].name);
    }
    const bool done = desk.apply(deletePoints(project, choice.points));
    if (done) desk.choose({choice.view, {}, {}, -1, -1});
    return done;
}

bool canNudge(const BoardDesk& desk) {
    const BoardChoice& choice = desk.choice();
    return (choice.picture >= 0 && choice.reading < 0) || !desk.chosenPoints().empty() ||
           !desk.chosenPart().empty();
}

bool nudgeChosen(BoardDesk& desk, const Vec2& by, const std::string& gesture) {
    if (desk.choice().picture >= 0 && desk.choice().reading < 0)
        return desk.apply(movePicture(desk.choice().picture, by, desk.scene().scale, gesture));
    const auto refs = desk.movedPoints();
    const std::string part = desk.chosenPart();
    if (refs.empty() && part.empty()) return false;
    MoveOptions options;
    options.gesture = gesture;
    if (refs.empty() && !mechanismIn(desk.project(), part).empty())
        return desk.apply(moveGrip(desk.project(), desk.scope(),
                                   desk.session()->evaluation().mechanisms.get(), desk.choice().view,
                                   {part, "at"}, by, options));
    if (refs.empty())
        return desk.apply(movePart(desk.project(), desk.scope(), desk.choice().view, part, by,
                                   desk.session()->evaluation().plates.get(), options));
    return desk.apply(movePoints(desk.project(), desk.scope(), desk.choice().view, refs, by, options));
}

namespace {

/// Why a form cannot be mirrored in a view; empty = it can.
QString whyNoMirror(const BoardDesk& desk, int form, BoardView view) {
    const Form& of = desk.project().forms[static_cast<std::size_t>(form)];
    const QString name = QString::fromStdString(of.name);
    if (std::holds_alternative<RoundShape>(of.shape))
        return name + " is round and has no outline to mirror: turn it or move it by its figures.";
    if (desk.pointsOf(form, view).size() >= 2) return {};
    if (std::holds_alternative<ProfileShape>(of.shape))
        return name + " is alike on both hands already, and its outline is drawn in the side view: mirror it "
                      "there.";
    return name + " has no corners that can be moved in this view: mirror it in the one that it is drawn in.";
}

} // namespace

bool mirrorChosen(BoardDesk& desk, int direction) {
    const BoardView view = desk.choice().view;
    auto refs = desk.choice().points.size() < 2 ? desk.choice().points : desk.chosenPoints();
    const int form = desk.chosenForm();
    // An edge, a single point or a form's cross stands for the whole outline: two ends changed over would
    // only twist it.
    if (!desk.choice().edges.empty() || refs.size() < 2) {
        if (form < 0)
            return refuse(desk, "nothing-chosen", "There is nothing to mirror.",
                          "Choose two points or more, or an edge or the cross of one form.");
        if (const QString why = whyNoMirror(desk, form, view); !why.isEmpty()) {
            Q_EMIT desk.told(why);
            return false;
        }
        refs = desk.outlineOf(form, view);
    }
    const Box2 box = boxOf(desk, view, refs);
    if (!(box.max[direction] - box.min[direction] > 1e-6))
        return refuse(desk, "nothing-to-mirror",
                      direction == 0 ? "The chosen points stand plumb over each other."
                                     : "The chosen points lie level with each other.",
                      "Mirror them the other way, or choose more of the outline.");
    return desk.apply(mirrorPoints(desk.project(), desk.scope(), view, refs, direction,
                                   (box.min[direction] + box.max[direction]) / 2));
}

bool makeChosenSymmetric(BoardDesk& desk, bool keepPort) {
    const int form = desk.chosenForm();
    if (form < 0)
        return refuse(desk, "nothing-chosen", "No form is chosen.", "Click an edge of the form first.");
    return desk.apply(makeSymmetric(desk.project(), desk.scope(), form, keepPort));
}

void chooseForm(BoardDesk& desk, int form, BoardView view) {
    const PointRef place{"/forms/" + std::to_string(form), Handle::place};
    desk.choose({view, {place}, {}, -1, -1});
}

bool duplicateChosen(BoardDesk& desk) {
    const int form = desk.chosenForm();
    if (form < 0)
        return refuse(desk, "nothing-chosen", "No form is chosen.", "Click an edge of the form first.");
    const BoardView view = desk.choice().view;
    const Box2 box = boxOf(desk, view, desk.pointsOf(form, view));
    const double side = box.max.x() > box.min.x() ? (box.max.x() - box.min.x()) * 0.2 : 100;
    if (!desk.apply(duplicateForm(desk.project(), desk.scope(), view, form, {side, side}))) return false;
    chooseForm(desk, form + 1, view);
    return true;
}

bool showHiddenPictures(BoardDesk& desk) {
    std::vector<Edit> edits;
    for (std::size_t i = 0; i < desk.project().pictures.size(); ++i)
        if (desk.project().pictures[i].hidden)
            edits.push_back(setValue("/pictures/" + std::to_string(i) + "/hidden", "false"));
    if (edits.empty())
        return refuse(desk, "picture-none-hidden", "No picture is hidden.",
                      "Hide one by its strip when it is chosen.");
    return desk.apply(chained("Show pictures", std::move(edits)));
}

void chooseAll(BoardDesk& desk) {
    const BoardView view = desk.choice().view;
    std::vector<PointRef> all;
    if (desk.chosenForm() >= 0) all = desk.pointsOf(desk.chosenForm(), view);
    if (all.empty())
        for (const BoardPoint& p : desk.scene().of(view).points)
            if (!p.mirrored && p.ref.handle == Handle::corner && !p.knobs.empty()) all.push_back(p.ref);
    desk.choose({view, std::move(all), {}, -1, -1});
}

void chooseNext(BoardDesk& desk, int by) {
    const BoardView view = desk.choice().view;
    std::vector<PointRef> all;
    const int form = desk.chosenForm();
    for (const BoardPoint& p : desk.scene().of(view).points)
        if (!p.mirrored && !p.knobs.empty() && (form < 0 ? p.ref.handle == Handle::corner : p.form == form))
            all.push_back(p.ref);
    if (all.empty()) return;
    const auto n = static_cast<std::ptrdiff_t>(all.size());
    std::ptrdiff_t at = by > 0 ? -1 : n;
    if (!desk.choice().points.empty()) {
        const auto found = std::find(all.begin(), all.end(), desk.choice().points.back());
        if (found != all.end()) at = found - all.begin();
    }
    desk.choose({view, {all[static_cast<std::size_t>((at + by + n) % n)]}, {}, -1, -1});
}

double nudgeStep(const UnitStyle& units) {
    return isInch(units) ? 25.4 / 16 : 1;
}

} // namespace slab::ui
