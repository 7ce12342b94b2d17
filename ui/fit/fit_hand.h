#pragma once
// Mouse, wheel and keys over the 3D view, turned into camera moves, choices and edits.
#include "core/board/mechanism_edits.h"
#include "ui/fit/fit_controls.h"
#include "ui/fit/fit_drag.h"
#include "ui/fit/fit_turn.h"
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
    [[nodiscard]] bool isTurning() const { return m_doing == Doing::turn && m_turn; }
    /// "monitor raised 12°"
    [[nodiscard]] const QString& turnWords() const { return m_turnWords; }
    /// Outline of the opening that a click would put in: two points a line, as shown. Empty = none.
    std::vector<Vec3> ghost;
    [[nodiscard]] const QString& ghostWords() const { return m_ghostWords; }
    [[nodiscard]] bool ghostNear() const { return m_ghostNear; } ///< nearer to the edge than wanted
    [[nodiscard]] QPointF at() const { return m_at; }
    /// Plate by name in the newest evaluation.
    [[nodiscard]] const Plate* plate(const std::string& name) const;
    [[nodiscard]] Vec3 shiftOf(const std::string& plateName) const;
    /// Clicks put this in from now on; a belt round chosen wheels is put in at once.
    void takeMechanism(const MechanismWords* kind);
    /// At a place of the body.
    bool placeMechanism(MechanismKind kind, const MechanismSpot& spot, double step);

Q_SIGNALS:
    void cameraMoved();
    void directionWanted(slab::ui::Direction direction);
    void fitWanted();
    void frameWanted(const slab::Box3& box);
    void moved(); ///< donor or rider, or the hand that holds it
    void ghostChanged();
    void cursorWanted(Qt::CursorShape shape);
    /// The right button was clicked; what lies there is chosen already. @param spot  nothing = beside the
    /// body
    void menuWanted(const QPointF& at, const std::optional<slab::MechanismSpot>& spot, double step);

private:
    enum class Doing { nothing, orbit, pan, move, turn };
    struct Spot {
        const Plate* plate;
        Vec2 at;    ///< its flat coordinates
        Vec3 shift; ///< spread apart
    };
    void press(QMouseEvent* event);
    void drag(QMouseEvent* event);
    void release(QMouseEvent* event);
    void click(const QPointF& at, Qt::KeyboardModifiers keys);
    bool clickEdge(const QPointF& at, const std::vector<Hit>& hits);
    void chooseHit(const SceneItem* item, bool more);
    void openMenu(const QPointF& at);
    [[nodiscard]] std::optional<MechanismSpot> mechanismSpotAt(const QPointF& at) const;
    void showMechanism(const QPointF& at);
    void frameAt(const QPointF& at);
    void hover(const QPointF& at);
    bool key(QKeyEvent* event);
    void startMove(const QPointF& at);
    void applyMove(const Vec2& by);
    bool startTurn(const std::vector<Hit>& hits);
    void applyTurn(const QPointF& at);
    void turnBy(const TurnNow& turn, double by, const std::string& gesture);
    bool turnChosen(double degrees);
    [[nodiscard]] std::optional<Spot> spotAt(const QPointF& at) const;
    [[nodiscard]] Expected<Edit> openingAt(const Spot& spot, double step) const;
    [[nodiscard]] double stepHere() const;
    bool placeOpening(const Spot& spot, double step);
    bool placeInChosen();
    void showGhost(const QPointF& at);
    void clearGhost();
    bool lookKey(int key);
    bool escape();
    bool deleteMechanism();
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
    Qt::MouseButton m_button = Qt::NoButton;
    bool m_isClick = false;
    std::optional<Movable> m_what;
    Vec3 m_grabbed = Vec3::Zero();
    Project m_before;
    std::shared_ptr<const Scope> m_scope;
    int m_gesture = 0;
    std::vector<TurnNow> m_turns;  ///< of the grabbed part
    std::optional<TurnNow> m_turn; ///< the one that the drag follows
    double m_turned = 0;           ///< radians, since the drag began
    QString m_turnWords, m_ghostWords;
    bool m_ghostNear = false;
};

} // namespace slab::ui
