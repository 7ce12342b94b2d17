#pragma once
// Mouse, wheel and keys over the 3D view, turned into camera moves, choices and edits.
#include "ui/fit/fit_controls.h"
#include "ui/fit/fit_drag.h"
#include "ui/fit/pick.h"
#include "ui/session/session.h"
#include <QObject>
#include <QPointF>

class QKeyEvent;
class QMouseEvent;
class QWheelEvent;

namespace slab::ui {

class FitHand : public QObject {
    Q_OBJECT
public:
    FitHand(Session* session, FitControls* controls, QObject* parent);

    ViewCamera camera; ///< what the hand moves
    Scene scene;       ///< what the hand can point at

    /// @return true if the event was used
    bool handle(QEvent* event);
    [[nodiscard]] bool isMoving() const { return m_what.has_value(); }
    [[nodiscard]] QPointF at() const { return m_at; }
    /// Plate by name in the newest evaluation.
    [[nodiscard]] const Plate* plate(const std::string& name) const;
    [[nodiscard]] Vec3 shiftOf(const std::string& plateName) const;

Q_SIGNALS:
    void cameraMoved();
    void directionWanted(slab::ui::Direction direction);
    void fitWanted();
    void frameWanted(const slab::Box3& box);
    void moved(); ///< donor or rider, or the hand that holds it
    void cursorWanted(Qt::CursorShape shape);

private:
    enum class Doing { nothing, orbit, pan, move };
    void press(QMouseEvent* event);
    void drag(QMouseEvent* event);
    void release(QMouseEvent* event);
    void click(const QPointF& at, bool behind);
    void frameAt(const QPointF& at);
    void hover(const QPointF& at);
    bool key(QKeyEvent* event);
    void startMove(const QPointF& at);
    void applyMove(const Vec2& by);
    [[nodiscard]] std::vector<Hit> hitsAt(const QPointF& at) const;
    [[nodiscard]] const SceneItem& itemOf(const Hit& hit) const {
        return scene.items[static_cast<std::size_t>(hit.item)];
    }
    /// The donor or rider solid under the hand, seen through plates.
    [[nodiscard]] const Hit* movableAmong(const std::vector<Hit>& hits) const;

    Session* m_session;
    FitControls* m_controls;
    Doing m_doing = Doing::nothing;
    QPointF m_pressed, m_at;
    bool m_isClick = false;
    std::optional<Movable> m_what;
    Vec3 m_grabbed = Vec3::Zero();
    Project m_before;
    std::shared_ptr<const Scope> m_scope;
    int m_gesture = 0;
};

} // namespace slab::ui
