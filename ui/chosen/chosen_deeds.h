#pragma once
// What commands do to the chosen plates, joint and wheels, in whatever view they were chosen. Each is one
// step to undo, and says at the session what went wrong.
#include "core/board/cleat_edits.h"
#include "core/board/mechanism_edits.h"
#include "ui/session/session.h"
#include <optional>
#include <utility>

namespace slab::ui {

/// All plates that are chosen: several, the one, or all of a chosen form. Pieces between seams stand for
/// their plate.
[[nodiscard]] std::vector<std::string> chosenPlates(const Session& session);
/// Chooses one more plate beside those that are chosen, or one less.
void chooseMorePlates(Session& session, const QString& plate);
/// The same with a round form.
void chooseMoreForms(Session& session, const QString& form);
/// The two plates that meet at the chosen edge; nothing where the joint is open or one of them left out.
[[nodiscard]] std::optional<std::pair<std::string, std::string>> chosenJoint(const Session& session);
/// Chosen round forms.
[[nodiscard]] std::vector<std::string> chosenWheels(const Session& session);

/// The new module is shown in its table, where its name can be typed over.
bool makeModule(Session& session);
bool addToModule(Session& session, int module);
bool takeFromModules(Session& session);

bool putCleats(Session& session, CleatKind kind);
bool takeCleatsAway(Session& session);

/// Chooses the new row.
bool putMechanism(Session& session, const MechanismStart& start);
/// A belt round the chosen wheels. @return false if fewer than two are chosen: nothing is said then
bool beltRoundChosen(Session& session);

} // namespace slab::ui
