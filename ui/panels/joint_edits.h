#pragma once
// What the panels view changes in the document, as edits with labels. No Qt.
#include "core/document/edit.h"
#include "core/plates/plate.h"

namespace slab::ui {

enum class EdgeChoice { thisCovers, neighbourCovers, mitre, fold, open };

/// One entry in /joints/edges for this pair; what was said about the pair before is replaced.
[[nodiscard]] Edit chooseJoint(const std::string& plate, const std::string& neighbour, EdgeChoice choice);
/// Takes back what was said about this pair: the order of the plates decides again.
[[nodiscard]] Edit backToRule(const std::string& plate, const std::string& neighbour);
[[nodiscard]] bool hasOverride(const Project& project, const std::string& plate,
                               const std::string& neighbour);

/// Ticks a panel as cut, remembering what it looks like now; or takes the tick away.
[[nodiscard]] Edit markCut(const std::string& panel, const std::string& fingerprint, bool cut);
/// What a cut panel looked like when it was ticked; nothing if it is not ticked.
[[nodiscard]] std::optional<std::string> cutFingerprint(const Project& project, const std::string& panel);

/// No plate there: neighbours end free.
[[nodiscard]] Edit leaveOut(const std::string& plate);
/// The plate gets its material again: the document's other words about it, or the default stock.
[[nodiscard]] Edit bringBack(const std::string& plate);
/// Faces and free plates of the body that have no material.
[[nodiscard]] std::vector<std::string> leftOutPlates(const Body& body, const PlateSet& plates);

/// The joint of this plate with this neighbour nearest to the middle of an edge (body axes); nullptr if none.
[[nodiscard]] const JointInfo* jointAt(const PlateSet& plates, const std::string& plate,
                                       const std::string& neighbour, const Vec3& middle);

} // namespace slab::ui
