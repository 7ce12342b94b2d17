// The hand in 3D: openings put in by a click, and parts of mechanisms turned.
#include "core/board/opening_edits.h"
#include "ui/fit/fit_hand.h"
#include "ui/panels/panel_place.h"
#include <cmath>
#include <numbers>

namespace slab::ui {

namespace {
constexpr double wholeDegree = std::numbers::pi / 180;
}

/// The first plate under the pointer that takes openings, and the place on it. What hangs before the shell
/// and takes none is seen past.
std::optional<FitHand::Spot> FitHand::spotAt(const QPointF& at) const {
    const Evaluation& e = m_session->evaluation();
    if (!e.body) return std::nullopt;
    for (const Hit& hit : hitsAt(at)) {
        const SceneItem& item = itemOf(hit);
        const Plate* on = item.kind == ItemKind::plate ? plate(item.id) : nullptr;
        if (!on) continue;
        if (!takesOpenings(*on, *e.body)) continue;
        return Spot{on, on->frame.toPlane(hit.point - item.shift), item.shift};
    }
    return std::nullopt;
}

Expected<Edit> FitHand::openingAt(const Spot& spot, double step) const {
    return addOpening(m_session->project(), scopeNow(*m_session), *m_controls->opening(), *spot.plate,
                      spot.at, OpeningPlace::space, step);
}

bool FitHand::placeOpening(const Spot& spot, double step) {
    const auto edit = openingAt(spot, step);
    if (!edit) return false;
    const auto count = m_session->project().openings.size();
    const QString on = QString::fromStdString(spot.plate->name);
    if (!m_session->apply(*edit)) return false;
    m_session->settle();
    Selection selection;
    selection.plate = on;
    selection.part = QStringLiteral("/openings/%1").arg(count);
    m_session->select(selection);
    return true;
}

double FitHand::stepHere() const {
    return roundStep(camera.mmPerPixel(), m_session->unitStyle().unit);
}

/// Shows what a click would cut; nothing where none would.
void FitHand::showGhost(const QPointF& at) {
    std::vector<Vec3> lines;
    m_ghostWords.clear();
    const auto spot = spotAt(at);
    const auto edit = spot ? openingAt(*spot, stepHere()) : Expected<Edit>(Unexpected(Error{}));
    if (spot && edit) {
        const auto made = edit->apply(m_session->project());
        const Evaluation& e = m_session->evaluation();
        const int index = made ? static_cast<int>(made->openings.size()) - 1 : -1;
        for (const FlatOpening& flat : made ? openingsOn(*spot->plate, *e.body, *made, scopeNow(*m_session))
                                            : std::vector<FlatOpening>{}) {
            if (flat.index != index) continue;
            for (std::size_t i = 0; i < flat.outline.size(); ++i)
                for (const Vec2& p : {flat.outline[i], flat.outline[(i + 1) % flat.outline.size()]})
                    lines.push_back(spot->plate->frame.toBody(p) + spot->shift);
            const Sheet* sheet = e.stock ? e.stock->find(spot->plate->stock) : nullptr;
            const EdgeRoom room = edgeRoom(*spot->plate, sheet, flat.outline, {});
            m_ghostWords = QString::fromStdString(
                spot->plate->name +
                (room.through ? std::string(" · open through the edge")
                              : " · " + printLength(room.left, m_session->unitStyle()) + " to the edge"));
            m_ghostNear = room.left < room.wanted;
        }
    }
    if (lines == ghost) return;
    ghost = std::move(lines);
    Q_EMIT ghostChanged();
}

void FitHand::clearGhost() {
    m_ghostWords.clear();
    m_ghostNear = false;
    if (ghost.empty()) return;
    ghost.clear();
    Q_EMIT ghostChanged();
}

/// What moves and lies in front is turned; donor and rider are taken through plates.
bool FitHand::startTurn(const std::vector<Hit>& hits) {
    const auto& set = m_session->evaluation().mechanisms;
    if (!set || hits.empty() || !m_session->evaluation().scope) return false;
    m_turns = turnsOfPart(m_session->project(), *set, itemOf(hits.front()).id);
    if (m_turns.empty()) return false;
    m_grabbed = hits.front().point - itemOf(hits.front()).shift;
    m_before = m_session->project();
    m_scope = m_session->evaluation().scope;
    m_turn.reset();
    m_doing = Doing::turn;
    ++m_gesture;
    Q_EMIT cursorWanted(Qt::ClosedHandCursor);
    return true;
}

void FitHand::applyTurn(const QPointF& at) {
    const Vec2 from(m_pressed.x(), m_pressed.y()), to(at.x(), at.y());
    if (!m_turn) {
        m_turn = m_turns[followed(m_turns, camera, m_grabbed, to - from)];
        m_turned = 0;
    }
    // Round and round: the nearest whole turn to where it was a moment ago.
    const double now = turnOnScreen(*m_turn, camera, m_grabbed, from, to);
    m_turned += std::remainder(now - m_turned, 2 * std::numbers::pi);
    turnBy(*m_turn, m_turned, "turn-" + std::to_string(m_gesture));
}

void FitHand::turnBy(const TurnNow& turn, double by, const std::string& gesture) {
    const auto edit = turnMechanism(m_before, *m_scope, turn, by, wholeDegree, gesture);
    if (edit) m_session->apply(*edit);
    const double shown = turn.endless ? turn.shown + by : std::clamp(turn.shown + by, turn.from, turn.to);
    m_turnWords = QString::fromStdString(turn.mechanism + " " + turn.words + " " +
                                         printAngle(std::round(shown / wholeDegree) * wholeDegree, 0));
    if (!turn.endless && (turn.shown + by < turn.from || turn.shown + by > turn.to))
        m_turnWords += tr(" · at its stop");
    Q_EMIT moved();
}

/// The chosen part by keys: one degree, with Shift ten.
bool FitHand::turnChosen(double degrees) {
    const auto& set = m_session->evaluation().mechanisms;
    const Selection& now = m_session->selection();
    const QString name = !now.solid.isEmpty() ? now.solid : !now.plate.isEmpty() ? now.plate : now.form;
    if (!set || name.isEmpty() || !m_session->evaluation().scope) return false;
    const auto turns = turnsOfPart(m_session->project(), *set, name.toStdString());
    if (turns.empty()) return false;
    m_before = m_session->project();
    m_scope = m_session->evaluation().scope;
    turnBy(turns.front(), degrees * wholeDegree, {});
    m_session->settle();
    return true;
}

} // namespace slab::ui
