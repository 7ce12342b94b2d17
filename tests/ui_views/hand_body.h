#pragma once
// A small body made by hand for the views' tests: a box of six plates, a donor box, a rider capsule, two
// sheets.
#include "ui/session/session.h"

namespace slab::test {

/// Document that goes with it: joints and materials are read by handEvaluation(), the rest is for show.
Project handProject();
/// Plates by the real sharing rule with the document's joints and left-out plates; donor, fit and sheets by
/// hand.
Evaluation handEvaluation(const Project& project, std::uint64_t revision = 1);
/// A session that evaluates with handEvaluation().
ui::Engine handEngine();

/// Lets the session show its newest evaluation.
void rest(ui::Session& session);
/// Saves a picture to $SLABSIDE_SHOTS/name.png when that is set.
void shot(const QImage& image, const char* name);
void shot(QWidget& widget, const char* name);

} // namespace slab::test
