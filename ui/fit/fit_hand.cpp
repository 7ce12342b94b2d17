#include "ui/fit/fit_hand.h"
#include "core/plates/openings.h"
#include <QKeyEvent>
#include <QMouseEvent>
#include <QWheelEvent>
#include <cmath>

namespace slab::ui {

FitHand::FitHand(Session* session, FitControls* controls, QObject* parent)
    : QObject(parent), m_session(session), m_controls(controls) {}

const Plate* FitHand::plate(const std::string& name) const {
    const auto& plates = m_session->evaluation().plates;
    if (!plates) return nullptr;
    for (const auto& p : plates->plates) {
        if (p.name == name) return &p;
    }
    return nullptr;
}

Vec3 FitHand::shiftOf(const std::string& plateName) const {
    for (const auto& item : scene.items) {
        if (item.kind == ItemKind::plate && item.id == plateName) return item.shift;
    }
    return Vec3::Zero();
}

std::vector<Hit> FitHand::hitsAt(const QPointF& at) const {
    return hitsAlong(scene, camera.ray(at.x(), at.y()));
}

const Hit* FitHand::movableAmong(const std::vector<Hit>& hits) const {
    for (const auto& hit : hits) {
        const ItemKind kind = itemOf(hit).kind;
        if (kind == ItemKind::donor || kind == ItemKind::rider || kind == ItemKind::sweep) return &hit;
    }
    return nullptr;
}

bool FitHand::handle(QEvent* event) {
    switch (event->type()) {
    case QEvent::MouseButtonPress:
        press(static_cast<QMouseEvent*>(event));
        return true;
    case QEvent::MouseMove:
        drag(static_cast<QMouseEvent*>(event));
        return true;
    case QEvent::MouseButtonRelease:
        release(static_cast<QMouseEvent*>(event));
        return true;
    case QEvent::MouseButtonDblClick:
        frameAt(static_cast<QMouseEvent*>(event)->position());
        return true;
    case QEvent::Wheel: {
        auto* wheel = static_cast<QWheelEvent*>(event);
        camera.zoomAt(wheel->position().x(), wheel->position().y(),
                      std::pow(0.9985, wheel->angleDelta().y()));
        Q_EMIT cameraMoved();
        return true;
    }
    case QEvent::KeyPress:
        return key(static_cast<QKeyEvent*>(event));
    default:
        return false;
    }
}

void FitHand::press(QMouseEvent* event) {
    m_pressed = m_at = event->position();
    m_button = event->button();
    m_isClick = m_button == Qt::LeftButton || m_button == Qt::RightButton;
    const bool shifted = event->modifiers().testFlag(Qt::ShiftModifier);
    if (event->button() != Qt::LeftButton || shifted) {
        m_doing = Doing::pan;
        return;
    }
    m_doing = Doing::orbit;
    if (m_controls->state().moving) startMove(m_pressed);
}

void FitHand::startMove(const QPointF& at) {
    const auto hits = hitsAt(at);
    if (startTurn(hits)) return;
    const Hit* hit = movableAmong(hits);
    if (!hit || !m_session->evaluation().scope) return;
    bool rider = itemOf(*hit).kind == ItemKind::rider;
    if (const auto& donor = m_session->evaluation().donor) {
        for (const auto& solid : donor->solids) {
            if (solid.name == itemOf(*hit).id) rider = solid.group == "rider";
        }
    }
    m_what = rider ? Movable::rider : Movable::donor;
    m_grabbed = hit->point;
    m_before = m_session->project();
    m_scope = m_session->evaluation().scope;
    m_doing = Doing::move;
    ++m_gesture;
    Q_EMIT cursorWanted(Qt::ClosedHandCursor);
}

void FitHand::applyMove(const Vec2& by) {
    const std::string gesture =
        (*m_what == Movable::donor ? "move-donor-" : "move-rider-") + std::to_string(m_gesture);
    m_session->apply(moveEdit(*m_what, m_before, *m_scope, by, gesture));
    Q_EMIT moved();
}

void FitHand::drag(QMouseEvent* event) {
    const QPointF at = event->position();
    const QPointF by = at - m_at;
    m_at = at;
    if (m_doing == Doing::nothing) {
        hover(at);
        return;
    }
    if ((at - m_pressed).manhattanLength() > 5) m_isClick = false;
    if (m_isClick) return;
    switch (m_doing) {
    case Doing::orbit:
        camera.orbit(by.x(), by.y());
        Q_EMIT cameraMoved();
        break;
    case Doing::pan:
        camera.pan(by.x(), by.y());
        Q_EMIT cameraMoved();
        break;
    case Doing::move:
        applyMove(moveOnScreen(camera, m_grabbed, at.x() - m_pressed.x(), at.y() - m_pressed.y()));
        break;
    case Doing::turn:
        applyTurn(at);
        break;
    case Doing::nothing:
        break;
    }
}

void FitHand::release(QMouseEvent* event) {
    const bool wasMove = m_doing == Doing::move || m_doing == Doing::turn;
    m_doing = Doing::nothing;
    if (wasMove) {
        m_what.reset();
        m_turn.reset();
        m_session->settle();
        Q_EMIT moved();
        hover(event->position());
    }
    if (m_isClick && m_button == Qt::RightButton)
        openMenu(event->position());
    else if (m_isClick)
        click(event->position(), event->modifiers());
    m_isClick = false;
}

void FitHand::frameAt(const QPointF& at) {
    const auto hits = hitsAt(at);
    if (hits.empty()) {
        Q_EMIT fitWanted();
        return;
    }
    const SceneItem& item = itemOf(hits.front());
    if (item.mesh->triangles.empty()) return;
    Box3 box{item.mesh->triangles.front(), item.mesh->triangles.front()};
    for (const auto& p : item.mesh->triangles) box = {box.min.cwiseMin(p), box.max.cwiseMax(p)};
    Q_EMIT frameWanted({box.min + item.shift, box.max + item.shift});
}

void FitHand::hover(const QPointF& at) {
    if (m_controls->opening()) {
        showGhost(at);
        Q_EMIT moved();
        Q_EMIT cursorWanted(ghost.empty() ? Qt::ForbiddenCursor : Qt::CrossCursor);
        return;
    }
    clearGhost();
    if (m_controls->mechanism()) return showMechanism(at);
    if (!m_controls->state().moving) {
        Q_EMIT cursorWanted(Qt::ArrowCursor);
        return;
    }
    const auto hits = hitsAt(at);
    const auto& set = m_session->evaluation().mechanisms;
    const bool turns =
        set && !hits.empty() && !turnsOfPart(m_session->project(), *set, itemOf(hits.front()).id).empty();
    Q_EMIT cursorWanted(turns || movableAmong(hits) ? Qt::OpenHandCursor : Qt::ArrowCursor);
}

/// Keys that turn and move the eye.
bool FitHand::lookKey(int key) {
    constexpr double turn = 12; // pixels of a drag, about 5.5°
    const auto orbit = [&](double dx, double dy) {
        camera.orbit(dx, dy);
        Q_EMIT cameraMoved();
        return true;
    };
    const auto look = [&](Direction direction) {
        Q_EMIT directionWanted(direction);
        return true;
    };
    switch (key) {
    case Qt::Key_1:
        return look(Direction::side);
    case Qt::Key_2:
        return look(Direction::plan);
    case Qt::Key_3:
        return look(Direction::end);
    case Qt::Key_4:
        return look(Direction::threeQuarter);
    case Qt::Key_F:
        Q_EMIT fitWanted();
        return true;
    case Qt::Key_Left:
        return orbit(-turn, 0);
    case Qt::Key_Right:
        return orbit(turn, 0);
    case Qt::Key_Up:
        return orbit(0, turn);
    case Qt::Key_Down:
        return orbit(0, -turn);
    case Qt::Key_Plus:
    case Qt::Key_Equal:
    case Qt::Key_Minus:
        camera.zoomAt(camera.width / 2, camera.height / 2, key == Qt::Key_Minus ? 1.15 : 1 / 1.15);
        Q_EMIT cameraMoved();
        return true;
    default:
        return false;
    }
}

/// The tool first, then the choice.
bool FitHand::escape() {
    clearGhost();
    if (m_controls->opening() || m_controls->mechanism())
        m_controls->disarm();
    else
        m_session->select({});
    Q_EMIT moved();
    return true;
}

bool FitHand::placeInChosen() {
    const Plate* on = plate(m_session->selection().plate.toStdString());
    if (m_controls->mechanism() && on)
        return placeMechanism(m_controls->mechanism()->kind, {on->frame.toBody(plateMiddle(*on)), on->name},
                              0);
    if (!m_controls->opening() || !on || !m_session->evaluation().body ||
        !takesOpenings(*on, *m_session->evaluation().body))
        return false;
    return placeOpening({on, plateMiddle(*on), Vec3::Zero()}, 0);
}

bool FitHand::key(QKeyEvent* event) {
    switch (event->key()) {
    case Qt::Key_P:
        m_controls->toggleParallel();
        return true;
    case Qt::Key_M:
        m_controls->toggleMoving();
        return true;
    case Qt::Key_O:
        m_controls->offerOpenings();
        return true;
    case Qt::Key_W:
        m_controls->offerMechanisms();
        return true;
    case Qt::Key_BracketLeft:
        return turnChosen(-1);
    case Qt::Key_BracketRight:
        return turnChosen(1);
    case Qt::Key_BraceLeft:
        return turnChosen(-10);
    case Qt::Key_BraceRight:
        return turnChosen(10);
    case Qt::Key_Return:
    case Qt::Key_Enter:
        return placeInChosen();
    case Qt::Key_Delete:
    case Qt::Key_Backspace:
        return deleteMechanism();
    case Qt::Key_Escape:
        return escape();
    default:
        return lookKey(event->key());
    }
}

} // namespace slab::ui
