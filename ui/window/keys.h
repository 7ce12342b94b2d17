#pragma once
// The list of keys: menus tell their own, every view's stand in one table.
#include "ui/board/board_menus.h"
#include <QDialog>

class QMenuBar;

namespace slab::ui {

/// Keys that work in one place of the window.
struct KeyGroup {
    QString where; ///< "everywhere", "in the tables"
    std::vector<KeyLine> lines;
};
/// Of the menus, everywhere; then of each view. Menu keys are read off the menus' actions.
[[nodiscard]] std::vector<KeyGroup> keyGroups(const QMenuBar* menus);
/// The same as tables of a README.
[[nodiscard]] QString keysAsMarkdown(const std::vector<KeyGroup>& groups);

/// Help, Keys: all groups to look through.
class KeysDialog : public QDialog {
    Q_OBJECT
public:
    explicit KeysDialog(const std::vector<KeyGroup>& groups, QWidget* parent = nullptr);
};

} // namespace slab::ui
