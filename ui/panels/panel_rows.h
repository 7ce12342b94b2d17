#pragma once
// What the panels view says about a panel: a row of the list, and the line of facts.
#include "ui/panels/panel_list.h"
#include "ui/session/session.h"
#include <map>

namespace slab::ui {

/// Makes the list's rows; thumbnails of panels that have not changed are kept.
class PanelRows {
public:
    /// All panels, then the plates that none is cut for.
    [[nodiscard]] std::vector<PanelRow> make(const Session& session);

private:
    PanelRow rowFor(const Session& session, const Panel& panel);
    std::map<std::string, std::pair<std::string, PanelRow>>
        m_kept; ///< by panel: fingerprint it was made from, row
};

/// Why a plate of the body has no panel.
enum class NoPanel {
    leftOut,      ///< the document says so
    noSheet,      ///< no sheet is named for it
    unknownSheet, ///< the sheet that is named is not in the stock
    notMade       ///< it has a sheet; the punch list knows more
};
[[nodiscard]] NoPanel whyNoPanel(const Project& project, const std::string& plate);
/// In two words, for the list.
[[nodiscard]] QString shortly(NoPanel why);
/// In a sentence.
[[nodiscard]] QString sentence(NoPanel why, const QString& plate);
/// What a button offers to do about it.
struct MissingDeed {
    QString words, tip;
};
[[nodiscard]] MissingDeed deedFor(NoPanel why, const std::vector<SheetStock>& sheets);
/// Everything without a sheet of its own is cut from this one.
[[nodiscard]] Edit cutAllFrom(const std::string& sheet);

/// Diagonals to check, area, stock; and whether it has changed since it was cut.
[[nodiscard]] QString factsOf(const Session& session, const Panel& panel, bool changed);
/// Where the arrow points on one copy of a panel; empty where all copies agree or it is none of them.
[[nodiscard]] std::string arrowFor(const Session& session, const Panel& panel, const std::string& copy);

} // namespace slab::ui
