#pragma once
// The board's menus, and the keys that it listens to: one table each, that the help page is made from.
#include "ui/board/board_desk.h"
#include <QString>
#include <functional>
#include <vector>

class QMenu;

namespace slab::ui {

/// One line of the list of keys.
struct KeyLine {
    QString keys;  ///< as they are written on the keyboard: "Ctrl+D", "Shift and a click"
    QString words; ///< what they do
    bool operator==(const KeyLine&) const = default;
};

/// What can be done to what is chosen. @param after  called when something was done
void fillDeeds(QMenu* menu, BoardDesk* desk, const std::function<void()>& after);
/// What is seen: donor, rider, frames …; each can be ticked.
void fillShown(QMenu* menu, BoardDesk* desk);
/// Letters that take tools, keys of deeds, and keys that the sheet itself listens to.
[[nodiscard]] std::vector<KeyLine> boardKeys();
/// What the mouse does on the board, alone and with a key held down.
[[nodiscard]] std::vector<KeyLine> boardGestures();

} // namespace slab::ui
