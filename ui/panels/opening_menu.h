#pragma once
// The menu of openings that can be put in by a click, the same on the panel and in 3D.
#include "core/board/opening_edits.h"
#include <functional>

class QToolButton;

namespace slab::ui {

/// Gives a button the menu. @param taken  called with the kind that was chosen; null = the one in hand again
void fillOpenings(QToolButton* button, const std::function<void(const OpeningKind*)>& taken);
/// Shows which kind is in hand; null = none.
void markOpening(QToolButton* button, const OpeningKind* kind);

} // namespace slab::ui
